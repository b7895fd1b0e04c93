#include "documents/scratch_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <optional>
#include <utility>

namespace dryout::documents {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

constexpr std::string_view ending = ".unfinished";
constexpr std::size_t random_bytes = 12;
/// What SQLite may lay beside a file.
constexpr std::array companions{"-journal", "-wal", "-shm"};

std::optional<std::string> unguessable() {
  std::array<unsigned char, random_bytes> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) {
    return {};
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const unsigned char byte : bytes) {
    text += digits[byte >> 4U];
    text += digits[byte & 0xfU];
  }
  return text;
}

std::string folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? "." : folder.string();
}

bool is_scratch_name(const std::string& name) {
  constexpr std::size_t own = 1 + 2 * random_bytes + ending.size();  // of the dot before the digits
  if (name.size() <= own || name.front() != '.' || !name.ends_with(ending)) {
    return false;
  }
  const std::string digits =
      name.substr(name.size() - ending.size() - 2 * random_bytes, 2 * random_bytes);
  return digits.find_first_not_of("0123456789abcdef") == std::string::npos;
}

/// Ours, and still in the folder: somebody who sweeps may have been quicker.
bool hold(int file) {
  struct stat status {};
  return flock(file, LOCK_EX | LOCK_NB) == 0 && fstat(file, &status) == 0 && status.st_nlink > 0;
}

void remove_companions(const std::string& path) {
  for (const char* companion : companions) {
    ::unlink((path + companion).c_str());
  }
}

void remove_with_companions(const std::string& path) {
  ::unlink(path.c_str());
  remove_companions(path);
}

/// Renames where the new name is free; false where it is not.
Result<bool> rename_to_free(const std::string& from, const std::string& to) {
  if (renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) {
    return true;
  }
  if (errno == EINVAL || errno == ENOSYS) {  // a file system that cannot do it in one step
    if (::link(from.c_str(), to.c_str()) == 0) {
      ::unlink(from.c_str());
      return true;
    }
  }
  if (errno == EEXIST) {
    return false;
  }
  return Problem{"cannot be written",
                 {to, 0, {}},
                 std::strerror(errno),
                 "a folder this user may write, with room in it"};
}

}  // namespace

ScratchFile::ScratchFile(std::string target, std::string path, int file)
    : target_(std::move(target)), path_(std::move(path)), file_(file) {}

ScratchFile::ScratchFile(ScratchFile&& other) noexcept
    : target_(std::move(other.target_)),
      path_(std::exchange(other.path_, {})),
      file_(std::exchange(other.file_, -1)) {}

ScratchFile::~ScratchFile() {
  if (!path_.empty()) {
    remove_with_companions(path_);
  }
  let_go();
}

void ScratchFile::let_go() {
  path_.clear();
  if (file_ >= 0) {
    ::close(std::exchange(file_, -1));
  }
}

Result<ScratchFile> ScratchFile::beside(const std::string& target) {
  constexpr int tries = 10;
  constexpr std::size_t stem_max = 150;  // names end at 255 bytes
  const std::string stem = fs::path(target).filename().string().substr(0, stem_max);
  for (int i = 0; i < tries; ++i) {
    const auto digits = unguessable();
    if (!digits) {
      break;
    }
    const std::string path =
        (fs::path(folder_of(target)) / ('.' + stem + '.' + *digits + std::string(ending))).string();
    const int file =
        ::open(path.c_str(), O_CREAT | O_EXCL | O_RDWR | O_NOFOLLOW | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (file < 0 && errno != EEXIST) {
      break;
    }
    if (file >= 0) {
      ScratchFile made(target, path, file);
      if (hold(file)) {
        return made;
      }
    }
  }
  return Problem{"cannot be written",
                 {target, 0, {}},
                 std::strerror(errno),
                 "a folder this user may write, with room in it"};
}

Problem ScratchFile::problem(int error) const {
  return {"cannot be written",
          {target_, 0, {}},
          std::strerror(error),
          "a folder this user may write, with room in it"};
}

Result<Done> ScratchFile::write(std::string_view bytes) const {
  while (!bytes.empty()) {
    const ssize_t written = ::write(file_, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) {
      continue;
    }
    if (written <= 0) {
      return problem(written == 0 ? ENOSPC : errno);
    }
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return Done{};
}

Result<Done> ScratchFile::reach_the_disk() const {
  return ::fsync(file_) == 0 || errno == EINVAL ? Result<Done>(Done{}) : problem(errno);
}

Result<Done> ScratchFile::replace_target() {
  if (auto reached = reach_the_disk(); !reached) {
    return reached;
  }
  if (std::rename(path_.c_str(), target_.c_str()) != 0) {
    return problem(errno);
  }
  remove_companions(path_);
  let_go();
  return Done{};
}

Result<bool> ScratchFile::claim(const std::string& name) {
  if (const auto reached = reach_the_disk(); !reached) {
    return reached.problems();
  }
  auto claimed = rename_to_free(path_, name);
  if (claimed && *claimed) {
    remove_companions(path_);
    let_go();
  }
  return claimed;
}

int sweep_scratch_files(const std::string& folder) {
  int swept = 0;
  std::error_code error;
  for (fs::directory_iterator at(folder.empty() ? "." : folder, error), end; !error && at != end;
       at.increment(error)) {
    const std::string path = at->path().string();
    if (!is_scratch_name(at->path().filename().string())) {
      continue;
    }
    const int file = ::open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
      continue;
    }
    struct stat status {};
    const bool ours = fstat(file, &status) == 0 && S_ISREG(status.st_mode) &&
                      status.st_uid == geteuid() && flock(file, LOCK_EX | LOCK_NB) == 0;
    if (ours) {
      remove_with_companions(path);
      ++swept;
    }
    ::close(file);
  }
  return swept;
}

}  // namespace dryout::documents
