// Version 1: cases and their journals. The facts of a case follow from its events and stand beside
// them only so that lists need no replay.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_1() {
  return R"sql(
CREATE TABLE bench_case (
  number      INTEGER PRIMARY KEY,
  opened_at   INTEGER NOT NULL,
  changed_at  INTEGER NOT NULL,
  equipment   TEXT NOT NULL,
  set_name    TEXT NOT NULL,
  year_built  INTEGER,
  owner       TEXT NOT NULL,
  complaint   TEXT NOT NULL,
  cause       TEXT NOT NULL,
  closed      INTEGER NOT NULL CHECK (closed IN (0, 1)),
  notes       TEXT NOT NULL
) STRICT;

CREATE TABLE event (
  bench_case  INTEGER NOT NULL REFERENCES bench_case (number),
  sequence    INTEGER NOT NULL CHECK (sequence >= 1),
  at          INTEGER NOT NULL,
  kind        TEXT NOT NULL,
  body        TEXT NOT NULL,
  PRIMARY KEY (bench_case, sequence)
) STRICT, WITHOUT ROWID;

CREATE INDEX bench_case_by_change ON bench_case (changed_at);
)sql";
}

}  // namespace dryout::casestore
