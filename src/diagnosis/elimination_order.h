// In which order to take sets of shared findings, so that few findings stand open at once: a
// finding opens with the first set that holds it and closes after the last.
#pragma once

#include <vector>

#include "diagnosis/folded_evidence.h"

namespace dryout::diagnosis {

/// Order in which to take the sets (each sorted, without repeats, of indices below `findings`).
/// Greedy from several starts, the cheapest by the sum of 2^(open findings) kept. `touches` holds
/// in how many sets outside this choice a finding still waits (it then stays open to the end), and
/// `open` which findings are open already.
[[nodiscard]] std::vector<Index> order_sets(const std::vector<std::vector<Index>>& sets,
                                            const std::vector<Index>& touches,
                                            const std::vector<bool>& open);

}  // namespace dryout::diagnosis
