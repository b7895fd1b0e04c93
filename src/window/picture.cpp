#include "window/picture.h"

#include <GL/gl.h>
#include <fcntl.h>
#include <stb_image_write.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <string_view>

namespace dryout::window {

namespace {

/// Makes the file for its owner alone and brings the bytes to the disk; what went wrong, 0 = all is
/// there. Nothing half-written stays. What is no file (/dev/full, a pipe) takes them as it is.
int pour(std::string_view bytes, const std::string& path) {
  const int file =
      ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) {
    return errno;
  }
  struct stat status {};
  const bool regular = ::fstat(file, &status) == 0 && S_ISREG(status.st_mode);
  int error = regular && ::fchmod(file, S_IRUSR | S_IWUSR) != 0 ? errno : 0;
  error = error == EPERM ? 0 : error;  // another's file that may be written keeps its rights
  while (error == 0 && !bytes.empty()) {
    const ssize_t written = ::write(file, bytes.data(), bytes.size());
    if (written > 0) {
      bytes.remove_prefix(static_cast<std::size_t>(written));
    } else if (errno != EINTR) {
      error = written == 0 ? ENOSPC : errno;
    }
  }
  if (error == 0 && regular && ::fsync(file) != 0 && errno != EINVAL) {
    error = errno;
  }
  if (::close(file) != 0 && error == 0) {
    error = errno;
  }
  if (error != 0 && regular) {
    ::unlink(path.c_str());
  }
  return error;
}

}  // namespace

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
  std::string png;
  const auto keep = [](void* to, void* bytes, int size) {
    static_cast<std::string*>(to)->append(static_cast<const char*>(bytes),
                                          static_cast<std::size_t>(size));
  };
  const bool made = stbi_write_png_to_func(keep, &png, picture.width, picture.height, 4,
                                           picture.rgba.data(), picture.width * 4) != 0;
  const int error = made ? pour(png, path) : ENOMEM;
  if (error != 0) {
    return quantities::Problem{
        "the picture could not be written",
        {path, 0, ""},
        std::strerror(error),
        "a path in a folder that exists and may be written, with room in it"};
  }
  return quantities::Done{};
}

}  // namespace dryout::window
