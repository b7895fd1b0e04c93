// A case as far as this program has read it, and what it finds when it looks again: more steps,
// fewer, others. What was shown must not stand on when the store no longer has it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "casework/journal.h"
#include "quantities/result.h"

namespace dryout::casework {

struct KnownCase {
  Journal journal;           ///< the steps that are sound
  std::vector<int> damaged;  ///< those that are not, or are missing
  casestore::Seen seen;      ///< up to here it was read
  std::int64_t generation = 0;
  bool parted = false;  ///< steps that were shown are not in the store; until that was told
  std::string told;     ///< what became of it since it was last shown, one sentence; "" = nothing
};

/// The case as the store has it now. Refused where the intake is damaged: without it nothing can be
/// made of the rest.
[[nodiscard]] quantities::Result<KnownCase> catch_up(const casestore::CaseStore& store,
                                                     const std::string& path, std::int64_t number,
                                                     KnownCase known);

/// Makes sure that `store` is the one that now lies at `path`, and opens it where another was put
/// there. Where none is, what this program still holds is saved beside it (`saved_as`), and the
/// problem says so.
[[nodiscard]] quantities::Result<quantities::Done> find_store(casestore::CaseStore& store,
                                                              const std::string& path,
                                                              std::string& saved_as);

/// "Steps 3 and 7 are damaged in the case store and left out: ..."; "" where none is.
[[nodiscard]] std::string words_for_damage(const KnownCase& known);

}  // namespace dryout::casework
