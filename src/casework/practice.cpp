#include "casework/practice.h"

#include <algorithm>
#include <utility>

namespace dryout::casework {
namespace {

using quantities::Done;
using quantities::Result;

/// One run of the set after mending (judgement).
constexpr quantities::Second proof = quantities::minutes(5.0);

bool pays(const CheckView& check) { return check.saving > check.effort + check.access_effort; }

/// After this long by the program's advice the set is handed to other means (judgement).
constexpr quantities::Second patience = quantities::hours(8.0);

/// The most suspicious that was not mended yet; null where all were.
const SuspectView* first_unmended(const CaseView& view) {
  const auto found =
      std::find_if(view.suspects.begin(), view.suspects.end(),
                   [](const SuspectView& suspect) { return suspect.mended.empty(); });
  return found == view.suspects.end() ? nullptr : &*found;
}

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
  for (const std::string& symptom : practice.set_.symptoms()) {
    if (const auto told = practice.apply(ReportSymptom{symptom, Seen::yes}); !told) {
      return told.problems();
    }
  }
  return practice;
}

Result<Done> Practice::apply(const Command& command) {
  auto view = workshop_->apply(view_.number, command);
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
  for (const Command& command : commands) {
    if (const auto done = apply(command); !done) {
      return done.problems();
    }
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
  for (const Command& command : commands) {
    if (const auto done = apply(command); !done) {
      return done.problems();
    }
  }
  tally_.mended += 1;
  tally_.needless += mended.was_faulty ? 0 : 1;
  tally_.cured = cured;
  note("Mended: " + title + (mended.was_faulty ? "" : " (it was sound)"), mended.effort + proof);
  return cured;
}

Result<bool> advised_step(Practice& practice) {
  if (practice.tally().cured || practice.tally().spent >= patience) {
    return false;
  }
  const CaseView& view = practice.view();
  const bool worth_a_check = !view.leading.settled && !view.next.empty() && pays(view.next[0]);
  const SuspectView* suspect = first_unmended(view);
  if (!worth_a_check && suspect == nullptr) {
    return false;
  }
  const auto done = worth_a_check ? practice.check(view.next.front()) : practice.mend(*suspect);
  return done ? Result<bool>(true) : Result<bool>(done.problems());
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
