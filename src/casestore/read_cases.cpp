// The reading half of the store: journals, lists, searches.
#include <cctype>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/journal_rows.h"
#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Result;

constexpr std::string_view select_cases =
    "SELECT c.number, c.opened_at, c.changed_at, c.equipment, c.set_name, c.year_built, c.owner, "
    "c.complaint, c.cause, c.closed FROM ";

CaseRow read_case(const Statement& row) {
  CaseRow read{row.integer(0), row.integer(1), row.integer(2), {}};
  read.facts.equipment = row.text(3);
  read.facts.set_name = row.text(4);
  read.facts.year_built = row.optional_integer(5);
  read.facts.owner = row.text(6);
  read.facts.complaint = row.text(7);
  read.facts.cause = row.text(8);
  read.facts.closed = row.integer(9) != 0;
  return read;
}

Result<std::vector<CaseRow>> read_cases(Statement& statement) {
  std::vector<CaseRow> rows;
  const auto done = statement.for_each_row([&] { rows.push_back(read_case(statement)); });
  if (!done) {
    return done.problems();
  }
  return rows;
}

/// Each run of letters and digits as a quoted prefix: "c12 hum" -> "c12"* "hum"*. Bytes above
/// ASCII belong to letters.
std::string match_expression(std::string_view words) {
  std::string expression;
  bool inside = false;
  for (const char c : words) {
    const auto byte = static_cast<unsigned char>(c);
    const bool letter = byte >= 0x80 || std::isalnum(byte) != 0;
    if (letter != inside) {
      expression += letter ? (expression.empty() ? "\"" : " \"") : "\"*";
      inside = letter;
    }
    if (letter) {
      expression += c;
    }
  }
  return inside ? expression + "\"*" : expression;
}

/// The whole query in the language of the index; "" where it has no word.
std::string match_expression(const CaseQuery& query) {
  std::string expression = match_expression(std::string_view(query.words));
  const auto add = [&](std::string_view field, const std::string& words) {
    const std::string found = match_expression(std::string_view(words));
    if (!found.empty()) {
      expression += (expression.empty() ? "" : " AND ");
      expression += std::string(field) + " : (" + found + ")";
    }
  };
  if (!expression.empty()) {
    expression = "(" + expression + ")";
  }
  add("set_name", query.set_name);
  add("symptoms", query.symptom);
  add("parts", query.part);
  add("causes", query.cause);
  if (!expression.empty()) {
    // Words of the id, so that the index does most of the sieving; the id itself is compared too.
    add("equipment", query.equipment);
  }
  return expression;
}

/// Beyond so many matches the ranking costs more than it tells.
constexpr int ranked_most = 2000;

Result<bool> too_many_to_rank(const Database& database, const std::string& expression) {
  auto statement = Statement::prepare(
      database, "SELECT count(*) FROM (SELECT 1 FROM case_text WHERE case_text MATCH ? LIMIT ?)");
  if (!statement) {
    return statement.problems();
  }
  if (const auto row = statement->bind(expression).bind(ranked_most + 1).step(); !row) {
    return row.problems();
  }
  return statement->integer(0) > ranked_most;
}

std::string select_sql(const CaseQuery& query, bool matching, bool newest_first) {
  std::string sql(select_cases);
  sql += matching ? "case_text AS t JOIN bench_case AS c ON c.number = t.rowid "
                    "WHERE t.case_text MATCH ?"
                  : "bench_case AS c WHERE 1";
  if (!query.equipment.empty()) {
    sql += " AND c.equipment = ?";
  }
  if (query.closed_only) {
    sql += " AND c.closed = 1";
  }
  if (!matching) {
    return sql + " ORDER BY c.changed_at DESC, c.number DESC LIMIT ?";
  }
  // Numbers grow with time, and the index hands them out in order without sorting.
  return sql + (newest_first ? " ORDER BY t.rowid DESC LIMIT ?"
                             : " ORDER BY t.rank, t.rowid DESC LIMIT ?");
}

}  // namespace

Result<CaseJournal> CaseStore::journal(std::int64_t number, const Seen& seen) const {
  const auto newest = newest_event(number);
  return newest ? journal_rows(*database_, number, seen) : newest.problems();
}

Result<std::vector<EventRow>> CaseStore::events(std::int64_t number, int after) const {
  auto read = journal(number, after);
  if (!read) {
    return read.problems();
  }
  if (!read->damaged.empty()) {
    return damaged_event(database_->path(), number, read->damaged.front());
  }
  return std::move(read->events);
}

Result<std::vector<std::int64_t>> CaseStore::numbers_after(std::int64_t after, int most) const {
  auto statement = Statement::prepare(
      *database_, "SELECT number FROM bench_case WHERE number > ? ORDER BY number LIMIT ?");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(after).bind(most);
  std::vector<std::int64_t> numbers;
  const auto done = statement->for_each_row([&] { numbers.push_back(statement->integer(0)); });
  return done ? Result<std::vector<std::int64_t>>(std::move(numbers)) : done.problems();
}

Result<std::vector<CaseRow>> CaseStore::list(int most) const {
  auto statement = Statement::prepare(
      *database_, std::string(select_cases) +
                      "bench_case AS c ORDER BY c.changed_at DESC, c.number DESC LIMIT ?");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(most);
  return read_cases(*statement);
}

Result<FoundCases> CaseStore::find(const CaseQuery& query) const {
  FoundCases found;
  const std::string expression = match_expression(query);
  if (expression.empty() && query.equipment.empty()) {
    return found;
  }
  found.newest_first = query.newest_first || expression.empty();
  if (!found.newest_first) {
    const auto many = too_many_to_rank(*database_, expression);
    if (!many) {
      return many.problems();
    }
    found.newest_first = *many;
  }
  auto statement =
      Statement::prepare(*database_, select_sql(query, !expression.empty(), found.newest_first));
  if (!statement) {
    return statement.problems();
  }
  if (!expression.empty()) {
    statement->bind(expression);
  }
  if (!query.equipment.empty()) {
    statement->bind(query.equipment);
  }
  auto rows = read_cases(statement->bind(query.most + 1));
  if (!rows) {
    return rows.problems();
  }
  found.more = rows->size() > static_cast<std::size_t>(query.most);
  if (found.more) {
    rows->pop_back();
  }
  found.rows = std::move(*rows);
  return found;
}

Result<std::vector<CaseRow>> CaseStore::search(std::string_view words) const {
  CaseQuery query;
  query.words = words;
  auto found = find(query);
  return found ? Result<std::vector<CaseRow>>(std::move(found->rows)) : found.problems();
}

Result<std::optional<std::int64_t>> CaseStore::find_identity(const std::string& identity) const {
  auto statement =
      Statement::prepare(*database_, "SELECT number FROM bench_case WHERE identity = ?");
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->bind(identity).step();
  if (!row) {
    return row.problems();
  }
  return *row ? std::optional(statement->integer(0)) : std::nullopt;
}

Result<std::string> CaseStore::identity(std::int64_t number) const {
  if (const auto known = newest_event(number); !known) {
    return known.problems();
  }
  return identity_of(*database_, number);
}

}  // namespace dryout::casestore
