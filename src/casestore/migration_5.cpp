// Version 5: every event gets a seal (seal.h), those that are there already as they now read.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_5() {
  return R"sql(
ALTER TABLE event ADD COLUMN seal INTEGER NOT NULL DEFAULT 0;
UPDATE event SET seal = seal_of(bench_case, sequence, at, kind, body);
)sql";
}

}  // namespace dryout::casestore
