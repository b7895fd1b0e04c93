// Plans that only repair, in the order of probability over cost, and what they cost.
//
// Trying repairs in the order of p/C is optimal for a single fault with independent perfect repairs
// (Kadane and Simon 1977). Where repairs share an access that is paid once, the p/C of a whole
// cluster counts: the best prefix of the repairs behind it, max over prefixes of
// sum p / (access + sum C). That is optimal for a tree of clusters that need not be closed again
// (Ottosen and Jensen, arXiv:1203.3502) as long as no two repairs fix the same fault; overlapping
// repairs are weighed again after each failure, which is a heuristic.
#pragma once

#include "planning/situation_space.h"

namespace dryout::planning {

enum class OrderBy {
  probability,            ///< the likeliest repair first, whatever it costs
  probability_over_cost,  ///< p/C of single repairs, C with what must still be opened now
  clusters,               ///< p/C of the best prefix behind each access
  printed                 ///< as listed in the problem
};

/// A course of action from here and its expected minutes.
struct Course {
  double minutes = 0.0;
  Action first;
};

/// Repairs in that order until the job is done, or giving up where going on costs more.
[[nodiscard]] Course repairs_in_order(const SituationSpace& space, Situation at, OrderBy order);

}  // namespace dryout::planning
