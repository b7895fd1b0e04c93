-- A store as version 6 left it: its statements as they were released, and two cases.
-- Never edited: tests open it with every later version.

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

CREATE VIRTUAL TABLE case_text USING fts5 (
  set_name, owner, complaint, notes,
  content = 'bench_case', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2'
);

INSERT INTO case_text (case_text) VALUES ('rebuild');

ALTER TABLE bench_case ADD COLUMN symptoms TEXT NOT NULL DEFAULT '';
ALTER TABLE bench_case ADD COLUMN parts    TEXT NOT NULL DEFAULT '';
ALTER TABLE bench_case ADD COLUMN causes   TEXT NOT NULL DEFAULT '';
ALTER TABLE bench_case ADD COLUMN identity TEXT NOT NULL DEFAULT '';

CREATE UNIQUE INDEX bench_case_by_identity ON bench_case (identity);
CREATE INDEX bench_case_by_equipment ON bench_case (equipment, changed_at);

DROP TABLE case_text;
CREATE VIRTUAL TABLE case_text USING fts5 (
  equipment, set_name, owner, complaint, symptoms, parts, causes, notes,
  content = 'bench_case', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3'
);
INSERT INTO case_text (case_text) VALUES ('rebuild');

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

ALTER TABLE event ADD COLUMN seal INTEGER NOT NULL DEFAULT 0;

CREATE TABLE facts_state (version INTEGER NOT NULL) STRICT;
INSERT INTO facts_state VALUES (0);

DROP TABLE case_text;
CREATE VIRTUAL TABLE case_text USING fts5 (
  equipment, set_name, owner, complaint, symptoms, parts, causes, notes,
  content = 'bench_case', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
INSERT INTO case_text (case_text) VALUES ('rebuild');

INSERT INTO bench_case (number, opened_at, changed_at, equipment, set_name, year_built, owner, complaint, cause, closed, notes, identity) VALUES
  (1, 1772614800, 1772615000, 'lantern', 'Morgenstern 52', 1981, 'Widow Ågren', 'hums', '', 0, 'C12 bulged', 'a0000000000000000000000000000001'),
  (7, 1772700000, 1772700000, 'lantern', 'Tidelight', NULL, '', 'no sound', '', 0, '', 'a0000000000000000000000000000007');
INSERT INTO event (bench_case, sequence, at, kind, body, seal) VALUES
  (1, 1, 1772614800, 'take-in', '{"do":"take-in","equipment":"lantern","set":"Morgenstern 52","year_built":1981,"owner":"Widow Ågren","complaint":"hums"}', 5850688221365403645),
  (1, 2, 1772614900, 'note', '{"do":"note","text":"C12 bulged"}', -2833500915408979884),
  (1, 3, 1772615000, 'undo', '{"of":2}', 1291854041436411645),
  (7, 1, 1772700000, 'take-in', '{"do":"take-in","equipment":"lantern","set":"Tidelight","complaint":"no sound"}', -1563972802682884779);
INSERT INTO case_text (case_text) VALUES ('rebuild');
INSERT INTO reading VALUES (1, 2, 'wet-aluminium', 'esr', 'reservoir', 0.0047, 50.0, 2.4, 1.0, 45, 0, 0, 15);
UPDATE facts_state SET version = 1;
PRAGMA application_id = 1148352847;
PRAGMA user_version = 6;
