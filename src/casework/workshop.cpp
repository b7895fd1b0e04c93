#include "casework/workshop.h"

#include <algorithm>
#include <map>

#include "casestore/case_store.h"
#include "casework/apply_command.h"
#include "casework/build_view.h"
#include "casework/case_facts.h"
#include "casework/case_file.h"
#include "casework/check_command.h"
#include "casework/play_equipment.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using casestore::Appended;
using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

std::vector<CaseSummary> summaries_of(const std::vector<casestore::CaseRow>& rows,
                                      const knowledge::KnowledgeBase& knowledge) {
  std::vector<CaseSummary> summaries;
  for (const casestore::CaseRow& row : rows) {
    const auto* equipment = knowledge::find(knowledge.equipment, row.facts.equipment);
    summaries.push_back({row.number, row.facts.set_name,
                         equipment == nullptr ? row.facts.equipment : equipment->title,
                         row.facts.complaint, local_time(row.opened_at),
                         row.facts.closed ? "closed" : "open", row.facts.owner,
                         local_time(row.changed_at), row.facts.cause});
  }
  return summaries;
}

}  // namespace

struct Workshop::Inside {
  Inside(casestore::CaseStore opened, std::string store_path, knowledge::KnowledgeBase loaded,
         readings::ReadingKnowledge limits, Clock ticking)
      : store(std::move(opened)),
        path(std::move(store_path)),
        knowledge(std::move(loaded)),
        reading_knowledge(std::move(limits)),
        clock(std::move(ticking)),
        grounds(knowledge, reading_knowledge) {}

  /// Makes the next entry from the journal as it stands.
  using MakeEntry = std::function<Result<Entry>(const Journal&)>;

  /// The journal of a case with everything that anyone has written to it by now.
  Result<const Journal*> refreshed(std::int64_t number);
  /// Makes an entry, writes it, and shows the case. Where another writer was quicker the entry is
  /// made anew from the longer journal, or (`careful`) refused.
  Result<CaseView> write(std::int64_t number, const MakeEntry& make, bool careful);
  Result<CaseView> view(std::int64_t number, const Journal& journal);

  casestore::CaseStore store;
  std::string path;
  knowledge::KnowledgeBase knowledge;
  readings::ReadingKnowledge reading_knowledge;
  Clock clock;
  GroundCache grounds;
  std::map<std::int64_t, Journal> journals;  ///< as far as they have been read
};

Result<const Journal*> Workshop::Inside::refreshed(std::int64_t number) {
  const auto known = journals.find(number);
  const int seen = known == journals.end() ? 0 : known->second.back().sequence;
  const auto rows = store.events(number, seen);
  if (!rows) {
    return rows.problems();
  }
  auto newer = journal_of(*rows, path);
  if (!newer) {
    return newer.problems();
  }
  Journal& journal = journals[number];
  journal.insert(journal.end(), newer->begin(), newer->end());
  return &journal;
}

Result<CaseView> Workshop::Inside::write(std::int64_t number, const MakeEntry& make, bool careful) {
  constexpr int tries = 10;
  const auto known = journals.find(number);
  const int seen = known == journals.end() ? 0 : known->second.back().sequence;
  for (int i = 0; i < tries; ++i) {
    const auto journal = refreshed(number);
    if (!journal) {
      return journal.problems();
    }
    const int newest = (*journal)->back().sequence;
    if (careful && seen != 0 && newest != seen) {
      return Problem{"the case was changed by another program in the meantime",
                     {path, 0, {}},
                     "",
                     "it is shown anew: look at it, then try again"};
    }
    auto entry = make(**journal);
    if (!entry) {
      return entry.problems();
    }
    Journal longer = **journal;
    longer.push_back(*entry);
    const auto appended =
        store.append_event(number, newest, to_event(*entry), facts_of(state_of(longer), knowledge));
    if (!appended) {
      return appended.problems();
    }
    if (*appended == Appended::written) {
      journals[number] = std::move(longer);
      return view(number, journals[number]);
    }
  }
  return Problem{"other programs keep changing this case", {path, 0, {}}, "", "try again"};
}

Result<CaseView> Workshop::Inside::view(std::int64_t number, const Journal& journal) {
  const CaseState state = state_of(journal);
  const auto ground = grounds.of(state);
  if (!ground) {
    return ground.problems();
  }
  const auto reasoning = reason(**ground, state);
  if (!reasoning) {
    return reasoning.problems();
  }
  return build_view(number, journal, {**ground, state, *reasoning});
}

Workshop::Workshop(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Workshop::~Workshop() = default;

Result<std::unique_ptr<Workshop>> Workshop::open(const std::string& store_path,
                                                 knowledge::KnowledgeBase knowledge, Clock clock,
                                                 readings::ReadingKnowledge readings) {
  auto store = casestore::CaseStore::open(store_path);
  if (!store) {
    return store.problems();
  }
  auto inside = std::make_unique<Inside>(std::move(*store), store_path, std::move(knowledge),
                                         std::move(readings), std::move(clock));
  return std::make_unique<Workshop>(std::move(inside));
}

const knowledge::KnowledgeBase& Workshop::knowledge() const { return inside_->knowledge; }

Result<std::vector<CaseSummary>> Workshop::cases() const {
  const auto rows = inside_->store.list();
  if (!rows) {
    return rows.problems();
  }
  return summaries_of(*rows, inside_->knowledge);
}

Result<std::vector<CaseSummary>> Workshop::search(const std::string& words) const {
  const auto rows = inside_->store.search(words);
  if (!rows) {
    return rows.problems();
  }
  return summaries_of(*rows, inside_->knowledge);
}

Result<std::int64_t> Workshop::start(const TakeIn& intake) {
  const std::int64_t now = inside_->clock();
  const Problems problems = check_intake(intake, inside_->knowledge, year_of(now));
  if (!problems.empty()) {
    return problems;
  }
  const Journal journal{{1, now, Command(intake)}};
  return inside_->store.create_case(facts_of(state_of(journal), inside_->knowledge),
                                    {to_event(journal.front())});
}

Result<CaseView> Workshop::apply(std::int64_t number, const Command& command) {
  return inside_->write(
      number,
      [&](const Journal& journal) {
        return apply_command(journal, command, inside_->clock(), inside_->grounds);
      },
      false);
}

Result<CaseView> Workshop::undo(std::int64_t number) {
  return inside_->write(
      number,
      [&](const Journal& journal) {
        return casework::take_back(journal, 0, inside_->clock(), inside_->grounds);
      },
      true);
}

Result<CaseView> Workshop::redo(std::int64_t number) {
  return inside_->write(
      number, [&](const Journal& journal) { return bring_back(journal, inside_->clock()); }, true);
}

Result<CaseView> Workshop::take_back(std::int64_t number, int event) {
  return inside_->write(
      number,
      [&](const Journal& journal) -> Result<Entry> {
        if (event < 1) {
          return Problem{"no such step", {}, std::to_string(event), "the number of a step"};
        }
        return casework::take_back(journal, event, inside_->clock(), inside_->grounds);
      },
      false);
}

Result<CaseView> Workshop::view(std::int64_t number) const {
  const auto journal = inside_->refreshed(number);
  if (!journal) {
    return journal.problems();
  }
  return inside_->view(number, **journal);
}

Result<PlanStep> Workshop::plan_ahead(std::int64_t number, int depth) const {
  const auto journal = inside_->refreshed(number);
  if (!journal) {
    return journal.problems();
  }
  const CaseState state = state_of(**journal);
  const auto ground = inside_->grounds.of(state);
  if (!ground) {
    return ground.problems();
  }
  const auto reasoning = reason(**ground, state);
  if (!reasoning) {
    return reasoning.problems();
  }
  return casework::plan_ahead(**ground, *reasoning, depth);
}

Result<planning::SimulationReport> Workshop::simulate(
    const std::string& equipment, planning::Habit habit,
    const planning::SimulationSettings& settings) const {
  return play_equipment(inside_->grounds, equipment, inside_->clock(), habit, settings);
}

Result<std::string> Workshop::export_case(std::int64_t number) const {
  const auto journal = inside_->refreshed(number);
  if (!journal) {
    return journal.problems();
  }
  return case_text(**journal);
}

Result<std::int64_t> Workshop::import_case(const std::string& text, const std::string& file) {
  const auto read = read_case_text(text, file);
  if (!read) {
    return read.problems();
  }
  const auto journal = admit(*read, inside_->knowledge, inside_->grounds);
  if (!journal) {
    Problems problems = journal.problems();
    for (Problem& problem : problems) {
      problem.place.file = file;
    }
    return problems;
  }
  std::vector<casestore::NewEvent> events;
  for (const Entry& entry : *journal) {
    events.push_back(to_event(entry));
  }
  return inside_->store.create_case(facts_of(state_of(*journal), inside_->knowledge), events);
}

Result<Done> Workshop::backup(const std::string& destination) const {
  return inside_->store.backup(destination);
}

Result<Done> Workshop::check_integrity() const { return inside_->store.check_integrity(); }

}  // namespace dryout::casework
