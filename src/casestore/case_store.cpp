#include "casestore/case_store.h"

#include "casestore/database.h"
#include "casestore/migrations.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

Statement& bind_facts(Statement& statement, const CaseFacts& facts) {
  return statement.bind(facts.equipment)
      .bind(facts.set_name)
      .bind(facts.year_built)
      .bind(facts.owner)
      .bind(facts.complaint)
      .bind(facts.cause)
      .bind(facts.closed ? 1 : 0)
      .bind(facts.notes);
}

Result<Done> insert_event(const Database& database, std::int64_t number, int sequence,
                          const NewEvent& event) {
  auto insert = Statement::prepare(
      database, "INSERT INTO event (bench_case, sequence, at, kind, body) VALUES (?, ?, ?, ?, ?)");
  if (!insert) {
    return insert.problems();
  }
  return insert->bind(number)
      .bind(sequence)
      .bind(event.at)
      .bind(event.kind)
      .bind(event.body)
      .finish();
}

/// Enters the words of a case into the search index, or takes out those that stand there. The index
/// keeps no text of its own, so the row must be as it was when they were entered.
Result<Done> index_words(const Database& database, std::int64_t number, bool enter) {
  const std::string columns = "rowid, set_name, owner, complaint, notes)";
  const std::string values = "number, set_name, owner, complaint, notes FROM bench_case";
  auto insert =
      Statement::prepare(database, enter ? "INSERT INTO case_text (" + columns + " SELECT " +
                                               values + " WHERE number = ?"
                                         : "INSERT INTO case_text (case_text, " + columns +
                                               " SELECT 'delete', " + values + " WHERE number = ?");
  if (!insert) {
    return insert.problems();
  }
  return insert->bind(number).finish();
}

Result<std::int64_t> insert_case(const Database& database, const CaseFacts& facts,
                                 std::int64_t opened_at, std::int64_t changed_at) {
  auto insert = Statement::prepare(
      database,
      "INSERT INTO bench_case (opened_at, changed_at, equipment, set_name, year_built, owner, "
      "complaint, cause, closed, notes) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insert) {
    return insert.problems();
  }
  insert->bind(opened_at).bind(changed_at);
  if (const auto done = bind_facts(*insert, facts).finish(); !done) {
    return done.problems();
  }
  const std::int64_t number = sqlite3_last_insert_rowid(database.handle());
  if (const auto done = index_words(database, number, true); !done) {
    return done.problems();
  }
  return number;
}

Result<bool> facts_differ(const Database& database, std::int64_t number, const CaseFacts& facts) {
  auto statement = Statement::prepare(
      database,
      "SELECT (equipment, set_name, year_built, owner, complaint, cause, closed, notes) "
      "IS NOT (?, ?, ?, ?, ?, ?, ?, ?) FROM bench_case WHERE number = ?");
  if (!statement) {
    return statement.problems();
  }
  if (const auto row = bind_facts(*statement, facts).bind(number).step(); !row) {
    return row.problems();
  }
  return statement->integer(0) != 0;
}

Result<Done> rewrite_facts(const Database& database, std::int64_t number, const CaseFacts& facts) {
  if (auto taken_out = index_words(database, number, false); !taken_out) {
    return taken_out;
  }
  auto update = Statement::prepare(
      database,
      "UPDATE bench_case SET equipment = ?, set_name = ?, year_built = ?, owner = ?, "
      "complaint = ?, cause = ?, closed = ?, notes = ? WHERE number = ?");
  if (!update) {
    return update.problems();
  }
  if (auto done = bind_facts(*update, facts).bind(number).finish(); !done) {
    return done;
  }
  return index_words(database, number, true);
}

Result<Done> update_case(const Database& database, std::int64_t number, std::int64_t changed_at,
                         const CaseFacts& facts) {
  auto touch =
      Statement::prepare(database, "UPDATE bench_case SET changed_at = ? WHERE number = ?");
  if (!touch) {
    return touch.problems();
  }
  if (auto done = touch->bind(changed_at).bind(number).finish(); !done) {
    return done;
  }
  const auto differ = facts_differ(database, number, facts);
  if (!differ) {
    return differ.problems();
  }
  return *differ ? rewrite_facts(database, number, facts) : Result<Done>(Done{});
}

}  // namespace

CaseStore::CaseStore(std::unique_ptr<Database> database) : database_(std::move(database)) {}
CaseStore::CaseStore(CaseStore&&) noexcept = default;
CaseStore& CaseStore::operator=(CaseStore&&) noexcept = default;
CaseStore::~CaseStore() = default;

Result<std::int64_t> CaseStore::create_case(const CaseFacts& facts,
                                            const std::vector<NewEvent>& first) {
  CHECK(!first.empty());
  auto transaction = Transaction::begin(*database_);
  if (!transaction) {
    return transaction.problems();
  }
  auto number = insert_case(*database_, facts, first.front().at, first.back().at);
  if (!number) {
    return number;
  }
  int sequence = 0;
  for (const NewEvent& event : first) {
    if (const auto done = insert_event(*database_, *number, ++sequence, event); !done) {
      return done.problems();
    }
  }
  if (const auto committed = transaction->commit(); !committed) {
    return committed.problems();
  }
  return number;
}

Result<Appended> CaseStore::append_event(std::int64_t number, int seen, const NewEvent& event,
                                         const CaseFacts& facts) {
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
  if (const auto done = insert_event(*database_, number, seen + 1, event); !done) {
    return done.problems();
  }
  if (const auto done = update_case(*database_, number, event.at, facts); !done) {
    return done.problems();
  }
  if (const auto committed = transaction->commit(); !committed) {
    return committed.problems();
  }
  return Appended::written;
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
