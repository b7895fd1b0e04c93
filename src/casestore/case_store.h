// Where cases live: one SQLite file with a journal of events per case. Facts and ids only; what an
// event means is the business of casework, to which its body is opaque text here.
//
// Promises. What append_event() or create_case() acknowledged is on the disk (write-ahead log,
// synchronous FULL) and survives a killed process or a pulled plug. A refused call has written
// nothing. Several programs may have one store open: a writer that has not seen the newest event of
// its case is told so instead of writing. The file is created readable by its user alone. An older
// store is copied beside itself before it is migrated; a newer one is refused.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace dryout::casestore {

class Database;

/// In place of a path: a store that lives in memory and goes with its CaseStore.
inline constexpr std::string_view in_memory = ":memory:";

/// What lists show and searches find of a case; follows from its events, kept beside them so that
/// ten thousand cases can be listed without replaying any.
struct CaseFacts {
  std::string equipment;
  std::string set_name;
  std::optional<int> year_built;
  std::string owner;
  std::string complaint;
  std::string cause;  ///< item id once closed; "" = open, or none found
  bool closed = false;
  std::string notes;  ///< everything else worth finding, one line each
  friend bool operator==(const CaseFacts&, const CaseFacts&) = default;
};

struct CaseRow {
  std::int64_t number = 0;
  std::int64_t opened_at = 0;   ///< seconds since the epoch
  std::int64_t changed_at = 0;  ///< of the newest event
  CaseFacts facts;
};

struct NewEvent {
  std::int64_t at = 0;  ///< seconds since the epoch
  std::string kind;
  std::string body;
};

struct EventRow {
  int sequence = 0;  ///< 1, 2, 3, ... within the case
  std::int64_t at = 0;
  std::string kind;
  std::string body;
};

enum class Appended {
  written,
  overtaken,  ///< someone else has written to the case since: read it again; nothing was written
};

class CaseStore {
 public:
  /// Opens the store, makes it (and its folder) where there is none, migrates an older one.
  [[nodiscard]] static quantities::Result<CaseStore> open(const std::string& path);
  CaseStore(CaseStore&&) noexcept;
  CaseStore& operator=(CaseStore&&) noexcept;
  CaseStore(const CaseStore&) = delete;
  CaseStore& operator=(const CaseStore&) = delete;
  ~CaseStore();

  /// A new case with its first events, all or nothing; its number.
  [[nodiscard]] quantities::Result<std::int64_t> create_case(const CaseFacts& facts,
                                                             const std::vector<NewEvent>& first);
  /// Writes event number `seen + 1`, provided that `seen` is still the newest of the case.
  [[nodiscard]] quantities::Result<Appended> append_event(std::int64_t number, int seen,
                                                          const NewEvent& event,
                                                          const CaseFacts& facts);

  /// Events after `after`, oldest first. An unknown case is a problem.
  [[nodiscard]] quantities::Result<std::vector<EventRow>> events(std::int64_t number,
                                                                 int after = 0) const;
  /// Sequence of the newest event of a case.
  [[nodiscard]] quantities::Result<int> newest_event(std::int64_t number) const;
  /// Last changed first.
  [[nodiscard]] quantities::Result<std::vector<CaseRow>> list() const;
  /// Cases in which every word of `words` begins a word of set, owner, complaint or notes; best
  /// match first. No word: none. Signs have no meaning, so nothing typed can be a syntax error.
  [[nodiscard]] quantities::Result<std::vector<CaseRow>> search(std::string_view words) const;

  /// A consistent copy in one file, also while others write. Never overwrites.
  [[nodiscard]] quantities::Result<quantities::Done> backup(const std::string& destination) const;
  /// Reads every page and every reference; the problems found, or Done.
  [[nodiscard]] quantities::Result<quantities::Done> check_integrity() const;

 private:
  explicit CaseStore(std::unique_ptr<Database> database);
  std::unique_ptr<Database> database_;
};

}  // namespace dryout::casestore
