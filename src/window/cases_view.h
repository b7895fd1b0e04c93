// The shelf: the cases in the store, newest first, and the door for a new one.
#pragma once

#include <string>
#include <vector>

#include "casework/workshop.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct CasesState {
  std::string search;
  bool taking_in = false;  ///< the form for a new case is open
};

void draw_cases(Sheet& sheet, const std::vector<casework::CaseSummary>& cases, CasesState& state,
                CommandQueue& queue);

}  // namespace dryout::window
