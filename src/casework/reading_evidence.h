// The seam between a case and readings/, the room that knows what a number is worth.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "casework/case_ground.h"
#include "casework/case_state.h"

namespace dryout::casework {

/// What one reading proves.
struct WeighedReading {
  /// P(reading | state), one row or one a level of the item's cohort; empty = it says nothing.
  std::vector<std::vector<double>> likelihood;
  std::optional<double> limit;  ///< SI unit of the reading
  std::string limit_source;
  std::string verdict;   ///< over-limit, within-limit, masked, not-proven, suspect-short
  std::string sentence;  ///< the verdict in plain words
  std::vector<std::string> caveats;
};

/// `item` must be a capacitor of the ground; `state` gives the part's particulars. `brothers`:
/// readings taken in the same manner of other parts of the group.
[[nodiscard]] WeighedReading weigh_reading(const Ground& ground, const CaseState& state,
                                           std::size_t item, const RecordReading& reading,
                                           std::size_t brothers);

}  // namespace dryout::casework
