#include "window/sitting.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string_view>
#include <system_error>
#include <utility>

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

/// All of a small file; "" where it can't be read.
std::string text_of(const fs::path& path) {
  constexpr std::size_t most = 4U << 20U;
  std::ifstream file(path, std::ios::binary);
  std::string text(most, '\0');
  file.read(text.data(), static_cast<std::streamsize>(most));
  text.resize(static_cast<std::size_t>(file.gcount()));
  return text;
}

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written <= 0) {
      return false;
    }
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

Sitting::Sitting(const std::string& folder, const std::string& store) {
  kept_.store = left_.store = store;
  std::error_code failed;
  if (folder.empty() || !fs::is_directory(folder, failed)) {
    return;
  }
  look_around(folder);
  sit_down(folder);
}

Sitting::~Sitting() {
  if (file_ < 0) {
    return;
  }
  kept_.closed = true;
  if (kept_.of_case.empty() || !write(kept_)) {
    ::unlink(path_.c_str());
  }
  ::close(file_);
}

bool Sitting::take_over(const std::string& path, bool& closed) {
  const std::string text = text_of(path);
  if (text.empty()) {
    return true;  // nothing was typed
  }
  const auto drafts = casework::drafts_of(text);
  if (!drafts || drafts->store != left_.store) {
    return false;  // of a newer version, or of another store: not ours to throw away
  }
  closed = drafts->closed;
  for (const auto& [number, typed] : drafts->of_case) {
    for (const auto& [field, words] : typed) {
      std::string& kept = left_.of_case[number][field];
      const bool both = !kept.empty() && kept != words;
      if (both) {
        kept.append(" / ").append(words);
      } else {
        kept = words;
      }
    }
  }
  return true;
}

void Sitting::look_around(const std::string& folder) {
  int gone = 0;
  int others = 0;
  std::error_code failed;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed)) {
    if (entry.path().filename().string().rfind(prefix, 0) != 0 || !entry.is_regular_file(failed)) {
      continue;
    }
    if (!left_behind(entry.path())) {
      ++others;
      continue;
    }
    bool closed = false;
    if (take_over(entry.path().string(), closed)) {
      taken_over_.push_back(entry.path().string());
      gone += closed ? 0 : 1;
    }
  }
  if (gone > 0) {
    word_ =
        "Last time the window ended without being closed. Every step that was entered is kept, "
        "and what was typed and not entered stands in its field again.";
  } else if (others > 0) {
    word_ =
        "Another window is open on the same cases. Each shows what the other noted as soon as it "
        "is written.";
  }
}

void Sitting::sit_down(const std::string& folder) {
  path_ = (fs::path(folder) / (prefix + std::to_string(::getpid()))).string();
  constexpr int owner_only = 0600;
  file_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, owner_only);
  if (file_ >= 0) {
    (void)::flock(file_, LOCK_EX | LOCK_NB);
  }
  keep(left_.of_case);
  if (file_ >= 0 && kept_.of_case == left_.of_case) {  // only then may theirs go
    for (const std::string& path : taken_over_) {
      ::unlink(path.c_str());
    }
  }
}

void Sitting::keep(const std::map<std::int64_t, casework::TypedText>& typed) {
  if (file_ < 0 || typed == kept_.of_case) {
    return;
  }
  casework::Drafts drafts = kept_;
  drafts.of_case = typed;
  if (write(drafts)) {
    kept_ = std::move(drafts);
  }
}

/// Written beside, locked, and moved into place: whoever looks never meets half of it, nor one that
/// nobody holds.
bool Sitting::write(const casework::Drafts& drafts) {
  std::string beside = path_ + "-XXXXXX";
  const int file = ::mkostemp(beside.data(), O_CLOEXEC);
  if (file < 0) {
    return false;
  }
  (void)::flock(file, LOCK_EX | LOCK_NB);
  if (!write_all(file, casework::drafts_text(drafts)) ||
      ::rename(beside.c_str(), path_.c_str()) != 0) {
    ::unlink(beside.c_str());
    ::close(file);
    return false;
  }
  ::close(std::exchange(file_, file));
  return true;
}

}  // namespace dryout::window
