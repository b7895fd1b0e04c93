// When a part was made, from its date code: letters of IEC 60062 (from memory), or year and week.
// Codes are short and repeat, so reading gives every date they may mean.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace dryout::quantities {

/// A date a code may mean. Letters repeat every twenty years, so there are several.
struct DateReading {
  int year = 0;
  std::optional<int> month;  ///< 1 to 12
  std::optional<int> week;   ///< 1 to 53
};

/// Reads "H5" (year letter, month), "8512" or "512" (year and week), latest candidate first, none
/// later than `year_now`.
[[nodiscard]] Result<std::vector<DateReading>> read_date_code(std::string_view code, int year_now);

}  // namespace dryout::quantities
