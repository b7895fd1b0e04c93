// Looking through the whole store: what SQLite can tell of its pages, and what it cannot: whether
// the journals are as they were written, and whether what stands beside them still follows.
#include "casestore/case_store.h"
#include "casestore/chain.h"
#include "casestore/database.h"
#include "casestore/facts_rows.h"
#include "casestore/journal_rows.h"
#include "casestore/reading_counts.h"
#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

Result<Done> check_pages(const Database& database, Problems& problems) {
  for (const std::string_view sql : {"PRAGMA integrity_check", "PRAGMA foreign_key_check"}) {
    auto statement = Statement::prepare(database, sql);
    if (!statement) {
      return statement.problems();
    }
    auto done = statement->for_each_row([&] {
      if (statement->text(0) != "ok") {
        problems.push_back(database.problem(SQLITE_CORRUPT, "read it: " + statement->text(0)));
      }
    });
    if (!done) {
      return done;
    }
  }
  return Done{};
}

Result<std::vector<std::int64_t>> numbers(const Database& database, const char* sql) {
  auto statement = Statement::prepare(database, sql);
  if (!statement) {
    return statement.problems();
  }
  std::vector<std::int64_t> all;
  const auto done = statement->for_each_row([&] { all.push_back(statement->integer(0)); });
  return done ? Result<std::vector<std::int64_t>>(std::move(all)) : done.problems();
}

constexpr const char* every_case = "SELECT number FROM bench_case ORDER BY number";
constexpr const char* every_journal = "SELECT DISTINCT bench_case FROM event";

/// Each step against its seal and the step that follows it.
Result<Done> check_journals(const Database& database, Problems& problems) {
  const auto all = numbers(database, every_journal);
  if (!all) {
    return all.problems();
  }
  for (const std::int64_t number : *all) {
    const auto journal = journal_rows(database, number, {});
    if (!journal) {
      return journal.problems();
    }
    for (const int sequence : journal->damaged) {
      problems.push_back(damaged_event(database.path(), number, sequence));
    }
  }
  return Done{};
}

/// What can be made anew from the journals.
Problem out_of_step(const Database& database, const std::string& what) {
  return {"what lists and searches go by does not follow from the journals",
          {database.path(), 0, {}},
          what,
          "`dryout case check --rebuild`, which makes it anew"};
}

Result<Done> check_times(const Database& database, Problems& problems) {
  auto statement = Statement::prepare(
      database,
      "SELECT number FROM bench_case WHERE "
      "opened_at IS NOT (SELECT at FROM event WHERE bench_case = number AND sequence = 1) OR "
      "changed_at IS NOT "
      "(SELECT at FROM event WHERE bench_case = number ORDER BY sequence DESC LIMIT 1)");
  if (!statement) {
    return statement.problems();
  }
  return statement->for_each_row([&] {
    problems.push_back(out_of_step(
        database, "case " + statement->text(0) + ": another time than that of its steps"));
  });
}

/// The search index against the text it was made from.
Result<Done> check_index(const Database& database, Problems& problems) {
  if (database.reads_only()) {
    return Done{};  // the index looks itself through by being written to
  }
  const auto index =
      database.run("INSERT INTO case_text (case_text, rank) VALUES ('integrity-check', 1)");
  if (!index) {
    problems.push_back(
        out_of_step(database, "the search index: " + index.problems().front().found));
  }
  return Done{};
}

}  // namespace

Result<Done> CaseStore::check_integrity() const {
  Problems problems;
  for (const auto check :
       {check_pages, check_journals, check_heads, check_times, check_counts, check_index}) {
    if (auto done = check(*database_, problems); !done) {
      return done;
    }
  }
  return problems.empty() ? Result<Done>(Done{}) : Result<Done>(std::move(problems));
}

Result<Done> CaseStore::check_facts(const FactsOf& facts_of) const {
  const auto all = numbers(*database_, every_case);
  if (!all) {
    return all.problems();
  }
  Problems problems;
  for (const std::int64_t number : *all) {
    const auto snapshot = Snapshot::of(*database_);
    const auto journal = snapshot ? journal_rows(*database_, number, {}) : snapshot.problems();
    if (!journal) {
      return journal.problems();
    }
    const auto facts = journal->events.empty() ? std::nullopt : facts_of(journal->events);
    if (!facts || !journal->damaged.empty()) {
      continue;  // said elsewhere
    }
    const auto differ = typed_words_differ(*database_, number, *facts);
    if (!differ) {
      return differ.problems();
    }
    if (*differ) {
      problems.push_back(out_of_step(
          *database_, "case " + std::to_string(number) + ": other words than its steps"));
    }
  }
  return problems.empty() ? Result<Done>(Done{}) : Result<Done>(std::move(problems));
}

}  // namespace dryout::casestore
