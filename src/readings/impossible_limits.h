// Rows of limits that no sheet can state: a slip of a power of ten passes every range of the reader
// and then clears dead parts, or condemns sound ones.
#pragma once

#include "quantities/problem.h"
#include "readings/limits_library.h"

namespace dryout::readings {

/// A problem for each capacitance or voltage in which no part of the row's technology is made
/// (common practice, no source), and for each |Z|, ESR or tan delta that lies further than a factor
/// of 100 from the middle of its neighbours: the seven rows of the same kind nearest in capacitance
/// and volts, each carried over by C to the power of -0.75. Left out one at a time, the shipped
/// rows of 28 November 2026 lie within a factor of 6 of such a middle. Fewer than five neighbours
/// say nothing.
[[nodiscard]] quantities::Problems impossible_limits(const LimitsLibrary& library);

}  // namespace dryout::readings
