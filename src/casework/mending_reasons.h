// Why this very set is mended so, in one sentence each: what goes first on sight, how far a batch
// is over its limit, whether its kind seeps, and which odd one is left to choice.
#pragma once

#include <string>
#include <vector>

#include "casework/build_view.h"
#include "casework/mending_knowledge.h"
#include "casework/set_stock.h"

namespace dryout::casework {

[[nodiscard]] std::vector<std::string> reasons_of_the_set(const CaseInHand& hand,
                                                          const WeighedSet& set,
                                                          const MendingKnowledge& knowledge,
                                                          const decision::WeighedOption& advised);

}  // namespace dryout::casework
