// The most that can stand on a rail or across a part for a while, above what a drawing says of it:
// mains at their highest, and high tension before the valves draw current.
#pragma once

#include <string_view>

#include "knowledge/rules.h"

namespace dryout::knowledge {

/// Supplies may rise a tenth above their nominal volts (EN 50160, from memory).
inline constexpr double mains_over_nominal = 1.1;

/// The peak of the equipment's mains at their highest: 358 V of 230 V. Zero where it has none.
[[nodiscard]] quantities::Volt mains_peak(const Equipment& equipment);

/// What a rail of high tension rises to while no valve draws current: 1.414 times the winding, or
/// the mains, that it is made of, at mains a tenth high, and a whole number of times that where the
/// rail stands higher than one rectifier makes it (a doubler). Capacitor-input rectifier, textbook.
/// Zero on other rails, and where nothing alternating feeds it.
[[nodiscard]] quantities::Volt unloaded_peak(const Equipment& equipment, std::string_view rail);

/// The high tension that a part meets before the valves draw current, and the bias below it.
struct HighTensionAt {
  quantities::Volt peak{0.0};
  quantities::Volt bias{0.0};  ///< without sign; of a stage whose grids stand below its cathodes
};

/// Of a part on a rail that rail's; of one without, the highest of the rails that feed its block or
/// a block whose signal goes there: it couples from a plate; to a grid, from the plate before it.
[[nodiscard]] HighTensionAt high_tension_at(const Equipment& equipment, const PartGroup& group);

}  // namespace dryout::knowledge
