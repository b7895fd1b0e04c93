#include "window/sitting.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <filesystem>
#include <system_error>

namespace dryout::window {
namespace {

namespace fs = std::filesystem;

constexpr const char* prefix = "window-";

/// Whether the window that wrote this file is gone. Locks go with the process that held them, so a
/// machine that was switched off leaves none behind.
bool left_behind(const fs::path& path) {
  const int file = ::open(path.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW);
  if (file < 0) {
    return false;
  }
  const bool gone = ::flock(file, LOCK_EX | LOCK_NB) == 0;
  ::close(file);
  return gone;
}

}  // namespace

Sitting::Sitting(const std::string& folder) {
  std::error_code failed;
  if (folder.empty() || !fs::is_directory(folder, failed)) {
    return;
  }
  look_around(folder);
  sit_down(folder);
}

Sitting::~Sitting() {
  if (file_ >= 0) {
    ::unlink(path_.c_str());
    ::close(file_);
  }
}

void Sitting::look_around(const std::string& folder) {
  int gone = 0;
  int others = 0;
  std::error_code failed;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed)) {
    if (entry.path().filename().string().rfind(prefix, 0) != 0 || !entry.is_regular_file(failed)) {
      continue;
    }
    if (left_behind(entry.path())) {
      fs::remove(entry.path(), failed);
      ++gone;
    } else {
      ++others;
    }
  }
  if (gone > 0) {
    word_ =
        "Last time the window ended without being closed. Every step that was entered is kept; "
        "only what stood in a field, typed and not entered, is gone.";
  } else if (others > 0) {
    word_ =
        "Another window is open on the same cases. Each shows what the other noted as soon as you "
        "come back to it.";
  }
}

void Sitting::sit_down(const std::string& folder) {
  path_ = (fs::path(folder) / (prefix + std::to_string(::getpid()))).string();
  constexpr int owner_only = 0600;
  file_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, owner_only);
  if (file_ >= 0) {
    (void)::flock(file_, LOCK_EX | LOCK_NB);
  }
}

}  // namespace dryout::window
