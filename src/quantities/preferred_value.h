// Preferred values: the figures a shop can buy (IEC 60063, from memory).
#pragma once

#include "quantities/quantity.h"

namespace dryout::quantities {

/// The E-series of preferred numbers (IEC 60063): E3, E6, E12, E24.
enum class Series { e3 = 3, e6 = 6, e12 = 12, e24 = 24 };

/// The preferred value nearest on a log scale, and the next one not below.
[[nodiscard]] Farad nearest_preferred(Farad value, Series series);
[[nodiscard]] Farad preferred_not_below(Farad value, Series series);
[[nodiscard]] bool is_preferred(Farad value, Series series);

}  // namespace dryout::quantities
