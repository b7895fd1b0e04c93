// Pixels to a PNG file.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "quantities/result.h"

namespace dryout::window {

/// Rows from top to bottom, four bytes a pixel.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgba;
};

/// What the current OpenGL context has drawn, made opaque.
[[nodiscard]] Picture read_pixels(int width, int height);
/// A name in that folder (made, for its owner alone, where it is missing) that is not taken:
/// dryout-map-1.png, dryout-map-2.png ...
[[nodiscard]] quantities::Result<std::string> free_picture(const std::string& folder,
                                                           const std::string& name);
/// Readable by its owner alone: an owner's name may stand in it.
[[nodiscard]] quantities::Result<quantities::Done> write_png(const Picture& picture,
                                                             const std::string& path);

}  // namespace dryout::window
