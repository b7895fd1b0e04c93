// The value cell of a parts list: "47u", "470/25V", "0.1µF", "100n 63V", "10 uF 50 V", "2A104J",
// "1000 MFD". Read by quantities' engineering notation first, by the codes printed on parts where
// no unit is written. A figure that could mean two values is refused, not guessed.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::knowledge {

struct PartValue {
  std::optional<quantities::Farad> capacitance;
  std::optional<quantities::Volt> rated;
};

/// How a figure without a unit is to be understood.
enum class Figures { unknown, microfarads_on_cans, codes_on_tantalum, codes_on_small_parts };

/// An empty cell, "-" or "?" says nothing and is no problem. The problem's place is left empty.
[[nodiscard]] quantities::Result<PartValue> read_part_value(std::string_view cell, Figures figures);

/// A volts cell: "25", "25V", "50 VDC", "6V3"; nothing where it is empty.
[[nodiscard]] quantities::Result<std::optional<quantities::Volt>> read_part_volts(
    std::string_view cell);

}  // namespace dryout::knowledge
