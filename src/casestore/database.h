// One class per SQLite handle, so that each is closed exactly once, and one place where SQLite's
// result codes become problems a person can act on. Seen only inside this room.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "casestore/footing.h"
#include "casestore/sha256.h"
#include "quantities/result.h"

namespace dryout::casestore {

class Database {
 public:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  using Handle = std::unique_ptr<sqlite3, Close>;

  /// Opens an existing file for reading and writing.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Database>> open(const std::string& path);
  /// The same for reading alone. Nobody else may write it meanwhile: what stands in a log beside it
  /// is not read.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Database>> open_unchanging(
      const std::string& path);
  /// The same beside others who write it, where their log can be read.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Database>> open_read_only(
      const std::string& path);
  Database(Handle handle, std::string path) : handle_(std::move(handle)), path_(std::move(path)) {}
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;
  /// Leaves alone what now lies in its place, where that is another store's.
  ~Database();

  [[nodiscard]] sqlite3* handle() const { return handle_.get(); }
  [[nodiscard]] const std::string& path() const { return path_; }

  /// From now on every transaction is refused; `named` is the store that problems speak of, and
  /// `folder` goes with this object ("" = none does).
  void read_only(const std::string& named, const std::string& folder);
  [[nodiscard]] bool reads_only() const { return reads_only_; }

  /// From now on the file in its place must be this one.
  void hold_place() { place_ = FilesInPlace::of(path_); }
  [[nodiscard]] Footing footing() const { return place_.footing(); }
  /// What is said where it is another one, or none; `written` = a step may have gone astray.
  [[nodiscard]] quantities::Problem lost_footing(bool written) const;

  /// Runs statements that give no rows.
  [[nodiscard]] quantities::Result<quantities::Done> run(const std::string& sql) const;
  /// The single number that a statement gives.
  [[nodiscard]] quantities::Result<std::int64_t> number(std::string_view sql) const;
  /// The problem behind the last refused call; `doing` completes "could not ...".
  [[nodiscard]] quantities::Problem problem(int code, std::string_view doing) const;

 private:
  Handle handle_;
  std::string path_;
  std::string folder_;  ///< of a copy
  bool reads_only_ = false;
  FilesInPlace place_;
};

class Statement {
 public:
  [[nodiscard]] static quantities::Result<Statement> prepare(const Database& database,
                                                             std::string_view sql);

  /// Binds the next parameter, in order. A failure shows at the next step().
  Statement& bind(std::int64_t value);
  Statement& bind(int value) { return bind(static_cast<std::int64_t>(value)); }
  Statement& bind(std::string_view value);
  Statement& bind(std::optional<int> value);
  Statement& bind(double value);
  Statement& bind(std::optional<double> value);
  Statement& bind(const Digest& digest);

  /// True: stands on a row. False: done.
  [[nodiscard]] quantities::Result<bool> step();
  /// For statements that give no rows.
  [[nodiscard]] quantities::Result<quantities::Done> finish();
  /// Ready to be bound and run once more.
  Statement& again();
  /// Calls visit() once for each row, standing on it.
  template <class Visit>
  [[nodiscard]] quantities::Result<quantities::Done> for_each_row(Visit visit) {
    for (;;) {
      const auto row = step();
      if (!row) {
        return row.problems();
      }
      if (!*row) {
        return quantities::Done{};
      }
      visit();
    }
  }

  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::optional<int> optional_integer(int column) const;
  [[nodiscard]] double real(int column) const;
  /// All zero where no digest stands.
  [[nodiscard]] Digest digest(int column) const;
  [[nodiscard]] std::optional<double> optional_real(int column) const;

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* handle) const { sqlite3_finalize(handle); }
  };
  using Handle = std::unique_ptr<sqlite3_stmt, Finalize>;
  Statement(const Database& database, Handle handle)
      : database_(&database), handle_(std::move(handle)) {}

  const Database* database_;
  Handle handle_;
  int bound_ = 0;
  int bind_code_ = SQLITE_OK;
};

/// Everything until commit() happens, or nothing of it. One begun inside another has no end of its
/// own: it happens with the outer one, which must be given up where the inner one was. A store that
/// no longer lies where it was opened is not written: its steps would be acknowledged into nothing.
class Transaction {
 public:
  /// Takes the right to write at once, so that no later statement can fail for want of it.
  [[nodiscard]] static quantities::Result<Transaction> begin(const Database& database);
  Transaction(Transaction&& other) noexcept
      : database_(std::exchange(other.database_, nullptr)), inner_(other.inner_) {}
  Transaction& operator=(Transaction&&) = delete;
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();

  [[nodiscard]] quantities::Result<quantities::Done> commit();

 private:
  Transaction(const Database& database, bool inner) : database_(&database), inner_(inner) {}
  const Database* database_;
  bool inner_;
};

/// All that is read while it lives is of one moment.
class Snapshot {
 public:
  [[nodiscard]] static quantities::Result<Snapshot> of(const Database& database);
  Snapshot(Snapshot&& other) noexcept : database_(std::exchange(other.database_, nullptr)) {}
  Snapshot& operator=(Snapshot&&) = delete;
  Snapshot(const Snapshot&) = delete;
  Snapshot& operator=(const Snapshot&) = delete;
  ~Snapshot();

 private:
  explicit Snapshot(const Database* database) : database_(database) {}
  const Database* database_;  ///< null inside a transaction, which is a snapshot itself
};

}  // namespace dryout::casestore
