// Handing over: the repair proved step by step, the readings before and after, what was left, and
// the case closed with its cause or honestly without one.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct HandOverState {
  std::string step;    ///< step of the proof in hand; "" = the first that is open
  std::string remark;  ///< what was seen at it
  std::string cause;   ///< item id; "" = none found
  std::string summary;
  std::string reason;  ///< for taking a closed case up again
};

void draw_hand_over(Sheet& sheet, const casework::CaseView& view,
                    const casework::MendingView* mending, HandOverState& state,
                    CommandQueue& queue);

/// The checklist; `settled` steps can be picked again.
void draw_proof(Sheet& sheet, const casework::MendingView& mending, HandOverState& state,
                CommandQueue& queue);

}  // namespace dryout::window
