#include <string>

#include "window/attend.h"
#include "window/page_picture.h"
#include "window/window.h"

namespace dryout::window {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

Result<Done> snapshot(casework::Workshop& workshop, const SnapshotOptions& options) {
  if (options.scale < 1 || options.scale > 3) {
    return Problem{
        "this scale can't be drawn", {"--scale", 0, ""}, std::to_string(options.scale), "1 to 3"};
  }
  Desk desk;
  desk.theme = theme_named(options.theme);
  desk.scale = static_cast<float>(options.scale);
  Result<Done> laid = lay_desk(workshop, desk, options.case_number);
  if (!laid) {
    return laid;
  }
  Result<Done> turned = turn_to(desk, options.view);
  if (!turned) {
    return turned;
  }
  weigh_mending(workshop, desk);
  return draw_png(desk, options.width, options.height, options.path);
}

}  // namespace dryout::window
