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

#include <cstdint>
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
};

/// What a text brought, in its order.
struct ImportReport {
  std::vector<ArrivedCase> cases;
};

/// "2 new, 1 in conflict and both kept."; of one case what was done with it.
[[nodiscard]] std::string told(const ImportReport& report);

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
  /// Everything is looked at before anything is written; one case that cannot be admitted refuses
  /// the whole text. `file` is how complaints name it.
  [[nodiscard]] quantities::Result<ImportReport> take_in(const std::string& text,
                                                         const std::string& file);

 private:
  using Events = std::vector<casestore::NewEvent>;
  struct Newcomer;
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
