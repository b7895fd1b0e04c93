#include "casework/practice.h"

#include <algorithm>
#include <utility>

namespace dryout::casework {
namespace {

using quantities::Done;
using quantities::Result;

}  // namespace

Result<Practice> Practice::begin(Workshop& workshop, const std::string& equipment,
                                 std::uint64_t seed) {
  auto set = workshop.draw_set(equipment, seed);
  if (!set) {
    return set.problems();
  }
  Practice practice(workshop, std::move(*set));
  TakeIn intake;
  intake.equipment = equipment;
  intake.set_name = "practice set " + std::to_string(seed);
  const auto number = workshop.start(intake);
  if (!number) {
    return number.problems();
  }
  practice.view_.number = *number;
  practice.faults_ = practice.set_.faults();
  std::vector<Command> complaint;
  for (const std::string& symptom : practice.set_.symptoms()) {
    complaint.emplace_back(ReportSymptom{symptom, Seen::yes});
  }
  if (const auto told = practice.apply(complaint); !told) {
    return told.problems();
  }
  return practice;
}

Result<Done> Practice::apply(const std::vector<Command>& commands) {
  auto view = workshop_->apply_all(view_.number, commands);
  if (!view) {
    return view.problems();
  }
  view_ = std::move(*view);
  return Done{};
}

void Practice::note(std::string text, quantities::Second spent) {
  tally_.spent += spent;
  steps_.push_back({std::move(text), spent});
}

Result<bool> Practice::check(const CheckView& check) {
  const CheckView made = check;  // it is part of the view, which each command replaces
  const bool bad = set_.looks_bad(made.check, made.place);
  std::vector<Command> commands;
  if (!made.acknowledged) {
    commands.emplace_back(AcknowledgeCautions{made.check, made.place});
  }
  for (const std::string& access : made.opens) {
    commands.emplace_back(OpenAccess{access});
  }
  commands.emplace_back(RecordOutcome{made.check, made.place, bad ? Seen::yes : Seen::no, ""});
  if (const auto done = apply(commands); !done) {
    return done.problems();
  }
  set_.open(made.opens);
  tally_.checks += 1;
  tally_.dangerous_checks += made.dangerous ? 1 : 0;
  const std::string place = made.place_title.empty() ? "" : ", " + made.place_title;
  note(made.title + place + (bad ? ": looked bad" : ": looked good"),
       made.effort + made.access_effort);
  return bad;
}

Result<bool> Practice::mend(const SuspectView& suspect) {
  const std::string item = suspect.item;
  const std::string title = suspect.title;
  const DrawnSet::Mended mended = set_.mend(item);
  const std::vector<std::string> left = set_.symptoms();
  const auto still = [&](const std::string& symptom) {
    return std::find(left.begin(), left.end(), symptom) != left.end();
  };
  std::vector<Command> commands;
  for (const std::string& access : mended.opened) {
    commands.emplace_back(OpenAccess{access});
  }
  commands.emplace_back(RecordRepair{item, suspect.capacitor ? "replaced" : "mended", ""});
  bool cured = true;
  for (const SymptomView& symptom : view_.symptoms) {
    if (symptom.seen == "yes") {
      cured = cured && !still(symptom.id);
      commands.emplace_back(RetestSymptom{symptom.id, still(symptom.id)});
    }
  }
  if (const auto done = apply(commands); !done) {
    return done.problems();
  }
  tally_.mended += 1;
  tally_.needless += mended.was_faulty ? 0 : 1;
  tally_.cured = cured;
  note("Mended: " + title + (mended.was_faulty ? "" : " (it was sound)"),
       mended.effort + proof_run);
  return cured;
}

Result<bool> advised_step(Practice& practice) {
  const CaseView& view = practice.view();
  if (practice.tally().cured) {
    return false;
  }
  if (view.advice.act == Advice::Act::check) {
    const auto bad = practice.check(view.next.front());
    return bad ? Result<bool>(true) : Result<bool>(bad.problems());
  }
  const auto suspect =
      std::find_if(view.suspects.begin(), view.suspects.end(), [&view](const SuspectView& each) {
        return view.advice.act == Advice::Act::mend && each.item == view.advice.item;
      });
  if (suspect == view.suspects.end()) {
    return false;
  }
  const auto cured = practice.mend(*suspect);
  return cured ? Result<bool>(true) : Result<bool>(cured.problems());
}

Result<Done> follow_advice(Practice& practice) {
  for (;;) {
    const auto went_on = advised_step(practice);
    if (!went_on) {
      return went_on.problems();
    }
    if (!*went_on) {
      return Done{};
    }
  }
}

}  // namespace dryout::casework
