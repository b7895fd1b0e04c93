// Putting a backup in the place of a store. The backup is read from a copy of its bytes, so that it
// stays as it is; the store takes its content in one step, so that there is either the old one or
// the whole new one, whoever else has it open.
#include <filesystem>
#include <fstream>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/migrations.h"

namespace dryout::casestore {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// A file that goes with its owner.
class Scratch {
 public:
  explicit Scratch(std::string path) : path_(std::move(path)) {}
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code error;
    for (const char* suffix : {"", "-wal", "-shm", "-journal"}) {
      fs::remove(path_ + suffix, error);
    }
  }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

Problem with_file(Problem problem, const std::string& file) {
  problem.place.file = file;
  return problem;
}

Result<Done> copy_bytes(const std::string& from, const std::string& to) {
  std::error_code error;
  if (!fs::is_regular_file(from, error)) {
    return Problem{"there is no backup of that name", {from, 0, {}}, "", "the path of a backup"};
  }
  if (fs::exists(from + "-wal", error) && fs::file_size(from + "-wal", error) > 0) {
    return Problem{"this store is in use; it is no backup",
                   {from, 0, {}},
                   "changes that stand beside it, in " + from + "-wal",
                   "a file made by `dryout case backup`"};
  }
  if (auto made = make_private_file(to); !made) {
    return made;
  }
  std::ifstream source(from, std::ios::binary);
  std::ofstream target(to, std::ios::binary | std::ios::trunc);
  if (fs::file_size(from, error) > 0) {  // of nothing to copy a stream makes a failure
    target << source.rdbuf();
  }
  target.flush();
  if (!source) {
    return Problem{"the backup cannot be read", {from, 0, {}}, "", "a file this user may read"};
  }
  if (!target) {
    return Problem{"the backup cannot be laid beside the store",
                   {to, 0, {}},
                   "a disk that is full, most likely",
                   "room for one more copy of it"};
  }
  return Done{};
}

Problem damaged(const std::string& backup, const std::string& found) {
  return {"the backup is damaged, perhaps cut short",
          {backup, 0, {}},
          found,
          "another backup; nothing was changed"};
}

/// Refuses a copy that is damaged, of a newer version, or no store; in the name of the original.
Result<std::unique_ptr<Database>> open_sound(const std::string& copy, const std::string& original) {
  auto database = Database::open(copy);
  if (!database) {
    return with_file(database.problems().front(), original);
  }
  if (const auto known = recognise(**database); !known) {
    const bool torn = (sqlite3_errcode((*database)->handle()) & 0xff) == SQLITE_CORRUPT;
    return torn ? damaged(original, known.problems().front().found)
                : with_file(known.problems().front(), original);
  }
  const auto version = (*database)->number("PRAGMA user_version");
  if (!version || *version == 0) {
    return Problem{"there is nothing in this backup",
                   {original, 0, {}},
                   "an empty file",
                   "a file made by `dryout case backup`"};
  }
  auto check = Statement::prepare(**database, "PRAGMA integrity_check(1)");
  const auto row = check ? check->step() : Result<bool>(check.problems());
  if (!row || !*row || check->text(0) != "ok") {
    return damaged(original, row ? check->text(0) : row.problems().front().found);
  }
  return database;
}

/// Keeps what is at `path`; where, or "" where nothing is.
Result<std::string> keep(const std::string& path, bool& readable) {
  std::error_code error;
  readable = false;
  if (!fs::exists(path, error)) {
    return std::string();
  }
  std::string kept = free_name(path + ".before-restore");
  const auto database = Database::open(path);
  const auto known = database ? recognise(**database) : Result<Done>(database.problems());
  if (known) {
    const auto copied = copy_store(**database, kept);
    readable = copied.ok();
    if (readable) {
      return kept;
    }
    if (sqlite3_errcode((*database)->handle()) != SQLITE_CORRUPT) {
      return copied.problems();
    }
  }
  // No store that could be copied: it is put aside as it stands, with what belongs to it.
  for (const char* suffix : {"", "-wal", "-shm"}) {
    if (fs::exists(path + suffix, error)) {
      fs::rename(path + suffix, kept + suffix, error);
    }
    if (error) {
      return Problem{"what is in the place of the store cannot be put aside",
                     {path, 0, {}},
                     error.message(),
                     "a folder this user may write"};
    }
  }
  return kept;
}

}  // namespace

Result<std::string> CaseStore::restore(const std::string& backup, const std::string& path) {
  constexpr int busy_timeout_ms = 5000;
  std::error_code error;
  const Scratch scratch(free_name(path + ".incoming"));
  if (const auto copied = copy_bytes(backup, scratch.path()); !copied) {
    return copied.problems();
  }
  const auto incoming = open_sound(scratch.path(), backup);
  if (!incoming) {
    return incoming.problems();
  }
  bool readable = false;
  auto kept = keep(path, readable);
  if (!kept) {
    return kept;
  }
  if (!readable) {
    if (const auto made = make_private_file(path); !made) {
      return made.problems();
    }
  }
  const auto store = Database::open(path);
  if (!store) {
    return store.problems();
  }
  sqlite3_busy_timeout((*store)->handle(), busy_timeout_ms);
  const auto filled = copy_content(**incoming, **store);
  return filled ? kept : filled.problems();
}

}  // namespace dryout::casestore
