// From a case to what a face may read of it. Each part has a file of its own: view_suspects.cpp,
// view_checks.cpp, view_layout.cpp (boards, blocks, access, symptoms), view_readings.cpp,
// view_leading.cpp.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "casework/case_view.h"
#include "casework/journal.h"
#include "casework/reasoning.h"

namespace dryout::casework {

/// All that the view of one case is made from.
struct CaseInHand {
  const Ground& ground;
  const CaseState& state;
  const Reasoning& reasoning;
};

[[nodiscard]] CaseView build_view(std::int64_t number, const Journal& journal,
                                  const CaseInHand& hand);

[[nodiscard]] std::vector<SuspectView> suspects_of(const CaseInHand& hand);
[[nodiscard]] std::vector<CheckView> next_checks_of(const CaseInHand& hand);
[[nodiscard]] std::vector<CheckView> declined_checks_of(const CaseInHand& hand);
[[nodiscard]] std::vector<SymptomView> symptoms_of(const CaseInHand& hand);
[[nodiscard]] std::vector<PlaceAxisView> places_of(const CaseInHand& hand);
[[nodiscard]] std::vector<BoardView> boards_of(const CaseInHand& hand);
[[nodiscard]] std::vector<BlockView> blocks_of(const CaseInHand& hand);
[[nodiscard]] std::vector<AccessView> accesses_of(const CaseInHand& hand);
[[nodiscard]] std::vector<ReadingView> readings_of(const CaseInHand& hand);
/// `suspects` and `next` as they stand in the view.
[[nodiscard]] Leading leading_of(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                                 const std::vector<CheckView>& next);
[[nodiscard]] Advice advice_of(const CaseInHand& hand);
/// What cannot all be true, and what the technician judged against a reading; "" where neither is.
[[nodiscard]] std::string contradiction_of(const CaseInHand& hand);

}  // namespace dryout::casework
