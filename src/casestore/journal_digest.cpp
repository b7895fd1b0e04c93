#include "casestore/journal_digest.h"

#include "casestore/chain.h"
#include "casestore/sha256.h"

namespace dryout::casestore {

std::string journal_digest(const std::string& identity, const std::vector<NewEvent>& steps) {
  constexpr std::int64_t no_store = 0;
  Digest digest = root_of(identity);
  int sequence = 0;
  for (const NewEvent& step : steps) {
    digest = digest_of(digest, no_store, {++sequence, step.at, step.kind, step.body});
  }
  return hex_of(digest);
}

}  // namespace dryout::casestore
