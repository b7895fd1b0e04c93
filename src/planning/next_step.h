// The advice itself: from one state of knowledge, the one thing to do. The first of rank_checks
// while it saves more than it costs and nobody is convicted yet; then what stands first in the
// order of remedies; and where going on would cost more than it is worth, to stop and say so.
// Everything that advises goes by this: the case at the bench, practice, simulation.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "planning/next_check.h"

namespace dryout::planning {

struct NextStep {
  enum class Kind { check, mend, stop };
  Kind kind = Kind::stop;
  std::size_t index = 0;  ///< into Bench::checks or Bench::remedies
};

/// `ranked` as rank_checks gave it for the same network, foresight and bench.
[[nodiscard]] NextStep next_step(const diagnosis::Network& network,
                                 const diagnosis::Foresight& foresight, const Bench& bench,
                                 const std::vector<RankedCheck>& ranked);

/// Whether some remedy's item is to blame beyond reasonable doubt.
[[nodiscard]] bool is_convinced(const diagnosis::Network& network, const diagnosis::Posterior& now,
                                const Bench& bench);

}  // namespace dryout::planning
