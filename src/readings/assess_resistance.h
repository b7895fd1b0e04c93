// ESR and impedance readings: inside of assess_reading.
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

/// Fills everything but caveats. `meter` is the one to be used.
[[nodiscard]] quantities::Result<Assessment> assess_resistance(const ReadingInput& input,
                                                               const Priors& priors,
                                                               const LimitsLibrary& library,
                                                               const Meter& meter);

/// What a reading at or below the limit that is told may say: never that the part is likelier bad
/// than before. A short, which reads alike, keeps what suspicion it has.
void accuse_nobody(const Priors& priors, std::vector<std::vector<double>>& likelihood);

/// What a reading that clears nobody may say: never that the part is likelier sound than before.
void clear_nobody(std::vector<std::vector<double>>& likelihood);

/// Before a reading says anything: states, P(state), and a likelihood of ones.
[[nodiscard]] Assessment blank_assessment(const Priors& priors);

}  // namespace dryout::readings
