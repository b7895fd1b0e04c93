// The copy is written under another name and takes its own name only when it is whole and on the
// disk, so that a backup that exists is a backup that works. Whoever asks for a name second is
// told.
#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "casestore/migrations.h"
#include "documents/scratch_file.h"

namespace dryout::casestore {
namespace {

using documents::ScratchFile;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

class Copier {
 public:
  Copier(const Database& from, const Database& to)
      : handle_(sqlite3_backup_init(to.handle(), "main", from.handle(), "main")) {}
  /// From the first page on nobody else can write where it is copied to. Minus one: all the rest.
  [[nodiscard]] int copy(int pages) const {
    return handle_ == nullptr ? SQLITE_ERROR : sqlite3_backup_step(handle_.get(), pages);
  }

 private:
  struct Finish {
    void operator()(sqlite3_backup* handle) const { sqlite3_backup_finish(handle); }
  };
  std::unique_ptr<sqlite3_backup, Finish> handle_;
};

Result<Done> fill(const Database& database, const std::string& path) {
  auto copy = Database::open(path);
  if (!copy) {
    return copy.problems();
  }
  if (auto copied = copy_content(database, **copy); !copied) {
    return copied;
  }
  // The copy of a store in write-ahead mode is in that mode too; a single file is easier to keep.
  return (*copy)->run("PRAGMA journal_mode = DELETE");
}

Problem taken(const std::string& destination) {
  return {"a backup never overwrites a file",
          {destination, 0, {}},
          "a file of that name",
          "a name not yet in use"};
}

/// In the name of what it is to become: nobody knows the name it has meanwhile.
quantities::Problems in_the_name_of(const std::string& destination, quantities::Problems problems) {
  for (Problem& problem : problems) {
    problem.place.file = destination;
  }
  return problems;
}

Result<ScratchFile> filled_copy(const Database& database, const std::string& destination) {
  auto scratch = ScratchFile::beside(destination);
  if (!scratch) {
    return scratch;
  }
  const auto filled = fill(database, scratch->path());
  return filled ? std::move(scratch)
                : Result<ScratchFile>(in_the_name_of(destination, filled.problems()));
}

}  // namespace

Result<Done> copy_content(const Database& from, const Database& to, const Meanwhile& meanwhile) {
  const Copier copier(from, to);
  int code = meanwhile ? copier.copy(1) : SQLITE_OK;
  if (code == SQLITE_OK && meanwhile) {
    if (auto done = meanwhile(); !done) {
      return done;
    }
  }
  code = code == SQLITE_OK ? copier.copy(-1) : code;
  return code == SQLITE_DONE ? Result<Done>(Done{}) : to.problem(code, "copy the case store");
}

std::string free_name(const std::string& stem) {
  std::string name = stem;
  std::error_code error;
  for (int i = 2; std::filesystem::exists(std::filesystem::symlink_status(name, error)); ++i) {
    name = stem + '-' + std::to_string(i);
  }
  return name;
}

Result<Done> make_private_file(const std::string& path) {
  const int file =
      ::open(path.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_NOFOLLOW | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) {
    return Problem{"cannot make the file",
                   {path, 0, {}},
                   std::strerror(errno),
                   "a new name in a folder this user may write"};
  }
  ::close(file);
  return Done{};
}

Result<Done> copy_store(const Database& database, const std::string& destination) {
  std::error_code error;
  if (std::filesystem::exists(std::filesystem::symlink_status(destination, error))) {
    return taken(destination);  // before the work, where that is known
  }
  auto copy = filled_copy(database, destination);
  if (!copy) {
    return copy.problems();
  }
  const auto claimed = copy->claim(destination);
  if (!claimed) {
    return claimed.problems();
  }
  return *claimed ? Result<Done>(Done{}) : taken(destination);
}

Result<std::string> copy_to_free_name(const Database& database, const std::string& stem) {
  auto copy = filled_copy(database, stem);
  if (!copy) {
    return copy.problems();
  }
  for (;;) {
    std::string name = free_name(stem);
    const auto claimed = copy->claim(name);
    if (!claimed) {
      return claimed.problems();
    }
    if (*claimed) {
      return name;
    }
  }
}

}  // namespace dryout::casestore
