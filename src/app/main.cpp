// The program's door. With words after the name it is the command line; alone it opens the bench
// window, or, where there is no display, says so and names the guided session.
#include "app/command_line.h"

#ifdef DRYOUT_WITH_WINDOW
#include "window/window.h"

namespace {

using dryout::app::WindowFace;
using dryout::app::WindowRequest;
using dryout::casework::Workshop;

WindowFace window_face() {
  WindowFace face;
  face.open = [](Workshop& workshop, const WindowRequest& request) {
    dryout::window::WindowOptions options;
    options.width = request.width;
    options.height = request.height;
    options.scale = request.scale;
    options.theme = request.theme;
    options.case_number = request.case_number;
    options.items_file = request.items_file;
    options.store_folder = request.store_folder;
    options.store_file = request.store_file;
    return dryout::window::run_window(workshop, options);
  };
  face.picture = [](Workshop& workshop, const WindowRequest& request) {
    dryout::window::SnapshotOptions options;
    options.view = request.view;
    options.case_number = request.case_number;
    options.width = request.width;
    options.height = request.height;
    options.scale = request.scale > 0.0 ? request.scale : 1.0;
    options.theme = request.theme;
    options.path = request.path;
    return dryout::window::snapshot(workshop, options);
  };
  face.views = dryout::window::view_names();
  face.views.emplace_back(dryout::window::every_view);
  return face;
}

}  // namespace
#else
namespace {
dryout::app::WindowFace window_face() { return {}; }
}  // namespace
#endif

int main(int argc, char** argv) { return dryout::app::run_command_line(argc, argv, window_face()); }
