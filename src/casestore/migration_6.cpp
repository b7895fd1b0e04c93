// Version 6: the search index keeps beginnings of one letter too. Without them "h w c1", or the 7
// of "kind-7", was put together from every word that begins so, anew for each search.
#include "casestore/migrations.h"

namespace dryout::casestore {

std::string migration_6() {
  return R"sql(
DROP TABLE case_text;
CREATE VIRTUAL TABLE case_text USING fts5 (
  equipment, set_name, owner, complaint, symptoms, parts, causes, notes,
  content = 'bench_case', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
INSERT INTO case_text (case_text) VALUES ('rebuild');
)sql";
}

}  // namespace dryout::casestore
