#include "documents/write_whole.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "documents/scratch_file.h"

namespace dryout::documents {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// A device or a pipe: what takes bytes and is not to be replaced by a file.
bool takes_bytes_only(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && !S_ISREG(status.st_mode) && !S_ISDIR(status.st_mode);
}

Result<Done> pour_into(const std::string& path, std::string_view bytes) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
  int error = file < 0 ? errno : 0;
  while (error == 0 && !bytes.empty()) {
    const ssize_t written = ::write(file, bytes.data(), bytes.size());
    if (written > 0) {
      bytes.remove_prefix(static_cast<std::size_t>(written));
    } else if (errno != EINTR) {
      error = written == 0 ? ENOSPC : errno;
    }
  }
  if (file >= 0 && ::close(file) != 0 && error == 0) {
    error = errno;
  }
  if (error != 0) {
    return Problem{"cannot be written", {path, 0, {}}, std::strerror(error), "a writable place"};
  }
  return Done{};
}

}  // namespace

Result<Done> write_whole(const std::string& path, const std::string& text) {
  if (takes_bytes_only(path)) {
    return pour_into(path, text);
  }
  auto scratch = ScratchFile::beside(path);
  if (!scratch) {
    return scratch.problems();
  }
  auto written = scratch->write(text);
  return written ? scratch->replace_target() : written;
}

Result<bool> write_new(const std::string& path, const std::string& text) {
  auto scratch = ScratchFile::beside(path);
  if (!scratch) {
    return scratch.problems();
  }
  const auto written = scratch->write(text);
  return written ? scratch->claim(path) : written.problems();
}

}  // namespace dryout::documents
