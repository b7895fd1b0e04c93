// A store that this user may read and not write: somebody else's, one on a disk for reading only, a
// copy put away. SQLite can read it where it lies as long as nothing beside it must be read with it
// (its log) or done to it first (a migration); otherwise a copy of it is read.
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/migrations.h"

namespace dryout::casestore {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

using Opened = Result<std::unique_ptr<Database>>;

bool may_write(const std::string& path) { return ::access(path.c_str(), W_OK) == 0; }

std::string folder_of_store(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? "." : folder.string();
}

/// Ready to be asked, and of the version that this program asks.
Result<Done> make_ready(const Database& database) {
  sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  if (auto known = recognise(database); !known) {
    return known;
  }
  const auto version = database.number("PRAGMA user_version");
  if (!version) {
    return version.problems();
  }
  if (*version != static_cast<std::int64_t>(migrations().size())) {
    return Problem{"of an older version", {database.path(), 0, {}}, "", ""};
  }
  return offer_functions(database);
}

Opened where_it_lies(const std::string& path) {
  constexpr int busy_timeout_ms = 5000;
  std::error_code error;
  const bool logged = fs::exists(path + "-wal", error) && fs::file_size(path + "-wal", error) > 0;
  for (const bool shared : {true, false}) {
    if (!shared && logged) {
      break;  // the newest steps stand in the log
    }
    auto database = shared ? Database::open_read_only(path) : Database::open_unchanging(path);
    if (database) {
      sqlite3_busy_timeout((*database)->handle(), busy_timeout_ms);
      if (make_ready(**database)) {
        (*database)->read_only(path, "");
        return database;
      }
    }
  }
  return Problem{"cannot be read where it lies", {path, 0, {}}, "", ""};
}

Problem cannot_copy(const std::string& path, const std::string& found) {
  return {"the case store can only be read from a copy, and that cannot be made",
          {path, 0, {}},
          found,
          "room for a copy of it in the folder for temporary files"};
}

}  // namespace

bool CaseStore::is_for_reading_only(const std::string& path) {
  const bool readable = path != in_memory && ::access(path.c_str(), R_OK) == 0;
  return readable && (!may_write(path) || !may_write(folder_of_store(path)));
}

bool CaseStore::reads_only() const { return database_->reads_only(); }

Result<CaseStore> CaseStore::open_to_read(const std::string& path) {
  if (auto database = where_it_lies(path)) {
    return CaseStore(std::move(*database));
  }
  std::error_code error;
  std::string folder = (fs::temp_directory_path(error) / "dryout-reads-XXXXXX").string();
  if (error || ::mkdtemp(folder.data()) == nullptr) {
    return cannot_copy(path, error ? error.message() : std::strerror(errno));
  }
  const std::string copy = folder + "/cases.db";
  fs::copy_file(path, copy, error);
  if (!error && fs::exists(path + "-wal", error)) {
    fs::copy_file(path + "-wal", copy + "-wal", error);
    ::chmod((copy + "-wal").c_str(), S_IRUSR | S_IWUSR);
  }
  ::chmod(copy.c_str(), S_IRUSR | S_IWUSR);
  auto store = error ? Result<CaseStore>(cannot_copy(path, error.message())) : open(copy);
  if (!store) {
    quantities::Problems problems = store.problems();
    for (Problem& problem : problems) {
      problem.place.file = path;
    }
    fs::remove_all(folder, error);
    return problems;
  }
  store->database_->read_only(path, folder);
  return store;
}

}  // namespace dryout::casestore
