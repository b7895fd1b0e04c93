// Cases that come from another bench. A case is known by its identity; what its journal says here
// and there decides what happens:
//   unknown here                        -> added
//   the same, or shorter than ours      -> nothing to do
//   ours, with further steps at the end -> ours gets those steps
//   both only added to what they shared -> ours gets what it lacks (merge_journals.h)
//   both went on differently            -> both are kept; the other branch as a case of its own
// A branch is named after the step in which it parts from ours, so that taking it in again, or
// taking in what was added to it since, finds it.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "casework/case_file.h"
#include "casework/case_ground.h"
#include "quantities/result.h"

namespace dryout::casework {

enum class Arrival { added, known, extended, merged, kept_both };
/// added, known, extended, merged, kept-both
[[nodiscard]] std::string_view word_of(Arrival arrival);

struct ArrivedCase {
  std::int64_t number = 0;  ///< the case in this store
  std::string set_name;
  Arrival arrival = Arrival::added;
  std::string sentence;  ///< what was done and why, in plain words
  bool chained = true;   ///< its file bore the chain of its steps, and they are those
};

/// What a text or a file brought, in its order.
struct ImportReport {
  std::vector<ArrivedCase> cases;       ///< the first ten thousand
  std::array<std::size_t, 5> counts{};  ///< of all, by Arrival
  std::size_t unchained = 0;            ///< of all: their file bore no chain

  void add(ArrivedCase arrived);
};

/// "2 new, 1 in conflict and both kept."; of one case what was done with it.
[[nodiscard]] std::string told(const ImportReport& report);

/// That some came without a chain, in a sentence; "" = none did.
[[nodiscard]] std::string told_of_chains(const ImportReport& report);

/// Reads a file of many back, each case against its chain: refused where they are not `count` sound
/// ones. Complaints name it `named`.
[[nodiscard]] quantities::Result<quantities::Done> read_back(const std::string& path,
                                                             const std::string& named,
                                                             std::size_t count);
/// What is said of a file that does not hold what was written.
[[nodiscard]] quantities::Problem not_as_written(const std::string& named);

/// Whether two texts are of one case, and the journal of the first is how the second's begins.
[[nodiscard]] bool is_earlier_state(const std::string& earlier, const std::string& later);

/// What an export could not take along, one sentence each.
using LeftOut = std::vector<std::string>;

class CaseExchange {
 public:
  CaseExchange(casestore::CaseStore& store, std::string store_path,
               const knowledge::KnowledgeBase& knowledge, GroundCache& grounds)
      : store_(&store),
        store_path_(std::move(store_path)),
        knowledge_(&knowledge),
        grounds_(&grounds) {}

  /// Damaged steps go on the list; without one they are a problem.
  [[nodiscard]] quantities::Result<CaseFile> file_of(std::int64_t number,
                                                     LeftOut* left_out = nullptr) const;
  /// All cases in one text.
  [[nodiscard]] quantities::Result<std::string> all_text(LeftOut* left_out = nullptr) const;
  /// Case by case, as elements of a list (case_file.h), in the order of their numbers, holding one
  /// at a time; the first problem of a visit ends it.
  using VisitText = std::function<quantities::Result<quantities::Done>(const std::string& text)>;
  [[nodiscard]] quantities::Result<quantities::Done> each_text(const VisitText& visit,
                                                               LeftOut* left_out) const;
  /// take_in() of the list "cases" of a file of any size, holding one case at a time: all are
  /// looked at before any is written; then they are written some hundreds at once, so that others
  /// may write between. Where that fails midway the problem says how many are in; taking the file
  /// in again makes no doubles.
  [[nodiscard]] quantities::Result<ImportReport> take_in_file(const std::string& path);
  /// Everything is looked at before anything is written; one case that cannot be admitted refuses
  /// the whole text. `file` is how complaints name it.
  [[nodiscard]] quantities::Result<ImportReport> take_in(const std::string& text,
                                                         const std::string& file);

 private:
  using Events = std::vector<casestore::NewEvent>;
  struct Newcomer;
  [[nodiscard]] quantities::Result<Newcomer> admitted_one(CaseFile file) const;
  [[nodiscard]] quantities::Result<quantities::Done> receive_all(
      const std::vector<Newcomer>& newcomers, ImportReport& report);
  [[nodiscard]] quantities::Result<std::vector<Newcomer>> admitted(std::vector<CaseFile> files,
                                                                   const std::string& file) const;
  [[nodiscard]] quantities::Result<ArrivedCase> receive(const Newcomer& newcomer);
  [[nodiscard]] quantities::Result<Events> events_of(std::int64_t number) const;
  [[nodiscard]] quantities::Result<ArrivedCase> meet(const Newcomer& newcomer, std::int64_t number,
                                                     const Events& ours);
  [[nodiscard]] quantities::Result<ArrivedCase> add(const Newcomer& newcomer,
                                                    const std::string& identity);
  [[nodiscard]] quantities::Result<ArrivedCase> extend(const Newcomer& newcomer,
                                                       std::int64_t number, std::size_t ours);
  /// Nothing where the two cannot be brought together without guessing.
  [[nodiscard]] quantities::Result<std::optional<ArrivedCase>> merge(const Newcomer& newcomer,
                                                                     std::int64_t number,
                                                                     const Events& ours);
  [[nodiscard]] quantities::Result<ArrivedCase> keep_both(const Newcomer& newcomer,
                                                          const std::string& base,
                                                          std::int64_t number, const Events& ours);

  casestore::CaseStore* store_;
  std::string store_path_;
  const knowledge::KnowledgeBase* knowledge_;
  GroundCache* grounds_;
};

}  // namespace dryout::casework
