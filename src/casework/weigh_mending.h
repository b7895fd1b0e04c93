// What comes after the verdict: repair or recap, shopping lists, the proof, what was fitted and
// what was left, worked out from a case and put into words.
#pragma once

#include "casework/build_view.h"
#include "casework/mending_knowledge.h"
#include "casework/mending_view.h"
#include "quantities/result.h"

namespace dryout::casework {

/// `horizon_years`: 0.1 to 30, else a problem; so is knowledge without figures of the shop.
[[nodiscard]] quantities::Result<MendingView> weigh_mending(const CaseInHand& hand,
                                                            const MendingKnowledge& knowledge,
                                                            double horizon_years);

/// Numbers of one part, taken in the same manner before and after something was mended.
[[nodiscard]] std::vector<BeforeAfter> compare_readings(const CaseInHand& hand);

}  // namespace dryout::casework
