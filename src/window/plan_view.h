// The plan ahead as a tree from left to right: this check, and after either outcome the next; at
// the ends where to look. Boxes can be pressed: a check comes in hand, a suspect is shown.
#pragma once

#include "casework/plan_ahead.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct PlanState {
  int depth = 3;            ///< checks in a row
  bool being_made = false;  ///< there is none yet, and there will be
};

/// `first` is null where no plan could be made.
void draw_plan(Sheet& sheet, const casework::PlanStep* first, const PlanState& state,
               CommandQueue& queue);
/// The tree alone.
void draw_plan_tree(Sheet& sheet, const casework::PlanStep& first, CommandQueue& queue);

}  // namespace dryout::window
