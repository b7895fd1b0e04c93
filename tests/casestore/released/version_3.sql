-- A store as version 3 left it: its statements as they were released, and two cases.
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

INSERT INTO bench_case (number, opened_at, changed_at, equipment, set_name, year_built, owner, complaint, cause, closed, notes, identity) VALUES
  (1, 1772614800, 1772615000, 'lantern', 'Morgenstern 52', 1981, 'Widow Ågren', 'hums', '', 0, 'C12 bulged', 'a0000000000000000000000000000001'),
  (7, 1772700000, 1772700000, 'lantern', 'Tidelight', NULL, '', 'no sound', '', 0, '', 'a0000000000000000000000000000007');
INSERT INTO event (bench_case, sequence, at, kind, body) VALUES
  (1, 1, 1772614800, 'take-in', '{"do":"take-in","equipment":"lantern","set":"Morgenstern 52","year_built":1981,"owner":"Widow Ågren","complaint":"hums"}'),
  (1, 2, 1772614900, 'note', '{"do":"note","text":"C12 bulged"}'),
  (1, 3, 1772615000, 'undo', '{"of":2}'),
  (7, 1, 1772700000, 'take-in', '{"do":"take-in","equipment":"lantern","set":"Tidelight","complaint":"no sound"}');
INSERT INTO case_text (case_text) VALUES ('rebuild');
PRAGMA application_id = 1148352847;
PRAGMA user_version = 3;
