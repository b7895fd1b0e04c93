// Several words told one after the other.
#pragma once

#include <string>
#include <vector>

namespace dryout::casework {

/// "hum, buzz, rattle", as in a cell or beside a heading.
[[nodiscard]] std::string in_a_row(const std::vector<std::string>& words);

/// "hum, buzz and rattle", as in a sentence.
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace dryout::casework
