#include "casework/practice_room.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace dryout::casework {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

std::string minutes_compared(const PracticeTally& yours, const PracticeTally& expert) {
  const quantities::Second more = yours.spent - expert.spent;
  if (!yours.cured || !expert.cured) {
    const auto ended = [](const PracticeTally& tally) {
      return (tally.cured ? "gone after " : "still there after ") +
             quantities::format_duration(tally.spent);
    };
    return "The complaint: with you, " + ended(yours) + "; by the program's advice, " +
           ended(expert) + '.';
  }
  if (more > quantities::minutes(1.0)) {
    return "You took " + quantities::format_duration(more) + " longer than the program's advice.";
  }
  return more < quantities::minutes(-1.0)
             ? "You were quicker than the program's advice by " +
                   quantities::format_duration(expert.spent - yours.spent) + '.'
             : "You took as long as the program's advice.";
}

/// Where the two ways part: the first step that differs.
std::string parting(const PracticeWay& yours, const PracticeWay& expert) {
  const std::size_t both = std::min(yours.steps.size(), expert.steps.size());
  for (std::size_t i = 0; i < both; ++i) {
    if (yours.steps[i].text != expert.steps[i].text) {
      return "The ways part at step " + std::to_string(i + 1) + ": you, \"" + yours.steps[i].text +
             "\"; the advice, \"" + expert.steps[i].text + "\".";
    }
  }
  return both == 0 ? "" : "As far as both go, you went the way of the advice.";
}

std::vector<std::string> compared(const PracticeWay& yours, const PracticeWay& expert) {
  const PracticeTally& you = yours.tally;
  const PracticeTally& other = expert.tally;
  std::vector<std::string> lines{minutes_compared(you, other)};
  const auto both = [](int mine, int theirs) {
    return "you " + std::to_string(mine) + ", the advice " + std::to_string(theirs) + '.';
  };
  lines.push_back("Wrong replacements: " + both(you.needless, other.needless));
  if (you.dangerous_checks > 0 || other.dangerous_checks > 0) {
    lines.push_back("Dangerous checks: " + both(you.dangerous_checks, other.dangerous_checks));
  }
  if (const std::string where = parting(yours, expert); !where.empty()) {
    lines.push_back(where);
  }
  return lines;
}

Problem answers_itself(const char* what) {
  return {what, {}, "", "probe (F3) and mend (F4): in practice the set answers for itself"};
}

}  // namespace

Result<std::unique_ptr<PracticeRoom>> PracticeRoom::open(const Workshop& like,
                                                         const std::string& equipment,
                                                         std::uint64_t seed) {
  auto workshop = like.beside();
  if (!workshop) {
    return workshop.problems();
  }
  auto yours = Practice::begin(**workshop, equipment, seed);
  if (!yours) {
    return yours.problems();
  }
  auto room = std::make_unique<PracticeRoom>(std::move(*workshop), std::move(*yours));
  room->told_.seed = seed;
  room->told_.equipment = equipment;
  room->told_.equipment_title = room->yours_.view().equipment_title;
  for (const SymptomView& symptom : room->yours_.view().symptoms) {
    if (symptom.seen == "yes") {
      room->told_.complaint.push_back(symptom.title);
    }
  }
  return room;
}

CaseView PracticeRoom::view() const {
  CaseView view = yours_.view();
  if (!told_.over) {
    std::sort(view.next.begin(), view.next.end(), [](const CheckView& a, const CheckView& b) {
      return std::tie(a.title, a.place_title) < std::tie(b.title, b.place_title);
    });
  }
  return view;
}

const CheckView* PracticeRoom::hint() const {
  const std::vector<CheckView>& next = yours_.view().next;
  return next.empty() ? nullptr : &next.front();
}

Result<Done> PracticeRoom::apply(const Command& command) {
  if (told_.over) {
    return answers_itself("this practice is over");
  }
  if (const auto* outcome = std::get_if<RecordOutcome>(&command)) {
    return probe(*outcome);
  }
  if (const auto* repair = std::get_if<RecordRepair>(&command)) {
    return mend(*repair);
  }
  const bool taken = std::holds_alternative<AcknowledgeCautions>(command) ||
                     std::holds_alternative<DeclineCheck>(command) ||
                     std::holds_alternative<ReconsiderCheck>(command) ||
                     std::holds_alternative<JudgeSuspect>(command) ||
                     std::holds_alternative<AddNote>(command);
  return taken ? yours_.note_down(command)
               : answers_itself("that is not for you to tell in practice");
}

Result<Done> PracticeRoom::probe(const RecordOutcome& wish) {
  const std::vector<CheckView>& next = yours_.view().next;
  const auto check = std::find_if(next.begin(), next.end(), [&wish](const CheckView& candidate) {
    return candidate.check == wish.check && candidate.place == wish.place;
  });
  if (check == next.end()) {
    return answers_itself("this check is not among those that can be made now");
  }
  if (!check->acknowledged) {
    return answers_itself("the cautions of this check were not heeded yet");
  }
  const std::string title =
      check->title + (check->place_title.empty() ? "" : ", " + check->place_title);
  const auto bad = yours_.check(*check);
  if (!bad) {
    return bad.problems();
  }
  told_.word = title + (*bad ? ": it looks bad." : ": it looks good.");
  tell();
  return Done{};
}

Result<Done> PracticeRoom::mend(const RecordRepair& wish) {
  const std::vector<SuspectView>& suspects = yours_.view().suspects;
  const auto suspect =
      std::find_if(suspects.begin(), suspects.end(),
                   [&wish](const SuspectView& candidate) { return candidate.item == wish.item; });
  if (suspect == suspects.end()) {
    return answers_itself("there is no such suspect");
  }
  const std::string title = suspect->title;
  const auto cured = yours_.mend(*suspect);
  if (!cured) {
    return cured.problems();
  }
  told_.word =
      "Mended: " + title + (*cured ? ". The complaint is gone." : ". The set still does it.");
  tell();
  return *cured ? finish() : Result<Done>(Done{});
}

Result<Done> PracticeRoom::give_up() {
  told_.gave_up = true;
  tell();
  return finish();
}

void PracticeRoom::tell() { told_.yours = {yours_.tally(), yours_.steps()}; }

Result<Done> PracticeRoom::finish() {
  auto expert = Practice::begin(*workshop_, told_.equipment, told_.seed);
  if (!expert) {
    return expert.problems();
  }
  expert_ = std::move(expert).value();
  told_.over = true;
  told_.faults = yours_.faults();
  return Done{};
}

Result<Done> PracticeRoom::advise() {
  if (!expert_ || told_.compared) {
    return Done{};
  }
  const auto went_on = advised_step(*expert_);
  if (!went_on) {
    told_.compared = true;  // or it would be asked again for ever
    return went_on.problems();
  }
  told_.expert = {expert_->tally(), expert_->steps()};
  if (!*went_on) {
    told_.compared = true;
    told_.comparison = compared(told_.yours, told_.expert);
  }
  return Done{};
}

}  // namespace dryout::casework
