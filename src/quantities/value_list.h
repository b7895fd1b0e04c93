// Several values in one text, as `--cohort 2.2,2.5,0.6` takes them.
#pragma once

#include <string_view>
#include <vector>

#include "quantities/engineering_notation.h"

namespace dryout::quantities {

/// Semicolons or blanks part the values, and then a comma is a decimal comma: "2,2; 2,5; 0,6".
/// Without either, commas part them where they can be nothing else: "2.2,2.5,0.6", "2k2,3k". "2,4"
/// could be both and is refused with the two ways to write it; "0,047" can only be one. Each value
/// follows parse_engineering.
[[nodiscard]] Result<std::vector<double>> parse_list(std::string_view text, Unit unit);

}  // namespace dryout::quantities
