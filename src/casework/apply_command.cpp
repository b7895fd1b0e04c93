#include "casework/apply_command.h"

#include <algorithm>

#include "casework/check_command.h"
#include "casework/heeding.h"
#include "quantities/check.h"
#include "quantities/spelling.h"

namespace dryout::casework {
namespace {

using quantities::in_capitals;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

const Command& command_of(const Entry& entry) { return std::get<Command>(entry.act); }

int next_sequence(const Journal& journal) {
  return journal.empty() ? 1 : journal.back().sequence + 1;
}

/// Names and notes are told without knowing which parts the network has by now, and compiling it
/// is the dear part.
bool needs_network(const Command& command) {
  return !std::holds_alternative<NamePart>(command) && !std::holds_alternative<AddNote>(command);
}

bool changes_equipment(const Command& command, const CaseState& state) {
  const auto* correction = std::get_if<TakeIn>(&command);
  return correction != nullptr && !correction->equipment.empty() &&
         correction->equipment != state.intake.equipment;
}

/// What can be done where the rules of the set are not at hand.
bool asks_no_rule(const Command& command) { return std::holds_alternative<AddNote>(command); }

Result<const Ground*> ground_for(const Command& command, const CaseState& state,
                                 GroundCache& grounds) {
  auto ground = needs_network(command) ? grounds.of(state) : grounds.of_equipment(state);
  if (!ground && changes_equipment(command, state)) {
    CaseState then = state;  // whatever it was, what it becomes may be known
    then.intake = corrected(state.intake, std::get<TakeIn>(command));
    ground = grounds.of(then);
  }
  return ground;
}

/// What stands against a command where the case stands, the ground included.
Problems problems_with(const Command& command, const CaseState& state, GroundCache& grounds,
                       Heeding heeding) {
  const auto ground = ground_for(command, state, grounds);
  if (!ground && asks_no_rule(command)) {
    return check_texts(command);
  }
  return ground ? check_command(command, state, **ground, heeding) : ground.problems();
}

/// What the cautions heeded allowed while `heeding` was in force, and would not without it.
bool rests_on_heeding(const Command& command, const CaseState& without, const Entry* heeding,
                      GroundCache& grounds) {
  if (heeding == nullptr || problems_with(command, without, grounds, Heeding::required).empty()) {
    return false;
  }
  CaseState with = without;
  fold(with, heeding->sequence, heeding->at, command_of(*heeding));
  return problems_with(command, with, grounds, Heeding::required).empty();
}

template <class C>
bool says(const Entry* entry) {
  return entry != nullptr && std::holds_alternative<C>(command_of(*entry));
}

/// Replays commands from an intake and names the first that would now be refused. `taken`: the step
/// that is to be taken back, null = the set became another. What was told before a step does not
/// rest on it, unless the step says what set it is.
Problems first_refusal(const TakeIn& intake, const std::vector<const Entry*>& in_force,
                       const Entry* taken, GroundCache& grounds) {
  const int from = taken == nullptr || says<TakeIn>(taken) ? 0 : taken->sequence;
  const Entry* const heeding = says<AcknowledgeCautions>(taken) ? taken : nullptr;
  CaseState state;
  fold(state, in_force.front()->sequence, in_force.front()->at, intake);
  for (auto each = in_force.begin() + 1; each != in_force.end(); ++each) {
    const Entry& entry = **each;
    if (std::holds_alternative<TakeIn>(command_of(entry))) {
      continue;  // corrections are part of `intake`
    }
    Problems problems;
    if (entry.sequence > from) {
      const bool rests = rests_on_heeding(command_of(entry), state, heeding, grounds);
      problems = problems_with(command_of(entry), state, grounds,
                               rests ? Heeding::required : Heeding::done);
    }
    if (!problems.empty()) {
      Problem problem = problems.front();
      problem.message =
          "step " + std::to_string(entry.sequence) + " stands in the way: " + problem.message;
      problem.accepted = "take step " + std::to_string(entry.sequence) + " back first";
      return {problem};
    }
    fold(state, entry.sequence, entry.at, command_of(entry));
  }
  return {};
}

const Entry* entry_of(const Journal& journal, int sequence) {
  const auto found = std::find_if(journal.begin(), journal.end(), [sequence](const Entry& entry) {
    return entry.sequence == sequence;
  });
  return found == journal.end() ? nullptr : &*found;
}

Problems at_entry(Problems problems, std::size_t index) {
  for (Problem& problem : problems) {
    problem.place.pointer = "/journal/" + std::to_string(index);
  }
  return problems;
}

Problems check_first(const Journal& journal, const knowledge::KnowledgeBase& knowledge) {
  const auto* first = journal.empty() ? nullptr : std::get_if<Command>(&journal.front().act);
  const auto* intake = first == nullptr ? nullptr : std::get_if<TakeIn>(first);
  if (intake == nullptr) {
    return {{"a case begins with its intake", {}, "", "\"do\": \"take-in\" in the first entry"}};
  }
  return check_intake(*intake, knowledge, year_of(journal.front().at));
}

/// References stand on boards in capitals: c901 is C901, unless a part was given the name as typed.
Command with_references_as_printed(Command command, const CaseState& state, const Ground& ground) {
  const auto named = [&state](const std::string& reference) {
    return std::any_of(state.parts.begin(), state.parts.end(),
                       [&](const NamePart& part) { return part.reference == reference; });
  };
  const auto print = [&](std::string& id) {
    if (!ground.item(id) && named(in_capitals(id))) {
      id = in_capitals(id);
    }
  };
  if (auto* part = std::get_if<NamePart>(&command)) {
    if (!named(part->reference)) {
      part->reference = in_capitals(part->reference);
    }
  } else if (auto* reading = std::get_if<RecordReading>(&command)) {
    print(reading->item);
  } else if (auto* heeded = std::get_if<AcknowledgeCautions>(&command)) {
    print(heeded->check);
  } else if (auto* judged = std::get_if<JudgeSuspect>(&command)) {
    print(judged->item);
  } else if (auto* repair = std::get_if<RecordRepair>(&command)) {
    print(repair->item);
  } else if (auto* closing = std::get_if<CloseCase>(&command)) {
    print(closing->cause);
  }
  return command;
}

/// Items go into the journal by their full ids: "reservoirs" and "group:reservoirs" are one thing.
Command with_full_ids(Command command, const Ground& ground) {
  const auto fill = [&](std::string& id) {
    if (const auto item = ground.item(id)) {
      id = ground.compiled.network.items[*item].id;
    }
  };
  if (auto* reading = std::get_if<RecordReading>(&command)) {
    fill(reading->item);
  } else if (auto* heeded = std::get_if<AcknowledgeCautions>(&command)) {
    if (reading_heeded(ground, heeded->check, heeded->place)) {
      fill(heeded->check);
    }
  } else if (auto* judged = std::get_if<JudgeSuspect>(&command)) {
    fill(judged->item);
  } else if (auto* repair = std::get_if<RecordRepair>(&command)) {
    fill(repair->item);
  } else if (auto* closing = std::get_if<CloseCase>(&command)) {
    fill(closing->cause);
  }
  return command;
}

/// An undo or redo as it would be written here, if it may come next.
Result<Entry> admit_withdrawal(const Journal& journal, const Entry& entry, GroundCache& grounds) {
  if (const auto* undo = std::get_if<Undo>(&entry.act)) {
    return take_back(journal, undo->of, entry.at, grounds);
  }
  if (may_follow(standing_of(journal), entry)) {
    return entry;
  }
  return Problem{"nothing that was just taken back has this number",
                 {},
                 std::to_string(std::get<Redo>(entry.act).of),
                 "the step taken back last"};
}

Result<Entry> next_entry(const Journal& journal, const CaseState& state, const Entry& wanted,
                         GroundCache& grounds, Heeding heeding) {
  // What is written down already is read as it was written.
  Command command = command_of(wanted);
  if (heeding == Heeding::required) {
    if (const auto known = ground_for(command, state, grounds)) {
      command = with_references_as_printed(std::move(command), state, **known);
    }
  }
  Problems problems = problems_with(command, state, grounds, heeding);
  if (problems.empty() && changes_equipment(command, state)) {
    const TakeIn intake = corrected(state.intake, std::get<TakeIn>(command));
    problems = first_refusal(intake, standing_of(journal).in_force, nullptr, grounds);
  }
  if (!problems.empty()) {
    return problems;
  }
  if (asks_no_rule(command)) {
    return Entry{next_sequence(journal), wanted.at, command};
  }
  const auto ground = ground_for(command, state, grounds);
  if (!ground) {
    return ground.problems();
  }
  return Entry{next_sequence(journal), wanted.at, with_full_ids(command, **ground)};
}

}  // namespace

CaseState state_of(const Journal& journal) {
  CaseState state;
  for (const Entry* entry : standing_of(journal).in_force) {
    fold(state, entry->sequence, entry->at, command_of(*entry));
  }
  return state;
}

Result<Entry> apply_command(const Journal& journal, const Command& command, std::int64_t at,
                            GroundCache& grounds) {
  CHECK(!journal.empty());
  return next_entry(journal, state_of(journal), {0, at, command}, grounds, Heeding::required);
}

Result<Entry> take_back(const Journal& journal, int of, std::int64_t at, GroundCache& grounds) {
  CHECK(!journal.empty());
  const Standing standing = standing_of(journal);
  if (of == 0 && !standing.undo) {
    return Problem{"there is nothing to take back", {}, "", "a step after the intake"};
  }
  const Entry entry{next_sequence(journal), at, Undo{of == 0 ? *standing.undo : of}};
  if (!may_follow(standing, entry)) {
    return Problem{"this step cannot be taken back",
                   {},
                   std::to_string(of),
                   "a step that is in force, and not the intake"};
  }
  Journal without = journal;
  without.push_back(entry);
  const Standing after = standing_of(without);
  const Entry* const taken = entry_of(journal, std::get<Undo>(entry.act).of);
  CHECK(taken != nullptr);
  const Problems problems = first_refusal(state_of(without).intake, after.in_force, taken, grounds);
  if (!problems.empty()) {
    return problems;
  }
  return entry;
}

Result<Entry> bring_back(const Journal& journal, std::int64_t at) {
  CHECK(!journal.empty());
  const auto redo = standing_of(journal).redo;
  if (!redo) {
    return Problem{"there is nothing to bring back",
                   {},
                   "",
                   "a step that was just taken back, before anything else is told"};
  }
  return Entry{next_sequence(journal), at, Redo{*redo}};
}

Result<Journal> admit(const Journal& journal, const knowledge::KnowledgeBase& knowledge,
                      GroundCache& grounds) {
  if (Problems problems = check_first(journal, knowledge); !problems.empty()) {
    return at_entry(std::move(problems), 0);
  }
  Journal admitted{journal.front()};
  CaseState state = state_of(admitted);
  for (std::size_t i = 1; i < journal.size(); ++i) {
    const bool withdrawal = !std::holds_alternative<Command>(journal[i].act);
    auto entry = withdrawal ? admit_withdrawal(admitted, journal[i], grounds)
                            : next_entry(admitted, state, journal[i], grounds, Heeding::done);
    if (!entry) {
      return at_entry(entry.problems(), i);
    }
    admitted.push_back(std::move(*entry));
    if (withdrawal) {
      state = state_of(admitted);
    } else {
      fold(state, admitted.back().sequence, admitted.back().at, command_of(admitted.back()));
    }
  }
  return admitted;
}

}  // namespace dryout::casework
