// The reading half of the store: journals, lists, searches, integrity.
#include <cctype>

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problems;
using quantities::Result;

constexpr std::string_view select_cases =
    "SELECT number, opened_at, changed_at, equipment, c.set_name, year_built, c.owner, "
    "c.complaint, cause, closed, c.notes FROM bench_case AS c ";

CaseRow read_case(const Statement& row) {
  return {row.integer(0), row.integer(1), row.integer(2),
          CaseFacts{.equipment = row.text(3),
                    .set_name = row.text(4),
                    .year_built = row.optional_integer(5),
                    .owner = row.text(6),
                    .complaint = row.text(7),
                    .cause = row.text(8),
                    .closed = row.integer(9) != 0,
                    .notes = row.text(10)}};
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

}  // namespace

Result<std::vector<EventRow>> CaseStore::events(std::int64_t number, int after) const {
  const auto newest = newest_event(number);
  if (!newest) {
    return newest.problems();
  }
  auto statement = Statement::prepare(*database_,
                                      "SELECT sequence, at, kind, body FROM event "
                                      "WHERE bench_case = ? AND sequence > ? ORDER BY sequence");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(number).bind(after);
  std::vector<EventRow> rows;
  const auto done = statement->for_each_row([&] {
    rows.push_back({static_cast<int>(statement->integer(0)), statement->integer(1),
                    statement->text(2), statement->text(3)});
  });
  if (!done) {
    return done.problems();
  }
  return rows;
}

Result<std::vector<CaseRow>> CaseStore::list() const {
  auto statement = Statement::prepare(
      *database_, std::string(select_cases) + "ORDER BY changed_at DESC, number DESC");
  if (!statement) {
    return statement.problems();
  }
  return read_cases(*statement);
}

Result<std::vector<CaseRow>> CaseStore::search(std::string_view words) const {
  const std::string expression = match_expression(words);
  if (expression.empty()) {
    return std::vector<CaseRow>{};
  }
  auto statement =
      Statement::prepare(*database_, std::string(select_cases) +
                                         "JOIN case_text AS t ON c.number = t.rowid "
                                         "WHERE t.case_text MATCH ? ORDER BY t.rank, number DESC");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(expression);
  return read_cases(*statement);
}

Result<Done> CaseStore::check_integrity() const {
  Problems problems;
  for (const std::string_view sql : {"PRAGMA integrity_check", "PRAGMA foreign_key_check"}) {
    auto statement = Statement::prepare(*database_, sql);
    if (!statement) {
      return statement.problems();
    }
    auto done = statement->for_each_row([&] {
      if (statement->text(0) != "ok") {
        problems.push_back(database_->problem(SQLITE_CORRUPT, "read it: " + statement->text(0)));
      }
    });
    if (!done) {
      return done;
    }
  }
  // The search index against the text it was made from.
  const auto index =
      database_->run("INSERT INTO case_text (case_text, rank) VALUES ('integrity-check', 1)");
  if (!index) {
    problems.push_back(index.problems().front());
  }
  return problems.empty() ? Result<Done>(Done{}) : Result<Done>(std::move(problems));
}

}  // namespace dryout::casestore
