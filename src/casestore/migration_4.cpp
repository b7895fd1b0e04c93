// Version 4: facts for statistics. They follow from the journal like all facts of a case and stand
// beside it; rebuild_facts() makes them anew. Readings are counted in the moment they are written
// or taken out, by part type, age and size, so that a question about two million of them reads a
// few thousand rows. Triggers may do that: unlike the search index, these are plain tables.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_4() {
  return R"sql(
CREATE TABLE closed_case (
  bench_case  INTEGER PRIMARY KEY REFERENCES bench_case (number),
  equipment   TEXT NOT NULL,
  family      TEXT NOT NULL,
  subject     TEXT NOT NULL,
  year        INTEGER NOT NULL,
  age         INTEGER
) STRICT;
CREATE INDEX closed_case_by_family ON closed_case (family, equipment, subject);
CREATE INDEX closed_case_by_equipment ON closed_case (equipment, subject);

CREATE TABLE reading (
  bench_case  INTEGER NOT NULL REFERENCES bench_case (number),
  event       INTEGER NOT NULL,
  technology  TEXT NOT NULL,
  kind        TEXT NOT NULL,
  role        TEXT NOT NULL,
  capacitance REAL NOT NULL,
  rated       REAL NOT NULL,
  value       REAL NOT NULL,
  upper_limit REAL,
  age         INTEGER,
  standing    INTEGER NOT NULL CHECK (standing IN (0, 1, 2)),
  alone       INTEGER NOT NULL CHECK (alone IN (0, 1)),
  bin         INTEGER NOT NULL,
  PRIMARY KEY (bench_case, event)
) STRICT, WITHOUT ROWID;

CREATE TABLE reading_count (
  technology  TEXT NOT NULL,
  kind        TEXT NOT NULL,
  capacitance REAL NOT NULL,
  rated       REAL NOT NULL,
  role        TEXT NOT NULL,
  decade      INTEGER NOT NULL,
  standing    INTEGER NOT NULL,
  alone       INTEGER NOT NULL,
  bin         INTEGER NOT NULL,
  readings    INTEGER NOT NULL CHECK (readings >= 0),
  PRIMARY KEY (technology, kind, capacitance, rated, role, decade, standing, alone, bin)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER reading_written AFTER INSERT ON reading BEGIN
  INSERT INTO reading_count VALUES
    (NEW.technology, NEW.kind, NEW.capacitance, NEW.rated, NEW.role, coalesce(NEW.age / 10, -1),
     NEW.standing, NEW.alone, NEW.bin, 1)
  ON CONFLICT DO UPDATE SET readings = readings + 1;
END;
CREATE TRIGGER reading_taken_out AFTER DELETE ON reading BEGIN
  UPDATE reading_count SET readings = readings - 1
    WHERE technology = OLD.technology AND kind = OLD.kind AND capacitance = OLD.capacitance
      AND rated = OLD.rated AND role = OLD.role AND decade = coalesce(OLD.age / 10, -1)
      AND standing = OLD.standing AND alone = OLD.alone AND bin = OLD.bin;
END;

CREATE TABLE facts_state (version INTEGER NOT NULL) STRICT;
INSERT INTO facts_state VALUES (0);
)sql";
}

}  // namespace dryout::casestore
