// The page for two metres' distance: the check, its entry, where the case stands. Nothing else.
#pragma once

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/probe_view.h"
#include "window/sheet.h"

namespace dryout::window {

void draw_far(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
              ProbeState& state, CommandQueue& queue);

}  // namespace dryout::window
