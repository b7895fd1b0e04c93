// What a whole set boils down to for planners of bare problems: the few items most to blame, taken
// as faults of which exactly one is present, "something else" for all the rest, and the few checks
// that rank_checks puts first. Small enough to be solved exactly, and no more than a
// simplification: it forgets that several things can be wrong at once and that checks can be
// correlated given the fault.
//
// How a check comes out given a fault is read off the outlook by Bayes' rule on blame:
//   P(present | it is item i's doing) = P(present) * blame(i | present) / blame(i)
#pragma once

#include <cstddef>
#include <vector>

#include "planning/next_check.h"
#include "planning/troubleshooting_problem.h"

namespace dryout::planning {

struct LeadingProblem {
  TroubleshootingProblem problem;
  std::vector<std::size_t> checks;    ///< of the problem's checks, the index into Bench::checks
  std::vector<std::size_t> remedies;  ///< of its repairs, the index into Bench::remedies
};

/// `proof`: minutes of the proof run after each repair. `foresight` holds one outlook per check of
/// the bench, in their order.
[[nodiscard]] LeadingProblem leading_problem(const diagnosis::Network& network,
                                             const diagnosis::Foresight& foresight,
                                             const Bench& bench, double proof);

}  // namespace dryout::planning
