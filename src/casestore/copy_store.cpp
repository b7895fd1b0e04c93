// The copy is written under another name and takes its own name only when it is whole, so that a
// backup that exists is a backup that works.
#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "casestore/migrations.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

class Copier {
 public:
  Copier(const Database& from, const Database& to)
      : handle_(sqlite3_backup_init(to.handle(), "main", from.handle(), "main")) {}
  [[nodiscard]] int copy_all() const {
    return handle_ == nullptr ? SQLITE_ERROR : sqlite3_backup_step(handle_.get(), -1);
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

}  // namespace

Result<Done> copy_content(const Database& from, const Database& to) {
  const int code = Copier(from, to).copy_all();
  return code == SQLITE_DONE ? Result<Done>(Done{}) : to.problem(code, "copy the case store");
}

std::string free_name(const std::string& stem) {
  std::string name = stem;
  std::error_code error;
  for (int i = 2; std::filesystem::exists(name, error); ++i) {
    name = stem + '-' + std::to_string(i);
  }
  return name;
}

Result<Done> make_private_file(const std::string& path) {
  const int file = ::open(path.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, S_IRUSR | S_IWUSR);
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
  if (std::filesystem::exists(destination, error)) {
    return Problem{"a backup never overwrites a file",
                   {destination, 0, {}},
                   "a file of that name",
                   "a name not yet in use"};
  }
  const std::string unfinished = destination + ".unfinished";
  std::filesystem::remove(unfinished, error);
  if (auto made = make_private_file(unfinished); !made) {
    return made;
  }
  auto filled = fill(database, unfinished);
  if (!filled) {
    std::filesystem::remove(unfinished, error);
    return filled;
  }
  std::filesystem::rename(unfinished, destination, error);
  if (error) {
    return Problem{"the backup cannot be named", {destination, 0, {}}, error.message(), ""};
  }
  return Done{};
}

}  // namespace dryout::casestore
