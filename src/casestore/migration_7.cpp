// Version 7: the steps of a case are chained (chain.h). chain_journals() fills in what is there
// already. A program of before, which may still have the store open, can no longer add a step: it
// would stand outside the chain.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_7() {
  return R"sql(
ALTER TABLE event ADD COLUMN before BLOB NOT NULL DEFAULT x'';
ALTER TABLE event ADD COLUMN generation INTEGER NOT NULL DEFAULT 0;

CREATE TABLE case_head (
  bench_case  INTEGER PRIMARY KEY,
  steps       INTEGER NOT NULL CHECK (steps >= 1),
  digest      BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;

CREATE TABLE store_head (
  one         INTEGER PRIMARY KEY CHECK (one = 1),
  bench       TEXT NOT NULL,
  generation  INTEGER NOT NULL,
  cases       INTEGER NOT NULL CHECK (cases >= 0),
  digest      BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;
INSERT INTO store_head VALUES (1, '', 0, 0, zeroblob(32));

CREATE TABLE generation (
  id          INTEGER PRIMARY KEY,
  begun_at    INTEGER NOT NULL,
  cause       TEXT NOT NULL
) STRICT;

CREATE TRIGGER event_stands_in_a_chain BEFORE INSERT ON event WHEN length(NEW.before) <> 32 BEGIN
  SELECT RAISE(ABORT, 'the store is of a newer version by now: start this program again');
END;
)sql";
}

}  // namespace dryout::casestore
