// In which order the hot items are taken when whole fault states are drawn: one item a step, a
// cohort's items one after the other, so that few shared findings are open at once. Known before
// any vector is made, so that what would be too much is noticed in time.
#pragma once

#include <vector>

#include "diagnosis/folded_evidence.h"

namespace dryout::diagnosis {

/// One hot item. While it acts, bit k of a set of explained findings is open[k].
struct DrawStep {
  Index item = 0;
  Index cohort = none;
  Index levels = 1;           ///< of its cohort: vectors carry one lane each
  bool first = true;          ///< of its cohort
  bool last = true;           ///< of its cohort
  Index opens = 0;            ///< how many of `open`, the last ones, open here
  std::vector<Index> open;    ///< shared findings
  std::vector<Index> closes;  ///< bits of those that no later item can explain, rising
};

struct DrawOrder {
  std::vector<DrawStep> steps;
  double cells = 0.0;  ///< values of all vectors together
};

[[nodiscard]] DrawOrder order_for_draws(const FoldedEvidence& folded);

}  // namespace dryout::diagnosis
