// Numbers as people type them. What is accepted is finite, and reads back from our own print.
#include <array>
#include <cmath>

#include "fuzz/fuzz_target.h"
#include "quantities/engineering_notation.h"

using namespace dryout;
using fuzz::demand;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using quantities::Unit;
  constexpr std::array units{Unit::none,   Unit::ohm,   Unit::farad, Unit::henry,
                             Unit::ampere, Unit::hertz, Unit::volt,  Unit::second};
  for (const Unit unit : units) {
    const auto value = quantities::parse_engineering(fuzz::text_of(data, size), unit);
    if (!value) {
      fuzz::demand_reasons(value);
      continue;
    }
    demand(std::isfinite(*value));
    const double magnitude = std::abs(*value);
    const std::string shown = quantities::format_engineering(*value, unit, 3);
    demand(shown.size() < 48);
    // "10,000 µF" is for reading only.
    const bool grouped = unit == Unit::farad && magnitude > 0.00999 && magnitude < 0.1;
    if (magnitude > 1e-15 && magnitude < 1e12 && !grouped) {  // what has a prefix of its own
      const auto again =
          quantities::parse_engineering(quantities::format_engineering(*value, unit, 9), unit);
      demand(again && std::abs(*again - *value) <= 1e-8 * magnitude);
    }
  }
  return 0;
}
