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

/// With what SQLite may have laid beside it.
void remove_store(const std::string& path) {
  std::error_code error;
  for (const char* suffix : {"", "-wal", "-shm", "-journal"}) {
    fs::remove(path + suffix, error);
  }
}

/// A file that goes with its owner.
class Scratch {
 public:
  explicit Scratch(std::string path) : path_(std::move(path)) {}
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() { remove_store(path_); }
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

bool is_damage(int code) {
  return (code & 0xff) == SQLITE_CORRUPT || (code & 0xff) == SQLITE_NOTADB;
}

/// What is wrong with the pages, "" = nothing; a problem where they could not be looked at.
Result<std::string> damage_in(const Database& database) {
  auto check = Statement::prepare(database, "PRAGMA integrity_check(1)");
  const auto row = check ? check->step() : Result<bool>(check.problems());
  if (!row) {
    return is_damage(sqlite3_errcode(database.handle())) ? Result(row.problems().front().found)
                                                         : row.problems();
  }
  const std::string said = *row ? check->text(0) : "no answer";
  return said == "ok" ? std::string() : said;
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
  const auto damage = damage_in(**database);
  if (!damage) {
    return with_file(damage.problems().front(), original);
  }
  if (!damage->empty()) {
    return damaged(original, *damage);
  }
  return database;
}

/// Whether it is the file that is bad. Where the disk or somebody else is in the way, a store may
/// be sound and must stay where it is.
bool is_ruin(const Database& database, const Result<Done>& known) {
  if (!known) {
    const int code = sqlite3_errcode(database.handle());
    return code == SQLITE_OK || code == SQLITE_DONE || is_damage(code);
  }
  const auto damage = damage_in(database);
  return damage && !damage->empty();
}

Result<Done> move_store(const std::string& from, const std::string& to) {
  std::error_code error;
  for (const char* suffix : {"", "-wal", "-shm"}) {
    if (fs::exists(from + suffix, error)) {
      fs::rename(from + suffix, to + suffix, error);
    }
    if (error) {
      return Problem{"what is in the place of the store cannot be put aside",
                     {from, 0, {}},
                     error.message(),
                     "a folder this user may write"};
    }
  }
  return Done{};
}

/// What stood in the place of the store.
struct Kept {
  std::string name;        ///< of the copy; "" = nothing was there
  bool put_aside = false;  ///< moved there, not copied
};

Result<Kept> keep(const std::string& path) {
  std::error_code error;
  if (!fs::exists(path, error)) {
    return Kept{};
  }
  std::string name = free_name(path + ".before-restore");
  const auto database = Database::open(path);
  if (!database) {
    return database.problems();
  }
  const auto known = recognise(**database);
  const auto copied = known ? copy_store(**database, name) : known;
  if (copied) {
    return Kept{name, false};
  }
  if (!is_ruin(**database, known)) {
    return copied.problems();
  }
  const auto moved = move_store(path, name);
  return moved ? Result<Kept>(Kept{name, true}) : moved.problems();
}

Result<Done> put_in_place(const Database& incoming, const std::string& path) {
  constexpr int busy_timeout_ms = 5000;
  std::error_code error;
  if (!fs::exists(path, error)) {
    if (auto made = make_private_file(path); !made) {
      return made;
    }
  }
  const auto store = Database::open(path);
  if (!store) {
    return store.problems();
  }
  sqlite3_busy_timeout((*store)->handle(), busy_timeout_ms);
  return copy_content(incoming, **store);
}

}  // namespace

Result<std::string> CaseStore::restore(const std::string& backup, const std::string& path) {
  const Scratch scratch(free_name(path + ".incoming"));
  if (const auto copied = copy_bytes(backup, scratch.path()); !copied) {
    return copied.problems();
  }
  const auto incoming = open_sound(scratch.path(), backup);
  if (!incoming) {
    return incoming.problems();
  }
  const auto kept = keep(path);
  if (!kept) {
    return kept.problems();
  }
  const auto placed = put_in_place(**incoming, path);
  if (placed) {
    return kept->name;
  }
  if (kept->put_aside) {
    remove_store(path);
    (void)move_store(kept->name, path);  // what went wrong first is what is told
  }
  return placed.problems();
}

}  // namespace dryout::casestore
