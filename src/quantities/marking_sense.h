// Which of several readings of a print makes sense: by what such parts are made for, by the volts
// beside it, by its age. All weights are judged.
#pragma once

#include <vector>

#include "quantities/part_marking.h"

namespace dryout::quantities {

/// Fills in how badly each reading fits the part, and why; the best first, doubles and the hopeless
/// left out.
void rank_readings(std::vector<MarkingReading>& readings, const MarkedPart& part);

}  // namespace dryout::quantities
