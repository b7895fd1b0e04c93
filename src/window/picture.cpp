#include "window/picture.h"

#include <GL/gl.h>
#include <stb_image_write.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace dryout::window {

Picture read_pixels(int width, int height) {
  Picture picture{width, height, {}};
  const auto row = static_cast<std::size_t>(width) * 4;
  picture.rgba.resize(row * static_cast<std::size_t>(height));
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, picture.rgba.data());
  // OpenGL counts rows from the bottom.
  for (std::size_t top = 0, bottom = static_cast<std::size_t>(height); top + 1 < bottom; ++top) {
    --bottom;
    std::swap_ranges(picture.rgba.begin() + static_cast<std::ptrdiff_t>(top * row),
                     picture.rgba.begin() + static_cast<std::ptrdiff_t>((top + 1) * row),
                     picture.rgba.begin() + static_cast<std::ptrdiff_t>(bottom * row));
  }
  for (std::size_t alpha = 3; alpha < picture.rgba.size(); alpha += 4) {
    picture.rgba[alpha] = 255;
  }
  return picture;
}

quantities::Result<quantities::Done> write_png(const Picture& picture, const std::string& path) {
  if (stbi_write_png(path.c_str(), picture.width, picture.height, 4, picture.rgba.data(),
                     picture.width * 4) == 0) {
    return quantities::Problem{"the picture could not be written",
                               {path, 0, ""},
                               "",
                               "a path in a folder that exists and may be written"};
  }
  std::error_code kept_as_it_is;
  std::filesystem::permissions(
      path, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write,
      kept_as_it_is);
  return quantities::Done{};
}

}  // namespace dryout::window
