// The figures 0 to 9, whatever the locale says.
#pragma once

namespace dryout::quantities {

[[nodiscard]] constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace dryout::quantities
