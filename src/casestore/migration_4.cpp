// Version 4: facts for statistics. They follow from the journal like all facts of a case and stand
// beside it; rebuild_facts() makes them anew.
//
// Readings are counted in the moment they are written or taken out, by age, size and how the part
// turned out, once for every question that may be asked: all values together, one capacitance, one
// capacitance and voltage, one voltage, one role. What a row does not tell apart is -1 or '*' in
// it. So an answer about two million readings adds up a few hundred counts. Triggers may do that:
// unlike the search index, these are plain tables. A reading taken out leaves a count of 0 behind.
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
  bin         INTEGER NOT NULL,
  readings    INTEGER NOT NULL CHECK (readings >= 0),
  PRIMARY KEY (technology, kind, capacitance, rated, role, decade, standing, bin)
) STRICT, WITHOUT ROWID;

CREATE TABLE sound_count (
  technology  TEXT NOT NULL,
  kind        TEXT NOT NULL,
  capacitance REAL NOT NULL,
  rated       REAL NOT NULL,
  bin         INTEGER NOT NULL,
  readings    INTEGER NOT NULL CHECK (readings >= 0),
  PRIMARY KEY (technology, kind, capacitance, rated, bin)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER reading_written AFTER INSERT ON reading BEGIN
  INSERT INTO reading_count
    SELECT NEW.technology, NEW.kind, column1, column2, column3, coalesce(NEW.age / 10, -1),
           NEW.standing, NEW.bin, 1
    FROM (VALUES (-1.0, -1.0, '*'), (NEW.capacitance, -1.0, '*'),
                 (NEW.capacitance, NEW.rated, '*'), (-1.0, NEW.rated, '*'), (-1.0, -1.0, NEW.role))
    WHERE true
    ON CONFLICT DO UPDATE SET readings = readings + 1;
  INSERT INTO sound_count
    SELECT NEW.technology, NEW.kind, NEW.capacitance, NEW.rated, NEW.bin, 1
    WHERE NEW.standing = 1 AND NEW.alone = 1
    ON CONFLICT DO UPDATE SET readings = readings + 1;
END;
CREATE TRIGGER reading_taken_out AFTER DELETE ON reading BEGIN
  INSERT INTO reading_count
    SELECT OLD.technology, OLD.kind, column1, column2, column3, coalesce(OLD.age / 10, -1),
           OLD.standing, OLD.bin, 0
    FROM (VALUES (-1.0, -1.0, '*'), (OLD.capacitance, -1.0, '*'),
                 (OLD.capacitance, OLD.rated, '*'), (-1.0, OLD.rated, '*'), (-1.0, -1.0, OLD.role))
    WHERE true
    ON CONFLICT DO UPDATE SET readings = readings - 1;
  INSERT INTO sound_count
    SELECT OLD.technology, OLD.kind, OLD.capacitance, OLD.rated, OLD.bin, 0
    WHERE OLD.standing = 1 AND OLD.alone = 1
    ON CONFLICT DO UPDATE SET readings = readings - 1;
END;

CREATE TABLE facts_state (version INTEGER NOT NULL) STRICT;
INSERT INTO facts_state VALUES (0);
)sql";
}

}  // namespace dryout::casestore
