// The shelf: the cases in the store, newest first, and the door for a new one.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "casework/shop_memory.h"
#include "casework/workshop.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

/// So many cases lie on the shelf; older ones are found by their words.
inline constexpr int shelf_most = 200;

/// What the store was asked for.
struct CaseShelf {
  std::vector<casework::CaseSummary> cases;  ///< the newest
  std::vector<casework::CaseSummary> found;  ///< of all, by the words searched for
  /// Closed cases like the open one; nothing where no case is open.
  std::optional<casework::LastTimeView> last_time;
  std::int64_t last_time_of = 0;  ///< the open case it was asked for
};

struct CasesState {
  std::string search;
  bool taking_in = false;  ///< the form for a new case is open
};

void draw_cases(Sheet& sheet, const CaseShelf& shelf, CasesState& state, CommandQueue& queue);

}  // namespace dryout::window
