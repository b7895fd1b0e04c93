#include "casestore/case_store.h"

#include <algorithm>

#include "casestore/chain.h"
#include "casestore/database.h"
#include "casestore/facts_rows.h"
#include "casestore/journal_rows.h"
#include "casestore/migrations.h"
#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// Events in their order behind `seen`; how far the case then goes.
Result<Seen> insert_events(const Database& database, std::int64_t number, const Seen& seen,
                           const std::vector<NewEvent>& events) {
  const auto mark = mark_of_store(database);
  auto insert = Statement::prepare(
      database,
      "INSERT INTO event (bench_case, sequence, at, kind, body, seal, before, generation) VALUES "
      "(?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insert || !mark) {
    return insert ? mark.problems() : insert.problems();
  }
  Seen now = seen;
  for (const NewEvent& event : events) {
    const EventRow row{now.steps + 1, event.at, event.kind, event.body};
    insert->again().bind(number).bind(row.sequence).bind(row.at).bind(row.kind).bind(row.body);
    insert->bind(seal_of(number, row)).bind(now.digest).bind(mark->generation);
    if (const auto done = insert->finish(); !done) {
      return done.problems();
    }
    now = {row.sequence, digest_of(now.digest, mark->generation, row)};
  }
  const auto moved = move_head(database, number, seen.steps == 0 ? Seen{} : seen, now);
  return moved ? Result<Seen>(now) : moved.problems();
}

/// Of a case outside the record: what was written to it nobody could hold against anything.
Problem no_record(const std::string& path, std::int64_t number) {
  return {"this case stands outside the record of the case store",
          {path, 0, {}},
          "case " + std::to_string(number),
          "`dryout case restore` with a backup, or `dryout case rescue`"};
}

/// Of a case whose line somebody deleted by hand: nothing can be put behind its steps.
Problem no_line(const std::string& path, std::int64_t number) {
  return {"this case is missing from the list of cases in the store",
          {path, 0, {}},
          "case " + std::to_string(number),
          "`dryout case rescue` of the store saves its steps as a file that `dryout case import` "
          "takes in"};
}

/// Of a case with more steps than its record has: what follows would hang on the wrong one.
Problem beyond_record(const std::string& path, std::int64_t number, int step) {
  return {"a step of this case stands behind the last one on record",
          {path, 0, {}},
          "case " + std::to_string(number) + ", step " + std::to_string(step),
          "`dryout case restore` with a backup, or `dryout case rescue`"};
}

/// Whether somebody who has seen so much may write behind `head` (then: written).
Result<Appended> must_read_again(const Database& database, std::int64_t number, const Seen& seen,
                                 const Seen& head) {
  if (seen.steps == head.steps) {
    const bool same = seen.digest == Digest{} || seen.digest == head.digest;
    return same ? Appended::written : Appended::parted;
  }
  if (seen.steps > head.steps) {
    return seen.digest == Digest{} ? Appended::overtaken : Appended::parted;
  }
  const auto then = digest_at(database, number, seen.steps, head);
  if (!then) {
    return then.problems();
  }
  return seen.digest == Digest{} || seen.digest == *then ? Appended::overtaken : Appended::parted;
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

void CaseStore::wait_at_most(std::chrono::milliseconds longest) {
  sqlite3_busy_timeout(database_->handle(), static_cast<int>(longest.count()));
}

std::int64_t CaseStore::data_version() const {
  const auto version = database_->number("PRAGMA data_version");
  return version ? *version : 0;
}

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
    const auto identity = identity_of(*database_, *number);
    if (!identity) {
      return identity.problems();
    }
    const Seen nothing{0, root_of(*identity)};
    if (const auto done = insert_events(*database_, *number, nothing, each.events); !done) {
      return done.problems();
    }
    numbers.push_back(*number);
  }
  if (const auto committed = transaction->commit(); !committed) {
    return committed.problems();
  }
  return numbers;
}

Result<Appended> CaseStore::append_event(std::int64_t number, const Seen& seen,
                                         const NewEvent& event, const CaseFacts& facts) {
  return append_events(number, seen, {event}, facts);
}

Result<Appended> CaseStore::append_events(std::int64_t number, const Seen& seen,
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
  const auto head = head_of(*database_, number);
  if (!head) {
    return head.problems();
  }
  if (!*head) {
    return no_record(database_->path(), number);
  }
  if (*newest > (*head)->steps) {
    return beyond_record(database_->path(), number, *newest);
  }
  const auto identity = identity_of(*database_, number);
  if (!identity) {
    return identity.problems();
  }
  if (identity->empty()) {
    return no_line(database_->path(), number);
  }
  if (const auto due = must_read_again(*database_, number, seen, **head); !due) {
    return due.problems();
  } else if (*due != Appended::written) {
    return *due;
  }
  if (const auto done = insert_events(*database_, number, **head, events); !done) {
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
      *database_,
      "SELECT coalesce(max(sequence), 0), (SELECT steps FROM case_head WHERE bench_case = ?1) FROM "
      "event WHERE bench_case = ?1");
  if (!statement) {
    return statement.problems();
  }
  if (const auto row = statement->bind(number).step(); !row) {
    return row.problems();
  }
  const auto found = static_cast<int>(statement->integer(0));
  const auto recorded = statement->optional_integer(1).value_or(0);
  if (found == 0 && recorded > 0) {
    return Problem{"this case is missing from the case store",
                   {database_->path(), 0, {}},
                   "case " + std::to_string(number) + ", which had " + std::to_string(recorded) +
                       (recorded == 1 ? " step" : " steps"),
                   "`dryout case restore` with a backup, or `dryout case import` of the case"};
  }
  const int newest = std::max(found, recorded);
  if (newest == 0) {
    return Problem{"no such case",
                   {database_->path(), 0, {}},
                   std::to_string(number),
                   "the number of a case in this store"};
  }
  return newest;
}

Footing CaseStore::footing() const { return database_->footing(); }

Problem CaseStore::lost_footing() const { return database_->lost_footing(false); }

Result<std::string> CaseStore::save_what_is_open() const {
  return copy_to_free_name(*database_, database_->path() + ".was-open");
}

Result<std::int64_t> CaseStore::generation() const {
  const auto mark = mark_of_store(*database_);
  return mark ? Result<std::int64_t>(mark->generation) : mark.problems();
}

Result<std::string> CaseStore::bench() const {
  const auto mark = mark_of_store(*database_);
  return mark ? Result<std::string>(mark->bench) : mark.problems();
}

Result<Done> CaseStore::backup(const std::string& destination) const {
  return copy_store(*database_, destination);
}

}  // namespace dryout::casestore
