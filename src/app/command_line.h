// The command line: one command per file, all over the same casework as the window.
// Exit codes: 0 done, 1 the answer is "no", 2 wrong usage or unreadable input, 3 internal fault, 4
// what was printed did not reach its place.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "casework/workshop.h"
#include "quantities/result.h"

namespace dryout::app {

/// What a person asks of the window on the command line.
struct WindowRequest {
  std::int64_t case_number = 0;  ///< 0 = none yet
  std::string view = "probe";    ///< for a picture: which page
  std::string path;              ///< for a picture: the file
  int width = 1280;
  int height = 800;
  double scale = 0.0;  ///< 0 = what the display says
  std::string theme = "dark";
  std::string store_folder;    ///< "" = the case was opened from a file
  std::string store_file;      ///< name of the store in that folder
  std::string picture_folder;  ///< where the window keeps pictures; "" = as the surroundings say
  std::string paper_folder;    ///< where it writes reports; likewise
  std::string items_file;      ///< where the window reports what lies where, for tests
};

/// The other face, handed in by main so that the two never meet; without a window, empty.
struct WindowFace {
  using Show = std::function<quantities::Result<quantities::Done>(casework::Workshop&,
                                                                  const WindowRequest&)>;
  Show open;
  Show picture;
  std::vector<std::string> views;
};

[[nodiscard]] int run_command_line(int argc, char** argv, const WindowFace& window);

}  // namespace dryout::app
