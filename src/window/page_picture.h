// A page of a desk already laid, to a PNG file.
#pragma once

#include <string>

#include "quantities/result.h"
#include "window/desk.h"

namespace dryout::window {

/// Turns the desk to the page of that name; a problem when there is none of it, or when it needs a
/// case and the desk has none open.
[[nodiscard]] quantities::Result<quantities::Done> turn_to(Desk& desk, const std::string& view);

[[nodiscard]] quantities::Result<quantities::Done> draw_png(Desk& desk, int width, int height,
                                                            const std::string& path);

}  // namespace dryout::window
