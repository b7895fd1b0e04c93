#include "casestore/database.h"

#include <cctype>
#include <filesystem>

#include "casestore/case_store.h"
#include "quantities/check.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

struct Wording {
  std::string_view message, accepted;
};

/// What a person can do about it, by SQLite's primary result code.
Wording wording_of(int primary) {
  switch (primary) {
    case SQLITE_FULL:
      return {"the disk is full; nothing was written", "free some space and try again"};
    case SQLITE_READONLY:
      return {"the case store cannot be written to", "a file and folder this user may write"};
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return {"the case store cannot be opened", "a file and folder this user may read and write"};
    case SQLITE_NOTADB:
      return {"this is no case store", "a store or a backup made by this program"};
    case SQLITE_CORRUPT:
      return {"the case store is damaged",
              "`dryout case restore` with a backup, which keeps this file beside it"};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {store_in_use, "try again when it has finished"};
    case SQLITE_CONSTRAINT:
      return {"the case store does not hang together", "`dryout case check` says what is wrong"};
    case SQLITE_IOERR:
      return {"the disk refused to read or write", "check the drive; nothing acknowledged is lost"};
    default:
      return {"the case store refused the request", "try again; if it stays, check its integrity"};
  }
}

}  // namespace

Result<std::unique_ptr<Database>> Database::open(const std::string& path) {
  // To SQLite "file:..." is no file name; here a path is a path.
  const bool plain = path.starts_with('/') || path == in_memory;
  const std::string name = plain ? path : "./" + path;
  sqlite3* raw = nullptr;
  const int code =
      sqlite3_open_v2(name.c_str(), &raw, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE, nullptr);
  Handle handle(raw);
  if (handle == nullptr) {
    return Problem{"not enough memory to open the case store", {path, 0, {}}, "", ""};
  }
  auto database = std::make_unique<Database>(std::move(handle), path);
  if (code != SQLITE_OK) {
    return database->problem(code, "open it");
  }
  if (sqlite3_db_readonly(database->handle(), "main") == 1) {
    return database->problem(SQLITE_READONLY, "open it for writing");
  }
  return database;
}

namespace {

Result<std::unique_ptr<Database>> open_for_reading(const std::string& path, const std::string& name,
                                                   int flags) {
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(name.c_str(), &raw,
                                   SQLITE_OPEN_READONLY | SQLITE_OPEN_EXRESCODE | flags, nullptr);
  Database::Handle handle(raw);
  if (handle == nullptr) {
    return Problem{"not enough memory to open the case store", {path, 0, {}}, "", ""};
  }
  auto database = std::make_unique<Database>(std::move(handle), path);
  return code == SQLITE_OK ? Result<std::unique_ptr<Database>>(std::move(database))
                           : database->problem(code, "open it");
}

}  // namespace

Result<std::unique_ptr<Database>> Database::open_unchanging(const std::string& path) {
  std::string name = "file:";
  for (const char c : std::filesystem::absolute(path).string()) {
    const bool plain = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '/' || c == '-' ||
                       c == '_' || c == '.';
    if (plain) {
      name += c;
    } else {
      constexpr std::string_view digits = "0123456789ABCDEF";
      const auto byte = static_cast<unsigned char>(c);
      name += {'%', digits[byte >> 4U], digits[byte & 0xfU]};
    }
  }
  return open_for_reading(path, name + "?immutable=1", SQLITE_OPEN_URI);
}

Result<std::unique_ptr<Database>> Database::open_read_only(const std::string& path) {
  return open_for_reading(path, path.starts_with('/') ? path : "./" + path, 0);
}

void Database::read_only(const std::string& named, const std::string& folder) {
  path_ = named;
  folder_ = folder;
  reads_only_ = true;
}

Database::~Database() {
  if (!folder_.empty()) {
    handle_.reset();
    std::error_code error;
    std::filesystem::remove_all(folder_, error);
    return;
  }
  int moved = 0;
  if (handle_ != nullptr && footing() != Footing::stands &&
      sqlite3_file_control(handle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK &&
      moved != 0) {
    // Else the last to close tidies the log away by its name, which is another store's by now.
    // Where the log alone is gone, what stood in it is brought into the store's file by closing.
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  }
}

Problem Database::lost_footing(bool written) const {
  const bool gone = footing() == Footing::gone;
  return {gone ? "the case store is no longer where it was opened" : "the case store was replaced",
          {path_, 0, {}},
          gone ? "moved or deleted by somebody since" : "another file in its place since",
          written ? "look whether the step is in the store that is there now, and else do it again"
                  : "nothing was written; put it back, or `dryout case restore` with a backup"};
}

Problem Database::problem(int code, std::string_view doing) const {
  const Wording wording = wording_of(code & 0xff);
  // The message of the last call is fuller than that of the code, where it is about this code.
  const bool latest = sqlite3_extended_errcode(handle()) == code;
  const char* detail = latest ? sqlite3_errmsg(handle()) : sqlite3_errstr(code);
  const std::string found = "could not " + std::string(doing) + ": " + detail;
  return {std::string(wording.message), {path_, 0, {}}, found, std::string(wording.accepted)};
}

Result<Done> Database::run(const std::string& sql) const {
  const int code = sqlite3_exec(handle(), sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) {
    return problem(code, sql.substr(0, sql.find_first_of("(;\n")));
  }
  return Done{};
}

Result<std::int64_t> Database::number(std::string_view sql) const {
  auto statement = Statement::prepare(*this, sql);
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->step();
  if (!row) {
    return row.problems();
  }
  return *row ? statement->integer(0) : 0;
}

Result<Statement> Statement::prepare(const Database& database, std::string_view sql) {
  sqlite3_stmt* raw = nullptr;
  const int code = sqlite3_prepare_v2(database.handle(), sql.data(), static_cast<int>(sql.size()),
                                      &raw, nullptr);
  Handle handle(raw);
  if (code != SQLITE_OK) {
    return database.problem(code, "read its tables");
  }
  return Statement(database, std::move(handle));
}

Statement& Statement::bind(std::int64_t value) {
  const int code = sqlite3_bind_int64(handle_.get(), ++bound_, value);
  bind_code_ = bind_code_ == SQLITE_OK ? code : bind_code_;
  return *this;
}

Statement& Statement::bind(std::string_view value) {
  const char* data = value.data() == nullptr ? "" : value.data();
  const int code = sqlite3_bind_text64(handle_.get(), ++bound_, data, value.size(),
                                       SQLITE_TRANSIENT, SQLITE_UTF8);  // NOLINT: SQLite's cast
  bind_code_ = bind_code_ == SQLITE_OK ? code : bind_code_;
  return *this;
}

Statement& Statement::bind(std::optional<int> value) {
  if (value) {
    return bind(*value);
  }
  const int code = sqlite3_bind_null(handle_.get(), ++bound_);
  bind_code_ = bind_code_ == SQLITE_OK ? code : bind_code_;
  return *this;
}

Statement& Statement::bind(double value) {
  const int code = sqlite3_bind_double(handle_.get(), ++bound_, value);
  bind_code_ = bind_code_ == SQLITE_OK ? code : bind_code_;
  return *this;
}

Statement& Statement::bind(std::optional<double> value) {
  return value ? bind(*value) : bind(std::optional<int>());
}

Statement& Statement::bind(const Digest& digest) {
  const int code =
      sqlite3_bind_blob(handle_.get(), ++bound_, digest.data(), static_cast<int>(digest.size()),
                        SQLITE_TRANSIENT);  // NOLINT: SQLite's cast
  bind_code_ = bind_code_ == SQLITE_OK ? code : bind_code_;
  return *this;
}

Statement& Statement::again() {
  sqlite3_reset(handle_.get());  // tells of the last run once more, which was heard already
  bound_ = 0;
  return *this;
}

Result<bool> Statement::step() {
  if (bind_code_ != SQLITE_OK) {
    return database_->problem(bind_code_, "pass a value");
  }
  const int code = sqlite3_step(handle_.get());
  if (code == SQLITE_ROW || code == SQLITE_DONE) {
    return code == SQLITE_ROW;
  }
  return database_->problem(code, "run a statement");
}

Result<Done> Statement::finish() {
  const auto row = step();
  if (!row) {
    return row.problems();
  }
  CHECK(!*row);
  return Done{};
}

std::int64_t Statement::integer(int column) const {
  return sqlite3_column_int64(handle_.get(), column);
}

std::string Statement::text(int column) const {
  const unsigned char* data = sqlite3_column_text(handle_.get(), column);
  const int size = sqlite3_column_bytes(handle_.get(), column);
  return data == nullptr ? std::string() : std::string(data, data + size);
}

std::optional<int> Statement::optional_integer(int column) const {
  if (sqlite3_column_type(handle_.get(), column) == SQLITE_NULL) {
    return {};
  }
  return sqlite3_column_int(handle_.get(), column);
}

double Statement::real(int column) const { return sqlite3_column_double(handle_.get(), column); }

std::optional<double> Statement::optional_real(int column) const {
  if (sqlite3_column_type(handle_.get(), column) == SQLITE_NULL) {
    return {};
  }
  return real(column);
}

Digest Statement::digest(int column) const {
  const void* data = sqlite3_column_blob(handle_.get(), column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_.get(), column));
  return data == nullptr ? Digest{} : digest_of_bytes({static_cast<const char*>(data), size});
}

Result<Transaction> Transaction::begin(const Database& database) {
  const bool inner = sqlite3_get_autocommit(database.handle()) == 0;
  if (database.reads_only()) {
    return database.problem(SQLITE_READONLY, "write to it");
  }
  if (!inner) {
    if (database.footing() != Footing::stands) {
      return database.lost_footing(false);
    }
    if (const auto begun = database.run("BEGIN IMMEDIATE"); !begun) {
      return begun.problems();
    }
  }
  return Transaction(database, inner);
}

Result<Snapshot> Snapshot::of(const Database& database) {
  if (sqlite3_get_autocommit(database.handle()) == 0) {
    return Snapshot(nullptr);
  }
  const auto begun = database.run("BEGIN");
  return begun ? Result<Snapshot>(Snapshot(&database)) : begun.problems();
}

Snapshot::~Snapshot() {
  if (database_ != nullptr && sqlite3_get_autocommit(database_->handle()) == 0) {
    (void)database_->run("ROLLBACK");  // nothing was written
  }
}

Transaction::~Transaction() {
  if (database_ != nullptr && !inner_ && sqlite3_get_autocommit(database_->handle()) == 0) {
    // Nothing to do about a rollback that fails: SQLite undoes the work at the next opening.
    (void)database_->run("ROLLBACK");
  }
}

Result<Done> Transaction::commit() {
  CHECK(database_ != nullptr);
  if (inner_) {
    database_ = nullptr;
    return Done{};
  }
  if (database_->footing() != Footing::stands) {
    return database_->lost_footing(false);
  }
  auto committed = database_->run("COMMIT");
  if (!committed) {
    return committed;
  }
  const Database& database = *std::exchange(database_, nullptr);
  // It may have been moved away while the disk was waited for.
  return database.footing() == Footing::stands ? committed : database.lost_footing(true);
}

}  // namespace dryout::casestore
