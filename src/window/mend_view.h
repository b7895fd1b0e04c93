// Mending, and the proof: what was done to which part, and whether each complaint is gone.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct MendState {
  std::string item;    ///< what is being mended; "" = the suspect in hand
  std::string fitted;  ///< what went in
  int action = 0;
};

void draw_mend(Sheet& sheet, const casework::CaseView& view, MendState& state, CommandQueue& queue);

struct HandOverState {
  std::string cause;  ///< item id; "" = none found
  std::string summary;
  std::string reason;  ///< for taking a closed case up again
};

void draw_hand_over(Sheet& sheet, const casework::CaseView& view, HandOverState& state,
                    CommandQueue& queue);

}  // namespace dryout::window
