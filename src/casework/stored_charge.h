// How to empty the capacitors at hand: for a part by what is marked on it, else by the worst case
// of what is typical in a set of this kind, and then that is said.
#pragma once

#include <string>

#include "casework/case_state.h"
#include "casework/danger.h"

namespace dryout::casework {

/// "Here: C3, 16 µF at 450 V (1.6 J): 68 kΩ, rated 450 V and 1 W, held 6 s, leaves 3 V. ..."; of
/// several parts the one that stores most. "" where nothing stands above 60 V with a charge that
/// counts (IEC 61010-1, 6.3.1 c), nothing above a kilovolt, and nothing stores the 20 J that burn.
[[nodiscard]] std::string discharge_told(const Ground& ground, const CaseState& state,
                                         const diagnosis::CompiledFinding& finding);
[[nodiscard]] std::string discharge_told(const Ground& ground, const CaseState& state,
                                         std::size_t item);

}  // namespace dryout::casework
