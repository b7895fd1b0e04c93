#include "casestore/footing.h"

#include <sys/stat.h>

#include <optional>

namespace dryout::casestore {
namespace {

std::optional<std::pair<dev_t, ino_t>> mark_of(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) {
    return {};
  }
  return std::pair{status.st_dev, status.st_ino};
}

}  // namespace

FilesInPlace FilesInPlace::of(const std::string& path) {
  FilesInPlace files;
  for (const char* suffix : {"", "-wal", "-shm"}) {
    if (const auto mark = mark_of(path + suffix)) {
      files.marks_.emplace_back(path + suffix, *mark);
    }
  }
  return files;
}

Footing FilesInPlace::footing() const {
  Footing footing = Footing::stands;
  for (const auto& [path, mark] : marks_) {
    const auto now = mark_of(path);
    if (!now && path == marks_.front().first) {
      return Footing::gone;
    }
    if (now != mark) {
      footing = Footing::replaced;
    }
  }
  return footing;
}

}  // namespace dryout::casestore
