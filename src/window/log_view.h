// The bench log: every step with its time, what was taken back struck through, notes of one's own.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct LogState {
  std::string note;
  int selected = -1;  ///< event of the step unfolded
};

void draw_log(Sheet& sheet, const casework::CaseView& view, LogState& state, CommandQueue& queue);

}  // namespace dryout::window
