// ESR and impedance readings: inside of assess_reading.
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

/// Fills everything but caveats. `meter` is the one to be used.
[[nodiscard]] quantities::Result<Assessment> assess_resistance(const ReadingInput& input,
                                                               const Priors& priors,
                                                               const LimitsLibrary& library,
                                                               const Meter& meter);

/// A reading at or below the limit that is told never accuses, but of a short: no state of the part
/// then explains it better than being sound.
void hold_at_or_below(double printed, double value, std::vector<std::vector<double>>& likelihood,
                      const std::vector<std::string>& states);

/// Before a reading says anything: states, P(state), and a likelihood of ones.
[[nodiscard]] Assessment blank_assessment(const Priors& priors);

}  // namespace dryout::readings
