// How often a finding is there though nothing listed makes it, so that of all sets that show it a
// given share has an unlisted cause: "of a hundred sets that hum, eight have something that is not
// in the lists". Set as a share, not as a rate of its own: a rate of one in a hundred is next to
// nothing beside a hum that one set in five has, and outweighs every cause of a rare trouble.
#pragma once

#include <cstddef>
#include <vector>

#include "diagnosis/network.h"

namespace dryout::diagnosis {

/// [item][state], before any evidence.
using StateChances = std::vector<std::vector<double>>;
[[nodiscard]] StateChances state_chances(const Network& network);

/// The leak at which `share` of the finding's occurrences have none of its causes behind them.
/// With q the chance that no cause brings it about: leak = share (1 - q) / (1 - share q). Items are
/// taken as independent, so brothers of one cohort count a little too much. At least 1e-6, save for
/// a share of none: 0.
[[nodiscard]] double leak_of_share(const StateChances& chances, const std::vector<Cause>& causes,
                                   double share);

}  // namespace dryout::diagnosis
