// Capacitance, leakage, d.c. resistance, ripple and volts: inside of assess_reading. Each is held
// against one reference (marked value, limit, expected volts).
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

/// Fills everything but caveats.
[[nodiscard]] quantities::Result<Assessment> assess_ratio(const ReadingInput& input,
                                                          const Priors& priors,
                                                          const LimitsLibrary& library,
                                                          const Meter& meter);

}  // namespace dryout::readings
