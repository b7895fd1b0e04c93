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
  quantities::Place place = {};
};
[[nodiscard]] quantities::Result<std::vector<CommonPart>> load_common_parts(
    const std::vector<std::string>& directories);

/// How the limit of a reading of such a part is had, the best way first.
enum class Covered {
  own_row,     ///< a row of this value and these volts states a resistance or an impedance
  look_alike,  ///< one of a like value does
  series,      ///< by a series' loss or insulation at these volts
  usual,       ///< by what is usual of its kind: no row speaks for it
  nothing
};
[[nodiscard]] std::string_view word_of(Covered covered);  ///< "own row", "look-alike", ...

struct Coverage {
  CommonPart common;
  Covered by = Covered::nothing;
  Kind kind = Kind::esr;  ///< what such a part is judged by: ESR, or insulation
  std::string document;   ///< as a reading names it: maker, series and sheet; "" for nothing
};
[[nodiscard]] std::vector<Coverage> coverage_of(const LimitsLibrary& library,
                                                const std::vector<CommonPart>& parts);

}  // namespace dryout::readings
