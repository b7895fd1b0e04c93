// The preventive job: which batches to sample, how many of each to measure before it is recapped or
// cleared, and when to stop. Wald's sequential test (decision/sampling.h) over the readings that
// were taken, the batch that most threatens a come-back first.
#pragma once

#include <string>
#include <vector>

#include "casework/build_view.h"
#include "casework/mending_view.h"
#include "casework/set_stock.h"

namespace dryout::casework {

/// Batches of parts that wear out and were not replaced. A part counts as measured when a reading
/// of it was within or over its limit; a masked or unproven reading counts for nothing.
[[nodiscard]] std::vector<CohortSample> sample_cohorts(const CaseInHand& hand,
                                                       const WeighedSet& set,
                                                       const decision::ShopSettings& shop,
                                                       double horizon_years);

/// The shares and error bounds in one sentence.
[[nodiscard]] std::string sampling_rule_of(const decision::ShopSettings& shop);

}  // namespace dryout::casework
