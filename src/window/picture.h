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
/// Readable by its owner alone: an owner's name may stand in it.
[[nodiscard]] quantities::Result<quantities::Done> write_png(const Picture& picture,
                                                             const std::string& path);

}  // namespace dryout::window
