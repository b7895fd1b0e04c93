// A dry part, alone, that shows less than its reactance: inside of assess_resistance.
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

/// The value is known, nothing sits across, and the reading lies far below 1 / (2 pi f C).
[[nodiscard]] bool shows_less_than_reactance(const ReadingInput& input);

/// |Z| that small is no capacitor's. A tester of the in-phase part shows next to nothing of a sound
/// dry part as well: there the suspicion stands, and nobody is convicted. Takes a blank assessment
/// with the corrected value in it.
[[nodiscard]] Assessment assess_less_than_reactance(const ReadingInput& input, const Priors& priors,
                                                    Assessment assessment);

}  // namespace dryout::readings
