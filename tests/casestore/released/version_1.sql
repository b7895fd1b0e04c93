-- A store as version 1 left it: its statements as they were released, and two cases.
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

INSERT INTO bench_case (number, opened_at, changed_at, equipment, set_name, year_built, owner, complaint, cause, closed, notes) VALUES
  (1, 1772614800, 1772615000, 'lantern', 'Morgenstern 52', 1981, 'Widow Ågren', 'hums', '', 0, 'C12 bulged'),
  (7, 1772700000, 1772700000, 'lantern', 'Tidelight', NULL, '', 'no sound', '', 0, '');
INSERT INTO event (bench_case, sequence, at, kind, body) VALUES
  (1, 1, 1772614800, 'take-in', '{"do":"take-in","equipment":"lantern","set":"Morgenstern 52","year_built":1981,"owner":"Widow Ågren","complaint":"hums"}'),
  (1, 2, 1772614900, 'note', '{"do":"note","text":"C12 bulged"}'),
  (1, 3, 1772615000, 'undo', '{"of":2}'),
  (7, 1, 1772700000, 'take-in', '{"do":"take-in","equipment":"lantern","set":"Tidelight","complaint":"no sound"}');
PRAGMA application_id = 1148352847;
PRAGMA user_version = 1;
