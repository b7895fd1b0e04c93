// Which of the values that a bench meets most does the limits library know? Files:
// DIR/rules/common_values/*.json, stocked values at stocked volts.
#pragma once

#include <string>
#include <vector>

#include "readings/limits_library.h"

namespace dryout::readings {

struct CommonPart {
  std::string group;  ///< id of its entry: "cans"
  PartDescription part;
};
[[nodiscard]] quantities::Result<std::vector<CommonPart>> load_common_parts(
    const std::vector<std::string>& directories);

/// How a part's limit would be had, the best way first.
enum class Covered {
  own_row,     ///< a row of this value and these volts states a resistance or an impedance
  look_alike,  ///< one of a like value does
  series,      ///< by a series' loss at these volts and, wet, the fitted step (loss_fit.h)
  nothing
};
[[nodiscard]] std::string_view word_of(Covered covered);  ///< "own row", "look-alike", ...

struct Coverage {
  CommonPart common;
  Covered by = Covered::nothing;
  std::string document;  ///< maker, series and sheet of the row; "" for nothing
};
[[nodiscard]] std::vector<Coverage> coverage_of(const LimitsLibrary& library,
                                                const std::vector<CommonPart>& parts);

}  // namespace dryout::readings
