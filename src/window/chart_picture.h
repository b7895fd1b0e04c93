// Each chart of the window as a picture of its own: a button and the other mouse button ask for it,
// and it is drawn whole, with its title and the case's name, however much of it was in sight.
#pragma once

#include <string>
#include <vector>

#include "quantities/result.h"
#include "window/command_queue.h"
#include "window/sheet.h"
#include "window/widgets.h"

namespace dryout::window {

struct Desk;

/// map, balance, readings, cost, plan, timeline, shop-causes, shop-readings.
[[nodiscard]] const std::vector<std::string>& chart_names();

/// "Save the picture", with its letter.
void save_chart_button(Sheet& sheet, const std::string& chart, CommandQueue& queue);

/// Around the drawing of a chart: pressed with the other mouse button, it offers to be saved.
[[nodiscard]] Box chart_begins();
void chart_ends(Sheet& sheet, const std::string& chart, Box begun, CommandQueue& queue);

/// The chart that desk.alone names, over the whole page.
void draw_alone(Sheet& sheet, Desk& desk, Box page, CommandQueue& queue);

/// Draws it to a PNG file, as high as it needs, at twice the desk's own size at most so that it
/// prints well. A problem where the desk does not have what the chart shows. Leaves the desk as it
/// was, and an OpenGL context of its own current on this thread.
[[nodiscard]] quantities::Result<quantities::Done> draw_chart_png(Desk& desk,
                                                                  const std::string& chart,
                                                                  const std::string& path);

}  // namespace dryout::window
