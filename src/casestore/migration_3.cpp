// Version 3: who a case is on every bench, and words found by field. A case that has been here
// before gets its identity from its first event (identity.h); where two cases share it, the later
// one is a copy somebody kept on purpose and gets one of its own.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_3() {
  return R"sql(
ALTER TABLE bench_case ADD COLUMN symptoms TEXT NOT NULL DEFAULT '';
ALTER TABLE bench_case ADD COLUMN parts    TEXT NOT NULL DEFAULT '';
ALTER TABLE bench_case ADD COLUMN causes   TEXT NOT NULL DEFAULT '';
ALTER TABLE bench_case ADD COLUMN identity TEXT NOT NULL DEFAULT '';

UPDATE bench_case SET identity =
  coalesce((SELECT identity_of_first(at, kind, body) FROM event
            WHERE event.bench_case = bench_case.number AND sequence = 1), number);
UPDATE bench_case SET identity = lower(hex(randomblob(16)))
  WHERE number NOT IN (SELECT min(number) FROM bench_case GROUP BY identity);
CREATE UNIQUE INDEX bench_case_by_identity ON bench_case (identity);
CREATE INDEX bench_case_by_equipment ON bench_case (equipment, changed_at);

DROP TABLE case_text;
CREATE VIRTUAL TABLE case_text USING fts5 (
  equipment, set_name, owner, complaint, symptoms, parts, causes, notes,
  content = 'bench_case', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3'
);
INSERT INTO case_text (case_text) VALUES ('rebuild');
)sql";
}

}  // namespace dryout::casestore
