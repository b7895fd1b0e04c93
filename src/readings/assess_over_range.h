// A meter that showed OL: inside of assess_reading.
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

/// Fills everything but caveats. Over range, a resistance tester says "open" (or "not touched"), an
/// ohmmeter "no short"; capacitance, current, volts and times are not read at all: `no-reading`.
[[nodiscard]] Assessment assess_over_range(const ReadingInput& input, const Priors& priors);

}  // namespace dryout::readings
