#include "casestore/journal_rows.h"

#include "casestore/seal.h"

namespace dryout::casestore {

using quantities::Result;

Result<JournalRows> journal_rows(const Database& database, std::int64_t number, int after) {
  auto statement = Statement::prepare(database,
                                      "SELECT sequence, at, kind, body, seal FROM event "
                                      "WHERE bench_case = ? AND sequence > ? ORDER BY sequence");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(number).bind(after);
  JournalRows rows;
  int due = after;
  const auto done = statement->for_each_row([&] {
    const EventRow& event = rows.events.emplace_back(
        EventRow{static_cast<int>(statement->integer(0)), statement->integer(1), statement->text(2),
                 statement->text(3)});
    ++due;
    const bool sound = event.sequence == due && seal_of(number, event) == statement->integer(4);
    if (!sound && !rows.damaged) {
      rows.damaged = due;
    }
  });
  return done ? Result<JournalRows>(std::move(rows)) : done.problems();
}

}  // namespace dryout::casestore
