// What the shop remembers, asked across all cases: which cases were like this one, what sets of a
// kind end up with, what parts of a kind read at which age, and what the figures have learnt from
// it. Plain values, worded, for both faces.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "casework/learning.h"
#include "casework/workshop.h"
#include "quantities/probability.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::casework {

/// What is looked for; empty = does not matter. Every word must begin a word of its field.
using ShopSearch = casestore::CaseQuery;
struct ShopSearchView {
  std::vector<CaseSummary> cases;
  bool more = false;  ///< others match too
};

struct CauseShareView {
  std::string subject, title;  ///< "role:reservoir", "Reservoir"
  std::int64_t cases = 0;
  quantities::Probability share;
  /// Where the true share lies with a probability of 0.9, from a flat start (Beta quantiles).
  quantities::Probability least, most;
  std::int64_t of = 0;  ///< closed cases in which a cause was found
};
struct CausesView {
  std::string family;
  std::string title;  ///< "audio", or the title of the one equipment asked for
  std::int64_t closed = 0, without_cause = 0;
  std::vector<CauseShareView> causes;  ///< most frequent first
};

/// A part type, and what was read of it; what is left empty (or zero) does not matter, but the
/// technology and the kind (a word of readings::Kind) must be said.
using ReadingsAsked = casestore::ReadingQuery;

/// Readings of a part type in sets of one age.
struct AgeReadings {
  std::string age;       ///< "20 to 29 years", "age unknown", "all ages"
  std::string standing;  ///< all, sound, bad
  std::int64_t readings = 0;
  /// SI, within 3 %: a tenth of the readings lie below p10, half below p50.
  double p10 = 0.0, p25 = 0.0, p50 = 0.0, p75 = 0.0, p90 = 0.0;
  std::string shown;  ///< "0.21 Ω, 0.3 Ω to 0.62 Ω, 1.1 Ω"
};
struct ReadingsView {
  std::string title;  ///< "ESR of wet aluminium, 47 µF, 63 V"
  std::string kind;
  std::vector<AgeReadings> ages;  ///< all ages first
};

/// One earlier set of the kind.
struct LastTimeCase {
  std::int64_t number = 0;
  std::string set_name, equipment_title, opened, complaint;
  std::vector<std::string> symptoms;  ///< titles
  std::string cause;                  ///< title; "" = none was found
  std::string summary;
  std::vector<std::string> repairs;  ///< "C12 Reservoirs: replaced, 4700 uF 63 V"
  /// At the bench: the pauses between its steps, where they were no longer than half an hour.
  quantities::Second at_bench;
};
struct LastTimeView {
  std::string asked;                ///< in words: "sets called lark", "Stereo receiver"
  std::vector<LastTimeCase> cases;  ///< closed ones, newest first
  bool more = false;
  std::vector<CauseShareView> causes;  ///< of all closed cases of that equipment; by name: none
};

struct LearnedCauseView {
  std::string title;
  LearnedShare share;
};
struct LearnedTypicalView {
  std::string title;  ///< "ESR of wet aluminium, 47 µF, 63 V"
  std::int64_t readings = 0;
  double counted = 0.0;
  bool known_to_library = false;                           ///< without that, shown but never used
  std::string before, after, spread_before, spread_after;  ///< "0.4 Ω", "times 1.6"
};
struct LearnedView {
  bool on = false;  ///< whether the figures use it
  std::string equipment_title, family;
  std::vector<LearnedCauseView> causes;  ///< most learnt first
  std::vector<LearnedTypicalView> typical;
  std::string bound;  ///< what it can at most do, one sentence
};

class ShopMemory {
 public:
  ShopMemory(const casestore::CaseStore& store, const knowledge::KnowledgeBase& knowledge,
             const readings::ReadingKnowledge& readings, bool learning)
      : store_(&store), knowledge_(&knowledge), readings_(&readings), learning_(learning) {}

  /// Whether closed cases enter the figures.
  [[nodiscard]] bool in_the_figures() const { return learning_; }
  [[nodiscard]] quantities::Result<ShopSearchView> find(const ShopSearch& search) const;
  /// By family of equipment; with an equipment id that one alone.
  [[nodiscard]] quantities::Result<std::vector<CausesView>> causes(
      const std::string& family, const std::string& equipment) const;
  [[nodiscard]] quantities::Result<ReadingsView> readings(const ReadingsAsked& asked) const;
  /// An equipment id, or words of the set's name.
  [[nodiscard]] quantities::Result<LastTimeView> last_time(const std::string& equipment_or_name,
                                                           int most = 5) const;
  /// Closed cases like this one: of sets with its name, or of its kind with a symptom that it has
  /// too. The most alike first, then the newest.
  [[nodiscard]] quantities::Result<LastTimeView> last_time_like(std::int64_t number,
                                                                int most = 5) const;
  /// What the history does to the figures of one equipment, whether it is switched on or not.
  [[nodiscard]] quantities::Result<LearnedView> learned(const std::string& equipment,
                                                        int year_now) const;

 private:
  [[nodiscard]] quantities::Result<LastTimeCase> last_time_case(
      const casestore::CaseRow& row) const;
  [[nodiscard]] LearnedTypicalView learned_typical(const SoundReadings& type) const;

  const casestore::CaseStore* store_;
  const knowledge::KnowledgeBase* knowledge_;
  const readings::ReadingKnowledge* readings_;
  bool learning_;
};

}  // namespace dryout::casework
