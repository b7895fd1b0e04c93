// Facts made anew from the journals, a thousand cases at a time: a store is opened again where it
// was left, and nobody waits long for the right to write. A case whose journal is damaged keeps
// the facts it has: the others must not wait for it.
#include "casestore/case_store.h"
#include "casestore/facts_rows.h"
#include "casestore/journal_rows.h"
#include "casestore/reading_counts.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Result;

Result<std::vector<std::int64_t>> cases_behind(const Database& database, std::int64_t after) {
  constexpr int at_once = 1000;
  auto statement = Statement::prepare(
      database, "SELECT number FROM bench_case WHERE number > ? ORDER BY number LIMIT ?");
  if (!statement) {
    return statement.problems();
  }
  std::vector<std::int64_t> numbers;
  const auto done = statement->bind(after).bind(at_once).for_each_row(
      [&] { numbers.push_back(statement->integer(0)); });
  return done ? Result<std::vector<std::int64_t>>(std::move(numbers)) : done.problems();
}

Result<Done> count_anew(const Database& database) {
  auto transaction = Transaction::begin(database);
  if (!transaction) {
    return transaction.problems();
  }
  auto counted = recount(database);
  if (counted) {
    // Words are taken out of the index by what stands in the list: the two must agree.
    counted = database.run("INSERT INTO case_text (case_text) VALUES ('rebuild')");
  }
  return counted ? transaction->commit() : counted;
}

}  // namespace

Result<int> CaseStore::facts_version() const {
  const auto version = database_->number("SELECT max(version) FROM facts_state");
  return version ? Result<int>(static_cast<int>(*version)) : version.problems();
}

Result<Done> CaseStore::rebuild_facts(const FactsOf& facts_of, int version) {
  // First the counts: a reading that is written anew is taken out of them, and they must have it.
  if (auto counted = count_anew(*database_); !counted) {
    return counted;
  }
  std::int64_t last = 0;
  for (bool more = true; more;) {
    auto transaction = Transaction::begin(*database_);
    if (!transaction) {
      return transaction.problems();
    }
    const auto numbers = cases_behind(*database_, last);
    if (!numbers) {
      return numbers.problems();
    }
    for (const std::int64_t number : *numbers) {
      const auto journal = journal_rows(*database_, number, {});
      if (!journal) {
        return journal.problems();
      }
      const auto facts = journal->damaged.empty() ? facts_of(journal->events) : std::nullopt;
      if (facts) {
        if (auto done = update_facts(*database_, number, *facts); !done) {
          return done;
        }
      }
    }
    more = !numbers->empty();
    last = more ? numbers->back() : last;
    if (auto committed = transaction->commit(); !committed) {
      return committed;
    }
  }
  return database_->run(
      "UPDATE bench_case SET opened_at = coalesce((SELECT at FROM event WHERE bench_case = number "
      "AND sequence = 1), opened_at), changed_at = coalesce((SELECT at FROM event WHERE bench_case "
      "= number ORDER BY sequence DESC LIMIT 1), changed_at);"
      "INSERT INTO case_text (case_text) VALUES ('rebuild');"
      "UPDATE facts_state SET version = " +
      std::to_string(version));
}

}  // namespace dryout::casestore
