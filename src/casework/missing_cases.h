// What an export of all cases has to tell beside what it found: cases that are on record in the
// store and not there.
#pragma once

#include <string>
#include <vector>

namespace dryout::casework {

/// One sentence each, as `dryout case check` has it.
[[nodiscard]] std::vector<std::string> missing_cases(const std::string& store);

}  // namespace dryout::casework
