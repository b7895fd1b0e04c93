// Direct volts above what the part is rated for: a danger before it is a reading.
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

/// Where the test was above the rating, the sentence and the advice begin with the warning, and
/// nothing that was read there is held against the part: it was overstrained, not measured.
void heed_rating(const ReadingInput& input, Assessment& assessment);

}  // namespace dryout::readings
