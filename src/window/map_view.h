// The equipment's block map: how the signal goes and who feeds whom, shaded, hatched and numbered
// by suspicion. A board can be picked to see only its blocks, a block to see its parts.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct MapState {
  std::string board;  ///< only this board; "" = the whole set
  std::string block;  ///< picked
};

/// The blocks of the board looked at, alone.
void draw_block_map(Sheet& sheet, const casework::CaseView& view, MapState& state);
void draw_map(Sheet& sheet, const casework::CaseView& view, MapState& state, CommandQueue& queue);

}  // namespace dryout::window
