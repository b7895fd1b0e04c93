// Version 2: full-text search over what was said and written about a case. The index keeps no copy
// of the text and is kept in step by case_store.cpp: not by triggers, because a schema that may not
// be trusted may not reach an index from one.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_2() {
  return R"sql(
CREATE VIRTUAL TABLE case_text USING fts5 (
  set_name, owner, complaint, notes,
  content = 'bench_case', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2'
);

INSERT INTO case_text (case_text) VALUES ('rebuild');
)sql";
}

}  // namespace dryout::casestore
