// Opening the store: everything that can be wrong with a file is found here, before the first case
// is touched.
#include <chrono>
#include <filesystem>
#include <thread>

#include "casestore/case_store.h"
#include "casestore/identity.h"
#include "casestore/migrations.h"
#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

constexpr int busy_timeout_ms = 5000;

/// A file too short for a database SQLite would take for a new one, and the cases for never there.
Result<Done> refuse_stump(const std::filesystem::path& file) {
  constexpr std::uintmax_t smallest_page = 512;
  std::error_code error;
  const std::uintmax_t size = std::filesystem::file_size(file, error);
  if (!error && size > 0 && size < smallest_page) {
    return Problem{"the case store is damaged",
                   {file.string(), 0, {}},
                   "cut short to " + std::to_string(size) + " bytes",
                   "`dryout case restore` with a backup, which keeps this file beside it"};
  }
  return Done{};
}

Result<Done> make_if_missing(const std::string& path) {
  std::error_code error;
  const std::filesystem::path file(path);
  if (path.empty() || std::filesystem::is_directory(file, error)) {
    return Problem{"this is no file for a case store",
                   {path, 0, {}},
                   path.empty() ? "no name" : "a folder",
                   "the name of a file"};
  }
  if (std::filesystem::exists(file, error)) {
    return refuse_stump(file);
  }
  if (file.has_parent_path() && !std::filesystem::exists(file.parent_path(), error)) {
    std::filesystem::create_directories(file.parent_path(), error);
    if (error) {
      return Problem{"cannot make the folder of the case store",
                     {path, 0, {}},
                     error.message(),
                     "a folder this user may write"};
    }
    std::filesystem::permissions(file.parent_path(), std::filesystem::perms::owner_all, error);
  }
  auto made = make_private_file(path);
  // Another program may have made it in this very moment; then it is simply there.
  return made || !std::filesystem::exists(file, error) ? made : Done{};
}

}  // namespace

Result<Done> recognise(const Database& database) {
  // Each by itself: where one cannot be read, SQLite's last code must stay that of the reason.
  // The mark last: another program that makes the same store sets all three at once, and what was
  // read before it did so is then that of a fresh file under our mark, not under nobody's.
  const auto version = database.number("PRAGMA user_version");
  if (!version) {
    return version.problems();
  }
  const auto tables = database.number("SELECT count(*) FROM sqlite_schema");
  if (!tables) {
    return tables.problems();
  }
  const auto application = database.number("PRAGMA application_id");
  if (!application) {
    return application.problems();
  }
  const bool fresh = *application == 0 && *version == 0 && *tables == 0;
  if (!fresh && *application != application_id) {
    return database.problem(SQLITE_NOTADB, "find its mark: a database of another program");
  }
  const auto newest = static_cast<std::int64_t>(migrations().size());
  if (*version < 0 || *version > newest) {
    return Problem{"the case store was written by a newer version of this program",
                   {database.path(), 0, {}},
                   "store version " + std::to_string(*version),
                   "up to " + std::to_string(newest) + ": update this program"};
  }
  return Done{};
}

Result<Done> use_write_ahead_log(const Database& database) {
  constexpr int tries = 100;
  constexpr auto pause = std::chrono::milliseconds(20);
  for (int i = 1;; ++i) {
    auto changed = database.run("PRAGMA journal_mode = WAL");
    const bool busy = (sqlite3_errcode(database.handle()) & 0xff) == SQLITE_BUSY;
    if (changed || !busy || i == tries) {
      return changed;
    }
    std::this_thread::sleep_for(pause);
  }
}

Result<Done> offer_functions(const Database& database) {
  auto offered = offer_identities(database);
  return offered ? offer_seals(database) : offered;
}

namespace {

Result<Done> prepare(const Database& database) {
  sqlite3_busy_timeout(database.handle(), busy_timeout_ms);
  // A damaged or hostile file must not run anything through its schema.
  sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  auto set = database.run(
      "PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA cell_size_check = ON");
  if (!set) {
    return set;
  }
  if (auto known = recognise(database); !known) {
    return known;
  }
  if (auto offered = offer_functions(database); !offered) {
    return offered;
  }
  if (auto log = use_write_ahead_log(database); !log) {
    return log;
  }
  return migrate(database);
}

}  // namespace

Result<CaseStore> CaseStore::open(const std::string& path) {
  if (path != in_memory) {
    if (const auto made = make_if_missing(path); !made) {
      return made.problems();
    }
  }
  auto database = Database::open(path);
  if (!database) {
    return database.problems();
  }
  if (const auto prepared = prepare(**database); !prepared) {
    return prepared.problems();
  }
  if (path != in_memory) {
    (*database)->hold_place();
  }
  return CaseStore(std::move(*database));
}

}  // namespace dryout::casestore
