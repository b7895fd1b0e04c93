// Part numbers that hold the value: military styles and those made after them, from memory of
// MIL-PRF-39003 (solid tantalum), MIL-C-5 (mica), MIL-C-11015 and MIL-C-20 (ceramic).
#pragma once

#include <optional>
#include <string_view>

#include "quantities/part_marking.h"

namespace dryout::quantities {

/// "CSR13E106KM", "CM05FD151J03", "CK05BX104K"; nothing where it is no such number.
[[nodiscard]] std::optional<MarkingReading> read_part_number(std::string_view word);

}  // namespace dryout::quantities
