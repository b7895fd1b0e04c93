// Where cases live: one SQLite file with a journal of events per case. Facts and ids only; what an
// event means is the business of casework, to which its body is opaque text here.
//
// Promises. What append_event() or create_case() acknowledged is on the disk (write-ahead log,
// synchronous FULL) and survives a killed process or a pulled plug. A refused call has written
// nothing. Several programs may have one store open: a writer that has not seen the newest event of
// its case is told so instead of writing; so is one whose steps are not those of the store, because
// a backup came back or another file was put in its place; and where the store was moved away under
// a program, that program's steps are refused. The file is created readable by its user alone. An
// older store is copied beside itself before it is migrated; a newer one is refused.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "casestore/footing.h"
#include "casestore/sha256.h"
#include "casestore/statistics.h"
#include "quantities/result.h"

namespace dryout::casestore {

class Database;

/// In place of a path: a store that lives in memory and goes with its CaseStore.
inline constexpr std::string_view in_memory = ":memory:";

/// The message of a problem that passes when another program lets go of the store.
inline constexpr std::string_view store_in_use = "the case store is in use by another program";

/// What lists show, searches find and statistics count of a case; follows from its events, kept
/// beside them so that a hundred thousand cases can be asked without replaying any. Texts to be
/// found, and the statistics, are not read back by list() and find().
struct CaseFacts {
  std::string equipment;
  std::string set_name;
  std::optional<int> year_built;
  std::string owner;
  std::string complaint;
  std::string cause;  ///< item id once closed; "" = open, or none found
  bool closed = false;
  std::string symptoms, parts, causes;  ///< words to be found in these fields, one line each
  std::string notes;                    ///< everything else worth finding, one line each
  CaseStatistics statistics;
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

/// A whole case to be taken in.
struct NewCase {
  std::string identity;  ///< who it is on every bench; "" = a new one, drawn at random
  CaseFacts facts;
  std::vector<NewEvent> events;  ///< at least one
};

/// The identity of a case that has none, from its first event: the same on every bench.
[[nodiscard]] std::string derived_identity(const NewEvent& first);

struct EventRow {
  int sequence = 0;  ///< 1, 2, 3, ... within the case
  std::int64_t at = 0;
  std::string kind;
  std::string body;
};

/// How far a case was read or written: its newest step, and the digest in which all up to it hang
/// together. A number alone stands for whatever step bears it; 0 = nothing yet.
struct Seen {
  Seen() = default;
  Seen(int upto, const Digest& of = {}) : steps(upto), digest(of) {}  // NOLINT: implicit on purpose
  int steps = 0;
  Digest digest{};
  friend bool operator==(const Seen&, const Seen&) = default;
};

/// What stands of a case behind what was seen of it.
struct CaseJournal {
  std::vector<EventRow> events;  ///< the sound ones, oldest first
  std::vector<int> damaged;      ///< steps that are missing, or not as they were written
  Seen seen;                     ///< up to here
  /// What was seen is not what stands here: a backup came back, or another store was put in its
  /// place. The events are then all of the case.
  bool parted = false;
};

/// What is asked for; what is left empty does not matter. Every word must begin a word of its field
/// (`words`: of any field). Signs have no meaning, so nothing typed can be a syntax error.
struct CaseQuery {
  std::string words, set_name, symptom, part, cause;
  std::string equipment;  ///< id
  bool closed_only = false;
  bool newest_first = false;  ///< in place of best match first
  int most = 200;
};

struct FoundCases {
  std::vector<CaseRow> rows;
  bool more = false;          ///< others match too
  bool newest_first = false;  ///< asked for, or so many match that none stands out
};

enum class Appended {
  written,
  overtaken,  ///< someone else has written to the case since: read it again; nothing was written
  parted,     ///< what was seen of the case is not what stands here; nothing was written
};

class CaseStore {
 public:
  /// Opens the store, makes it (and its folder) where there is none, migrates an older one.
  [[nodiscard]] static quantities::Result<CaseStore> open(const std::string& path);
  /// The same for a store that this user may read and not write (another's, a disk for reading
  /// only): listed, shown and exported, every write refused. Of an older version, or with steps in
  /// its log, it is read from a copy that goes with the object.
  [[nodiscard]] static quantities::Result<CaseStore> open_to_read(const std::string& path);
  /// Whether that is so of the file there.
  [[nodiscard]] static bool is_for_reading_only(const std::string& path);
  [[nodiscard]] bool reads_only() const;
  /// How long a call waits for another writer before it is refused with `store_in_use`.
  void wait_at_most(std::chrono::milliseconds longest);
  /// Another number whenever another program has written; 0 where that can't be told.
  [[nodiscard]] std::int64_t data_version() const;
  CaseStore(CaseStore&&) noexcept;
  CaseStore& operator=(CaseStore&&) noexcept;
  CaseStore(const CaseStore&) = delete;
  CaseStore& operator=(const CaseStore&) = delete;
  ~CaseStore();

  /// A new case with its first events, all or nothing; its number.
  [[nodiscard]] quantities::Result<std::int64_t> create_case(const CaseFacts& facts,
                                                             const std::vector<NewEvent>& first);
  /// Several at once, all or nothing, in the order of the result. A known identity is a problem.
  [[nodiscard]] quantities::Result<std::vector<std::int64_t>> create_cases(
      const std::vector<NewCase>& fresh);
  /// Writes the event that follows `seen`, provided that it is still the newest of the case.
  [[nodiscard]] quantities::Result<Appended> append_event(std::int64_t number, const Seen& seen,
                                                          const NewEvent& event,
                                                          const CaseFacts& facts);

  /// The same for several events, all or nothing. At least one.
  [[nodiscard]] quantities::Result<Appended> append_events(std::int64_t number, const Seen& seen,
                                                           const std::vector<NewEvent>& events,
                                                           const CaseFacts& facts);

  /// What `work` writes, all or nothing: nothing where it gives a problem.
  using Work = std::function<quantities::Result<quantities::Done>()>;
  [[nodiscard]] quantities::Result<quantities::Done> together(const Work& work);

  /// The case of that identity, and the other way round.
  [[nodiscard]] quantities::Result<std::optional<std::int64_t>> find_identity(
      const std::string& identity) const;
  [[nodiscard]] quantities::Result<std::string> identity(std::int64_t number) const;

  /// What was written behind what was seen. An unknown case is a problem; damaged steps are not.
  [[nodiscard]] quantities::Result<CaseJournal> journal(std::int64_t number,
                                                        const Seen& seen = {}) const;
  /// Events after `after`, oldest first. An unknown case is a problem, and so is a damaged step.
  [[nodiscard]] quantities::Result<std::vector<EventRow>> events(std::int64_t number,
                                                                 int after = 0) const;
  /// Sequence of the newest event of a case.
  [[nodiscard]] quantities::Result<int> newest_event(std::int64_t number) const;
  /// The numbers of the cases behind `after`, in their order: to go through a store of any size.
  [[nodiscard]] quantities::Result<std::vector<std::int64_t>> numbers_after(std::int64_t after,
                                                                            int most) const;
  /// Last changed first.
  [[nodiscard]] quantities::Result<std::vector<CaseRow>> list(
      int most = std::numeric_limits<int>::max()) const;
  /// Cases that answer a query. A query that says nothing finds nothing.
  [[nodiscard]] quantities::Result<FoundCases> find(const CaseQuery& query) const;
  /// The same by words alone.
  [[nodiscard]] quantities::Result<std::vector<CaseRow>> search(std::string_view words) const;

  [[nodiscard]] quantities::Result<CaseStatistics> statistics(std::int64_t number) const;
  /// Closed cases by subject; an empty family or equipment is any.
  [[nodiscard]] quantities::Result<std::vector<CauseCount>> cause_counts(
      const std::string& family, const std::string& equipment) const;
  /// Readings of a part type by age, standing and size.
  [[nodiscard]] quantities::Result<std::vector<ReadingCount>> reading_counts(
      const ReadingQuery& query) const;
  /// All sound parts read alone, by type and size.
  [[nodiscard]] quantities::Result<std::vector<SoundCount>> sound_counts() const;

  /// Facts follow from journals by rules that may change; this is the version of the rules by which
  /// those in the store were made, 0 where nobody knows.
  [[nodiscard]] quantities::Result<int> facts_version() const;
  /// Makes the facts of every case anew. A case for which `facts_of` has nothing keeps its own.
  using FactsOf = std::function<std::optional<CaseFacts>(const std::vector<EventRow>&)>;
  [[nodiscard]] quantities::Result<quantities::Done> rebuild_facts(const FactsOf& facts_of,
                                                                   int version);

  /// Whether the file is still where it was opened.
  [[nodiscard]] Footing footing() const;
  /// What to say where it is not.
  [[nodiscard]] quantities::Problem lost_footing() const;
  /// Puts all that this program still holds of a store that was deleted beside where it was; the
  /// name of the copy.
  [[nodiscard]] quantities::Result<std::string> save_what_is_open() const;
  /// Drawn anew whenever a backup comes back: a program that finds another one than before looks
  /// again at what it holds.
  [[nodiscard]] quantities::Result<std::int64_t> generation() const;
  /// Of the bench whose store this is: 8 hexadecimal digits, drawn when the store was made. A
  /// backup that comes back does not change it.
  [[nodiscard]] quantities::Result<std::string> bench() const;

  /// Puts a backup in the place of the store at `path`. Who writes meanwhile is in the copy beside
  /// it or in the store that is then there, never in neither. The store that is there is copied
  /// beside itself first, and where that cannot be done nothing happens; a file that is no readable
  /// store is put aside as it is. The name of the copy, "" where nothing was there. A backup that
  /// is damaged, newer, or no store is refused.
  [[nodiscard]] static quantities::Result<std::string> restore(const std::string& backup,
                                                               const std::string& path);
  /// A consistent copy in one file, also while others write. Never overwrites.
  [[nodiscard]] quantities::Result<quantities::Done> backup(const std::string& destination) const;
  /// Reads every page and every reference; the problems found, or Done.
  [[nodiscard]] quantities::Result<quantities::Done> check_integrity() const;
  /// What a person typed, as lists and searches have it, against what `facts_of` makes of each
  /// journal (without the words that rules add).
  [[nodiscard]] quantities::Result<quantities::Done> check_facts(const FactsOf& facts_of) const;

 private:
  explicit CaseStore(std::unique_ptr<Database> database);
  std::unique_ptr<Database> database_;
};

}  // namespace dryout::casestore
