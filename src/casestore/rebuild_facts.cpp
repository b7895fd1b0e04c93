// Facts made anew from the journals, a thousand cases at a time: a store is opened again where it
// was left, and nobody waits long for the right to write.
#include "casestore/case_store.h"
#include "casestore/facts_rows.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Result;

Result<std::vector<std::int64_t>> numbers_after(const Database& database, std::int64_t after) {
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

}  // namespace

Result<int> CaseStore::facts_version() const {
  const auto version = database_->number("SELECT max(version) FROM facts_state");
  return version ? Result<int>(static_cast<int>(*version)) : version.problems();
}

Result<Done> CaseStore::rebuild_facts(const FactsOf& facts_of, int version) {
  std::int64_t last = 0;
  for (bool more = true; more;) {
    auto transaction = Transaction::begin(*database_);
    if (!transaction) {
      return transaction.problems();
    }
    const auto numbers = numbers_after(*database_, last);
    if (!numbers) {
      return numbers.problems();
    }
    for (const std::int64_t number : *numbers) {
      const auto journal = events(number);
      if (!journal) {
        return journal.problems();
      }
      const auto facts = facts_of(*journal);
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
  return database_->run("UPDATE facts_state SET version = " + std::to_string(version));
}

}  // namespace dryout::casestore
