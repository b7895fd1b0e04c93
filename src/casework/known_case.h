// A case as far as this program has read it, and what it finds when it looks again: more steps,
// fewer, others. What was shown must not stand on when the store no longer has it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "casework/case_view.h"
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

/// What find_store() remembers from one look to the next.
struct StorePlace {
  std::string saved_as;  ///< where what a deleted store held was put; "" = nowhere
  bool shut = false;     ///< the store in hand was given up, and none could be opened since
};

/// Makes sure that `store` is the one that now lies at `path`, and opens it where another was put
/// there. Where none is, what this program still holds is saved beside it, and the problem says so.
[[nodiscard]] quantities::Result<quantities::Done> find_store(casestore::CaseStore& store,
                                                              const std::string& path,
                                                              StorePlace& place);

/// Which steps are damaged or missing, in a sentence; "" = none. Told with whatever is shown of the
/// case or done to it.
[[nodiscard]] std::string words_for_damage(const KnownCase& known);

/// What is to be told with a view of the case: what became of it, which steps are damaged and left
/// out, and these words.
void add_notices(const KnownCase& known, const std::vector<std::string>& words, CaseView& view);

}  // namespace dryout::casework
