#include "casestore/case_store.h"

#include "casestore/database.h"
#include "casestore/facts_rows.h"
#include "casestore/migrations.h"
#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// Events in their order, the first with this sequence.
Result<Done> insert_events(const Database& database, std::int64_t number, int sequence,
                           const std::vector<NewEvent>& events) {
  auto insert = Statement::prepare(
      database,
      "INSERT INTO event (bench_case, sequence, at, kind, body, seal) VALUES (?, ?, ?, ?, ?, ?)");
  if (!insert) {
    return insert.problems();
  }
  for (const NewEvent& event : events) {
    const std::int64_t seal = seal_of(number, {sequence, event.at, event.kind, event.body});
    insert->again().bind(number).bind(sequence++).bind(event.at);
    if (auto done = insert->bind(event.kind).bind(event.body).bind(seal).finish(); !done) {
      return done;
    }
  }
  return Done{};
}

Result<Done> touch(const Database& database, std::int64_t number, std::int64_t changed_at) {
  auto touch =
      Statement::prepare(database, "UPDATE bench_case SET changed_at = ? WHERE number = ?");
  if (!touch) {
    return touch.problems();
  }
  return touch->bind(changed_at).bind(number).finish();
}

}  // namespace

CaseStore::CaseStore(std::unique_ptr<Database> database) : database_(std::move(database)) {}
CaseStore::CaseStore(CaseStore&&) noexcept = default;
CaseStore& CaseStore::operator=(CaseStore&&) noexcept = default;
CaseStore::~CaseStore() = default;

Result<std::int64_t> CaseStore::create_case(const CaseFacts& facts,
                                            const std::vector<NewEvent>& first) {
  const auto numbers = create_cases({{"", facts, first}});
  return numbers ? Result<std::int64_t>(numbers->front()) : numbers.problems();
}

Result<std::vector<std::int64_t>> CaseStore::create_cases(const std::vector<NewCase>& fresh) {
  auto transaction = Transaction::begin(*database_);
  if (!transaction) {
    return transaction.problems();
  }
  std::vector<std::int64_t> numbers;
  for (const NewCase& each : fresh) {
    CHECK(!each.events.empty());
    const auto number = insert_case(*database_, each);
    if (!number) {
      return number.problems();
    }
    if (const auto done = insert_events(*database_, *number, 1, each.events); !done) {
      return done.problems();
    }
    numbers.push_back(*number);
  }
  if (const auto committed = transaction->commit(); !committed) {
    return committed.problems();
  }
  return numbers;
}

Result<Appended> CaseStore::append_event(std::int64_t number, int seen, const NewEvent& event,
                                         const CaseFacts& facts) {
  return append_events(number, seen, {event}, facts);
}

Result<Appended> CaseStore::append_events(std::int64_t number, int seen,
                                          const std::vector<NewEvent>& events,
                                          const CaseFacts& facts) {
  CHECK(!events.empty());
  auto transaction = Transaction::begin(*database_);
  if (!transaction) {
    return transaction.problems();
  }
  const auto newest = newest_event(number);
  if (!newest) {
    return newest.problems();
  }
  if (*newest != seen) {
    return Appended::overtaken;
  }
  if (const auto done = insert_events(*database_, number, seen + 1, events); !done) {
    return done.problems();
  }
  if (const auto done = touch(*database_, number, events.back().at); !done) {
    return done.problems();
  }
  if (const auto done = update_facts(*database_, number, facts); !done) {
    return done.problems();
  }
  if (const auto committed = transaction->commit(); !committed) {
    return committed.problems();
  }
  return Appended::written;
}

Result<Done> CaseStore::together(const Work& work) {
  auto transaction = Transaction::begin(*database_);
  if (!transaction) {
    return transaction.problems();
  }
  auto done = work();
  return done ? transaction->commit() : done;
}

Result<int> CaseStore::newest_event(std::int64_t number) const {
  auto statement = Statement::prepare(
      *database_, "SELECT coalesce(max(sequence), 0) FROM event WHERE bench_case = ?");
  if (!statement) {
    return statement.problems();
  }
  if (const auto row = statement->bind(number).step(); !row) {
    return row.problems();
  }
  const auto newest = static_cast<int>(statement->integer(0));
  if (newest == 0) {
    return Problem{"no such case",
                   {database_->path(), 0, {}},
                   std::to_string(number),
                   "the number of a case in this store"};
  }
  return newest;
}

Result<Done> CaseStore::backup(const std::string& destination) const {
  return copy_store(*database_, destination);
}

}  // namespace dryout::casestore
