// Finding a file by hand: a line for its path, and below it what the path goes on to. Enter
// completes where only one thing fits; a folder pressed is gone into, a file pressed is taken.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/own_files.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct FinderState {
  std::string path;
  std::optional<std::string> asked;          ///< the path that was last looked into
  std::optional<casework::FolderView> seen;  ///< what came of it
};

/// True when a file was taken: `state.path` then names it, or what the person says is one.
bool find_file(Sheet& sheet, const std::string& name, const std::string& label,
               const std::vector<std::string>& endings, FinderState& state, CommandQueue& queue);

}  // namespace dryout::window
