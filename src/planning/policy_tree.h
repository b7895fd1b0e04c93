// From a way of choosing the next step to the whole policy tree.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>

#include "planning/situation_space.h"

namespace dryout::planning {

/// What to do next in a situation; must be one of its actions, or give up.
using Choose = std::function<Action(const Situation&)>;

/// The tree of everything that `choose` would do from here; null where it would have more than
/// `nodes_max` nodes.
[[nodiscard]] std::unique_ptr<Step> grow(const SituationSpace& space, const Choose& choose,
                                         std::size_t nodes_max);

/// Gives up wherever that costs less than going on with this tree. Returns the expected minutes of
/// what remains, counted from `at`.
double give_up_in_time(const SituationSpace& space, const Situation& at, Step& step);

}  // namespace dryout::planning
