// The case as a picture of its steps: time goes from left to right, each kind of work has a lane of
// its own. Bad is a diamond, good a disc, anything else a ring; what was taken back is hollow.
#pragma once

#include <vector>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct TimelineTouch {
  int pressed = 0;  ///< event of the step pressed, 0 = none
};

/// Long cases go on below, band by band; only the last `bands` are drawn (0 = all).
TimelineTouch draw_timeline(Sheet& sheet, const std::vector<casework::LogLine>& log, int bands);

}  // namespace dryout::window
