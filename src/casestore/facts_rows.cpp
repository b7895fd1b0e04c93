#include "casestore/facts_rows.h"

#include "casestore/migrations.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Result;

Statement& bind_facts(Statement& statement, const CaseFacts& facts) {
  return statement.bind(facts.equipment)
      .bind(facts.set_name)
      .bind(facts.year_built)
      .bind(facts.owner)
      .bind(facts.complaint)
      .bind(facts.cause)
      .bind(facts.closed ? 1 : 0)
      .bind(facts.symptoms)
      .bind(facts.parts)
      .bind(facts.causes)
      .bind(facts.notes);
}

/// Enters the words of a case into the search index, or takes out those that stand there. The index
/// keeps no text of its own, so the row must be as it was when they were entered.
Result<Done> index_words(const Database& database, std::int64_t number, bool enter) {
  const std::string fields =
      "equipment, set_name, owner, complaint, symptoms, parts, causes, notes";
  const std::string columns = "rowid, " + fields + ")";
  const std::string values = "number, " + fields + " FROM bench_case";
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

Result<bool> row_differs(const Database& database, std::int64_t number, const CaseFacts& facts) {
  auto statement = Statement::prepare(
      database,
      "SELECT (equipment, set_name, year_built, owner, complaint, cause, closed, symptoms, parts, "
      "causes, notes) IS NOT (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) FROM bench_case WHERE number = ?");
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
      "UPDATE bench_case SET equipment = ?, set_name = ?, year_built = ?, owner = ?, complaint = "
      "?, cause = ?, closed = ?, symptoms = ?, parts = ?, causes = ?, notes = ? WHERE number = ?");
  if (!update) {
    return update.problems();
  }
  if (auto done = bind_facts(*update, facts).bind(number).finish(); !done) {
    return done;
  }
  return index_words(database, number, true);
}

}  // namespace

Result<std::int64_t> insert_case(const Database& database, const NewCase& fresh) {
  auto insert = Statement::prepare(
      database,
      "INSERT INTO bench_case (opened_at, changed_at, identity, equipment, set_name, year_built, "
      "owner, complaint, cause, closed, symptoms, parts, causes, notes) VALUES (?, ?, "
      "coalesce(nullif(?, ''), lower(hex(randomblob(16)))), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insert) {
    return insert.problems();
  }
  insert->bind(fresh.events.front().at).bind(fresh.events.back().at).bind(fresh.identity);
  if (const auto done = bind_facts(*insert, fresh.facts).finish(); !done) {
    return done.problems();
  }
  const std::int64_t number = sqlite3_last_insert_rowid(database.handle());
  if (const auto done = index_words(database, number, true); !done) {
    return done.problems();
  }
  const auto done =
      write_statistics(database, number, fresh.facts.equipment, fresh.facts.statistics);
  return done ? Result<std::int64_t>(number) : done.problems();
}

Result<bool> typed_words_differ(const Database& database, std::int64_t number,
                                const CaseFacts& typed) {
  auto statement = Statement::prepare(
      database,
      "SELECT (equipment, set_name, year_built, owner, complaint, cause, closed) IS NOT (?, ?, ?, "
      "?, ?, ?, ?), notes FROM bench_case WHERE number = ?");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(typed.equipment).bind(typed.set_name).bind(typed.year_built).bind(typed.owner);
  statement->bind(typed.complaint).bind(typed.cause).bind(typed.closed ? 1 : 0).bind(number);
  if (const auto row = statement->step(); !row) {
    return row.problems();
  }
  if (statement->integer(0) != 0) {
    return true;
  }
  std::string notes = statement->text(1);
  if (notes == typed.notes) {
    return false;
  }
  const std::size_t title = notes.find('\n');  // what the rules call the equipment
  notes = title == std::string::npos ? "" : notes.substr(title + 1);
  return notes != typed.notes;
}

Result<Done> update_facts(const Database& database, std::int64_t number, const CaseFacts& facts) {
  const auto differ = row_differs(database, number, facts);
  if (!differ) {
    return differ.problems();
  }
  const auto statistics = statistics_of(database, number);
  if (!statistics) {
    return statistics.problems();
  }
  if (*differ) {
    if (auto rewritten = rewrite_facts(database, number, facts); !rewritten) {
      return rewritten;
    }
  }
  return *differ || *statistics != facts.statistics
             ? write_statistics(database, number, facts.equipment, facts.statistics)
             : Result<Done>(Done{});
}

}  // namespace dryout::casestore
