// Where a step of the log stands in the timeline of a case: the lane says what kind of work it was,
// the bearing whether what was seen was bad or good.
#pragma once

#include <string_view>
#include <vector>

#include "casework/command.h"

namespace dryout::casework {

struct Lane {
  std::string_view id, title;
};
/// From top to bottom, in the order of the job.
[[nodiscard]] const std::vector<Lane>& lanes();

[[nodiscard]] std::string_view lane_of(const Command& command);
/// bad, good, or "" where neither was seen.
[[nodiscard]] std::string_view bearing_of(const Command& command);

}  // namespace dryout::casework
