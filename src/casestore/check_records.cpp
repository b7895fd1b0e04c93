#include "casestore/check_records.h"

#include <utility>

#include "casestore/chain.h"
#include "casestore/database.h"

namespace dryout::casestore {

using quantities::Done;
using quantities::Problems;
using quantities::Result;

Result<Done> check_records(const std::string& path) {
  auto database = Database::open_read_only(path);
  if (!database) {  // on a disk for reading only
    database = Database::open_unchanging(path);
  }
  if (!database) {
    return database.problems();
  }
  const auto snapshot = Snapshot::of(**database);  // records and cases of one moment
  if (!snapshot) {
    return snapshot.problems();
  }
  auto chained =
      Statement::prepare(**database, "SELECT 1 FROM sqlite_schema WHERE name = 'store_head'");
  const auto row = chained ? chained->step() : Result<bool>(chained.problems());
  if (!row || !*row) {
    return row ? Result<Done>(Done{}) : row.problems();  // from before there were records
  }
  Problems problems;
  if (auto done = check_heads(**database, problems); !done) {
    return done;
  }
  return problems.empty() ? Result<Done>(Done{}) : Result<Done>(std::move(problems));
}

}  // namespace dryout::casestore
