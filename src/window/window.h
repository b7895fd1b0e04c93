// The bench window's door: open it on a workshop, or draw one page of it to a picture.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casework/workshop.h"
#include "quantities/result.h"

namespace dryout::window {

struct WindowOptions {
  int width = 1280, height = 800;
  double scale = 0;              ///< 1 to 3; 0 = what the monitor says
  std::string theme = "dark";    ///< dark, light
  std::int64_t case_number = 0;  ///< opened at once; 0 = the shelf
  std::string items_file;        ///< where to report what lies where after each frame; "" = nowhere
  std::string store_folder;      ///< where the store lies; "" = nobody else can sit at it
  std::string store_file;        ///< its name there
};

/// Opens the window and returns when it is closed. A problem where there is no display, or no
/// OpenGL 3.3 on it.
[[nodiscard]] quantities::Result<quantities::Done> run_window(casework::Workshop& workshop,
                                                              const WindowOptions& options);

struct SnapshotOptions {
  std::string view = "probe";  ///< one of view_names()
  std::int64_t case_number =
      0;  ///< needed by every view but cases, new-case, library, shop and help
  int width = 1280, height = 800;
  double scale = 1;
  std::string theme = "dark";
  std::string path;  ///< the PNG file to write
};

/// In place of a view: all of them and the charts, in both themes and on three screens, into the
/// folder that `path` names.
inline constexpr const char* every_view = "all";

/// The views that can be drawn, in the order of the job.
[[nodiscard]] const std::vector<std::string>& view_names();

/// Draws one view with nobody at the keyboard; needs no display.
[[nodiscard]] quantities::Result<quantities::Done> snapshot(casework::Workshop& workshop,
                                                            const SnapshotOptions& options);

}  // namespace dryout::window
