// A parts list becomes the technician's own kind of equipment: its path is typed, or the file is
// dropped on the window; what would come of it is shown before it is kept.
#pragma once

#include <optional>
#include <string>

#include "casework/own_set.h"
#include "window/command_queue.h"
#include "window/file_finder.h"
#include "window/sheet.h"

namespace dryout::window {

struct PartsListState {
  bool open = false;  ///< unfolded
  FinderState file;
  std::string title;
  std::optional<casework::OwnSet> seen;  ///< what would come of it
};

/// `like` is the architecture picked on the page, "" = the one that fits best.
void draw_parts_list(Sheet& sheet, const std::string& name, const std::string& like,
                     PartsListState& state, CommandQueue& queue);

}  // namespace dryout::window
