#include "casework/check_command.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "casework/complaint.h"
#include "casework/danger.h"
#include "casework/heeding.h"
#include "casework/located_symptoms.h"
#include "casework/proof_steps.h"
#include "decision/old_body.h"

namespace dryout::casework {
namespace {

using quantities::Problem;
using quantities::Problems;

/// Sets built before this have no capacitors anyone would recap.
constexpr int year_min = 1900;

void check_year(const std::optional<int>& year, int year_now, Problems& problems) {
  if (year && (*year < year_min || *year > year_now)) {
    problems.push_back({"this year of building is not possible",
                        {},
                        std::to_string(*year),
                        std::to_string(year_min) + " to " + std::to_string(year_now)});
  }
}

/// How a cause that is no part was done away with, where nobody says more.
constexpr std::string_view mended_somehow = "mended";

std::vector<std::string_view> symptoms_of(const Ground& ground) {
  std::vector<std::string_view> ids;
  for (const auto& finding : ground.compiled.findings) {
    if (!finding.symptom.empty()) {
      ids.push_back(finding.symptom);
    }
  }
  return ids;
}

/// The ids of all items, and those that short forms stand for.
std::vector<std::string_view> items_of(const Ground& ground, bool capacitors_only) {
  std::vector<std::string_view> ids;
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    const std::string_view id = ground.compiled.network.items[i].id;
    if (is_capacitor(ground.compiled.items[i])) {
      ids.push_back(id);
      ids.push_back(id.substr(id.find(':') + 1));
    } else if (!capacitors_only) {
      ids.push_back(id);
    }
  }
  return ids;
}

class CommandCheck {
 public:
  CommandCheck(const CaseState& state, const Ground& ground, Heeding heeding, Problems& problems)
      : state_(state), ground_(ground), heeding_(heeding), problems_(problems) {}

  void operator()(const TakeIn& correction) {
    if (!correction.equipment.empty()) {
      if (const auto found = find_equipment(*ground_.knowledge, correction.equipment); !found) {
        problems_.push_back(found.problems().front());
      }
    }
    check_year(correction.year_built, year_of(state_.opened_at), problems_);
  }
  void operator()(const ReportSymptom& report) {
    require_symptom(report.symptom);
    const Problems places = wrong_place(ground_, report);
    problems_.insert(problems_.end(), places.begin(), places.end());
  }
  void operator()(const RecordOutcome& outcome) {
    if (require_check(outcome.check, outcome.place) && outcome.bad != Seen::unclear) {
      const auto finding = ground_.check_finding(outcome.check, outcome.place);
      require_heeded(hazard_of(ground_, *finding), "outcome");
    }
  }
  void operator()(const RecordReading& reading) {
    if (require_item(reading.item, true)) {
      require_heeded(hazard_of_reading(ground_, *ground_.item(reading.item), reading.kind,
                                       reading.test_volts.value_or(quantities::Volt(0.0))),
                     "reading",
                     " of " + reading.item + '@' + std::string(readings::word_of(reading.kind)));
    }
    const Problems numbers = check_numbers(reading);
    problems_.insert(problems_.end(), numbers.begin(), numbers.end());
  }
  void operator()(const NamePart& part);
  void require_nothing_lost(const NamePart& part, const knowledge::PartGroup& group,
                            std::ptrdiff_t others);
  void operator()(const AcknowledgeCautions& c) {
    if (!reading_heeded(ground_, c.check, c.place)) {
      require_check(c.check, c.place);
    }
  }
  void operator()(const DeclineCheck& c) { require_check(c.check, c.place); }
  void operator()(const ReconsiderCheck& c) { require_check(c.check, c.place); }
  void operator()(const OpenAccess& c) { require_access(c.access); }
  void operator()(const CloseAccess& c) {
    require_access(c.access);
    for (const knowledge::AccessRule& rule : ground_.equipment->access) {
      const auto& needs = rule.needs;
      if (state_.open_access.contains(rule.id) &&
          std::find(needs.begin(), needs.end(), c.access) != needs.end()) {
        problems_.push_back({"what lies behind is still open", {}, rule.title, "shut that first"});
      }
    }
  }
  void operator()(const JudgeSuspect& c) { (void)require_item(c.item, false); }
  void operator()(const RecordRepair& c) {
    if (require_item(c.item, false)) {
      require_action(c);
      require_not_just_noted(c);
    }
  }
  void operator()(const RetestSymptom& c) {
    require_symptom(c.symptom);
    if (state_.repairs.empty()) {
      problems_.push_back({"nothing has been mended yet, so nothing can be tested again",
                           {},
                           "",
                           "record the repair first, or report the symptom"});
    }
  }
  void operator()(const RecordProof& c) {
    const Problems found = check_proof_step(c.step, ground_);
    problems_.insert(problems_.end(), found.begin(), found.end());
    require_mended(c);
  }
  void operator()(const AddNote& /*note*/) {}
  void operator()(const CloseCase& c) {
    if (!c.cause.empty()) {
      (void)require_item(c.cause, false);
    }
  }
  void operator()(const ReopenCase& /*reopening*/) {
    if (!state_.closed) {
      problems_.push_back({"the case is open", {}, "", "a closed case"});
    }
  }

 private:
  void require_symptom(const std::string& symptom) {
    if (ground_.symptom_finding(symptom)) {
      return;
    }
    const auto* known = knowledge::find(ground_.knowledge->symptoms, symptom);
    problems_.push_back(known == nullptr ? unknown("symptom", symptom, symptoms_of(ground_))
                                         : Problem{"this equipment cannot show that symptom",
                                                   {},
                                                   known->title,
                                                   "a symptom of " + ground_.equipment->title});
  }

  bool require_check(const std::string& check, const std::string& place) {
    if (ground_.check_finding(check, place)) {
      return true;
    }
    std::vector<std::string_view> places;
    std::vector<std::string_view> checks;
    for (const auto& finding : ground_.compiled.findings) {
      if (finding.check == check && !check.empty()) {
        places.push_back(finding.place);
      }
      if (!finding.check.empty()) {
        checks.push_back(finding.check);
      }
    }
    problems_.push_back(places.empty() ? unknown("check", check, checks)
                                       : unknown("place for " + check, place, places));
    return false;
  }

  /// `of`: how they are named where no check names them, " of C12@dc-volts".
  void require_heeded(const Hazard& hazard, const std::string& what, const std::string& of = "") {
    if (heeding_ == Heeding::done || !hazard.dangerous()) {
      return;
    }
    const Heeded heeded = heeded_of(ground_, state_);
    if (heeded.covers(hazard)) {
      return;
    }
    std::string names;
    for (const knowledge::Caution* caution : hazard.cautions) {
      if (!heeded.has_read(hazard, *caution)) {
        names += (names.empty() ? "" : ", ") + caution->title;
      }
    }
    problems_.push_back(
        {heed_first, {}, names, "heed the cautions" + of + ", then record the " + what});
  }

  /// The same repair twice in a row is a key pressed twice: nothing was tried in between.
  void require_not_just_noted(const RecordRepair& repair) {
    if (heeding_ == Heeding::done || state_.repairs.empty()) {
      return;
    }
    const RecordRepair& last = state_.repairs.back().what;
    if (last.item == ground_.compiled.network.items[*ground_.item(repair.item)].id &&
        last.action == repair.action && last.fitted == repair.fitted && awaits_retest(state_)) {
      problems_.push_back({"this repair was noted just now",
                           {},
                           repair.action,
                           "try the set again first, or say what else was done or fitted"});
    }
  }

  /// Journals of earlier versions may hold other words: they stand as they are.
  void require_action(const RecordRepair& repair) {
    const bool known = std::find(repair_actions.begin(), repair_actions.end(), repair.action) !=
                       repair_actions.end();
    const bool a_part = is_capacitor(ground_.compiled.items[*ground_.item(repair.item)]);
    if (heeding_ == Heeding::done || known || (!a_part && repair.action == mended_somehow)) {
      return;
    }
    std::string accepted;
    for (const std::string_view action : repair_actions) {
      accepted += (accepted.empty() ? "" : ", ") + std::string(action);
    }
    problems_.push_back({"this is nothing that is done to mend it",
                         {},
                         '"' + quantities::excerpt(repair.action) + '"',
                         accepted + (a_part ? "" : ", " + std::string(mended_somehow))});
  }

  /// A proof is of a repair. Of a set that nobody complains of there need not be one.
  void require_mended(const RecordProof& proof) {
    const bool complained =
        std::any_of(state_.symptoms.begin(), state_.symptoms.end(),
                    [](const auto& told) { return told.what.seen == Seen::yes; });
    if (heeding_ == Heeding::required && complained && state_.repairs.empty()) {
      problems_.push_back({"nothing has been mended yet, so nothing can be proved",
                           {},
                           title_of_proof_step(proof.step, ground_),
                           "record the repair first"});
    }
  }

  void require_access(const std::string& access) {
    if (knowledge::find(ground_.equipment->access, access) == nullptr) {
      problems_.push_back(unknown("thing to open", access, ids_of(ground_.equipment->access)));
    }
  }

  bool require_item(const std::string& id, bool capacitors_only) {
    const auto item = ground_.item(id);
    if (!item) {
      problems_.push_back(unknown(capacitors_only ? "part or group" : "suspect", id,
                                  items_of(ground_, capacitors_only)));
    } else if (capacitors_only && !is_capacitor(ground_.compiled.items[*item])) {
      problems_.push_back({"a reading belongs to a capacitor",
                           {},
                           ground_.compiled.items[*item].title,
                           "a part or a part group"});
    } else {
      return true;
    }
    return false;
  }

  const CaseState& state_;
  const Ground& ground_;
  Heeding heeding_;
  Problems& problems_;
};

bool is_reference(const std::string& text) {
  constexpr std::size_t length_max = 16;
  const auto plain = [](unsigned char c) { return std::isalnum(c) != 0 || c == '-' || c == '.'; };
  return text.size() <= length_max && std::isalpha(static_cast<unsigned char>(text[0])) != 0 &&
         std::all_of(text.begin(), text.end(), plain);
}

/// What was told of a group as a whole has no place any more when all its parts have names.
void CommandCheck::require_nothing_lost(const NamePart& part, const knowledge::PartGroup& group,
                                        std::ptrdiff_t others) {
  const bool named = std::any_of(state_.parts.begin(), state_.parts.end(), [&](const auto& other) {
    return other.reference == part.reference && other.group == part.group;
  });
  if (named || group.count == 1 || others + 1 != group.count) {
    return;
  }
  const auto of_group = [&group](const std::string& item) {
    return item == group.id || item == "group:" + group.id;
  };
  std::string told;
  for (const auto& reading : state_.readings) {
    if (of_group(reading.what.item)) {
      told = "a reading, step " + std::to_string(reading.event);
    }
  }
  for (const auto& outcome : state_.outcomes) {
    if (of_group(outcome.what.place)) {
      told = "an outcome, step " + std::to_string(outcome.event);
    }
  }
  if (!told.empty()) {
    problems_.push_back(
        {"with all its parts named, what was told of this group would be of none of them",
         {},
         group.title + ": " + told,
         "record it again at the part it is of, take that step back, then give the last name"});
  }
}

void CommandCheck::operator()(const NamePart& part) {
  if (part.reference.empty() || !is_reference(part.reference)) {
    problems_.push_back({"this is no reference as printed on a board",
                         {},
                         '"' + quantities::excerpt(part.reference) + '"',
                         "a letter, then letters and digits: C12"});
  }
  const auto* group = knowledge::find(ground_.equipment->groups, part.group);
  if (group == nullptr) {
    problems_.push_back(unknown("part group", part.group, ids_of(ground_.equipment->groups)));
    return;
  }
  // More than the architecture says may be there: the set is right, and the type's number is not.
  constexpr std::ptrdiff_t parts_max = 500;
  const auto others = std::count_if(state_.parts.begin(), state_.parts.end(), [&](const auto& p) {
    return p.group == part.group && p.reference != part.reference;
  });
  if (others >= parts_max) {
    problems_.push_back({"no group has so many parts",
                         {},
                         group->title + ", " + std::to_string(others) + " parts with names",
                         "another group, or take one of the names back"});
  }
  require_nothing_lost(part, *group, others);
  if (!part.technology.empty() &&
      knowledge::find(ground_.knowledge->technologies, part.technology) == nullptr) {
    problems_.push_back(
        unknown("technology", part.technology, ids_of(ground_.knowledge->technologies)));
  }
  using quantities::Measure;
  const auto require = [this](const auto& value, Measure measure, const char* what) {
    if (!value) {
      return;
    }
    if (auto problem = quantities::out_of_range(range_of(measure), value->si(), what)) {
      problems_.push_back(*std::move(problem));
    }
  };
  require(part.capacitance, Measure::marked_capacitance, "this capacitance");
  require(part.rated, Measure::rated_volts, "this rated voltage");
  if (const auto body = decision::parse_old_body(part.body); !body) {
    problems_.insert(problems_.end(), body.problems().begin(), body.problems().end());
  }
}

bool allowed_when_closed(const Command& command) {
  return std::holds_alternative<ReopenCase>(command) || std::holds_alternative<AddNote>(command);
}

}  // namespace

Problems check_command(const Command& command, const CaseState& state, const Ground& ground,
                       Heeding heeding) {
  if (state.closed && !allowed_when_closed(command)) {
    return {{"the case is closed", {}, "", "reopen it first"}};
  }
  Problems problems = check_texts(command);
  if (problems.empty()) {
    std::visit(CommandCheck(state, ground, heeding, problems), command);
  }
  return problems;
}

Problems check_intake(const TakeIn& intake, const knowledge::KnowledgeBase& knowledge,
                      int year_now) {
  Problems problems = check_texts(intake);
  if (!problems.empty()) {
    return problems;
  }
  if (const auto equipment = find_equipment(knowledge, intake.equipment); !equipment) {
    problems.push_back(equipment.problems().front());
  }
  check_year(intake.year_built, year_now, problems);
  return problems;
}

}  // namespace dryout::casework
