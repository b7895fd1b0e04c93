// The ground a case stands on: its equipment, and the fault network compiled from the knowledge and
// what is known of this very set. Compiling is the dear part, so it is done once for each
// (equipment, particulars) and kept.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "casework/case_state.h"
#include "casework/shop_history.h"
#include "diagnosis/compile_network.h"
#include "diagnosis/posterior.h"
#include "knowledge/knowledge_base.h"
#include "quantities/result.h"
#include "readings/assess_reading.h"

namespace dryout::casework {

struct Ground {
  const knowledge::KnowledgeBase* knowledge = nullptr;
  const readings::ReadingKnowledge* readings = nullptr;
  const knowledge::Equipment* equipment = nullptr;
  std::optional<int> year_built;         ///< as told at the counter
  const ShopHistory* history = nullptr;  ///< where the figures use it, else null
  HistoryUse history_use;                ///< what of it is in `compiled`
  diagnosis::CompiledNetwork compiled;
  diagnosis::Posterior prior;  ///< before any evidence
  /// Where each id, "part:C12" and short "C12", stands among the items.
  std::unordered_map<std::string, std::size_t> item_of_id;
  std::vector<const knowledge::PartGroup*> group_of_item;  ///< null: a cause
  /// [symptom id], and [check id, place]
  std::unordered_map<std::string, std::size_t> finding_of_symptom;
  std::map<std::pair<std::string, std::string>, std::size_t> finding_of_check;
  std::unordered_map<std::string, std::vector<std::size_t>> checks_at;  ///< [place] findings
  /// [group id] the reference of its only part, where that was named.
  std::unordered_map<std::string, std::string> sole_part_of;

  /// "group:reservoirs", or short "reservoirs"; "part:C12", or short "C12"; "cause:joint@if".
  [[nodiscard]] std::optional<std::size_t> item(std::string_view id) const;
  [[nodiscard]] std::optional<diagnosis::KnownFinding> symptom_finding(
      std::string_view symptom) const;
  [[nodiscard]] std::optional<diagnosis::KnownFinding> check_finding(std::string_view check,
                                                                     std::string_view place) const;
  [[nodiscard]] const knowledge::PartGroup* group_of(std::size_t item) const;  ///< null: a cause
};

/// The part whose name an item is; null for a group and for what is no part.
[[nodiscard]] const NamePart* named_part(const Ground& ground, const CaseState& state,
                                         std::size_t item);

[[nodiscard]] inline bool is_capacitor(const diagnosis::CompiledItem& item) {
  return item.kind != diagnosis::CompiledItem::Kind::cause;
}

/// Keeps the grounds last used. For one thread.
class GroundCache {
 public:
  GroundCache(const knowledge::KnowledgeBase& knowledge, const readings::ReadingKnowledge& readings)
      : knowledge_(&knowledge), readings_(&readings) {}

  /// The ground of a case; it stays valid until the next call. An equipment that the knowledge does
  /// not have (any more) is a problem.
  [[nodiscard]] quantities::Result<const Ground*> of(const CaseState& state);
  /// A ground of the case's equipment, good for what does not depend on the parts named so far:
  /// the one last used of it, or else that of the case.
  [[nodiscard]] quantities::Result<const Ground*> of_equipment(const CaseState& state);
  /// Drops all grounds: the knowledge is about to change.
  void forget() {
    grounds_.clear();
    ++edition_;
  }
  /// Moves on whenever what grounds are made of may have changed.
  [[nodiscard]] int edition() const { return edition_; }
  /// From now on grounds use this history, which must stay where it is; null = none.
  void learn_from(const ShopHistory* history) {
    history_ = history;
    forget();
  }

 private:
  const knowledge::KnowledgeBase* knowledge_;
  const readings::ReadingKnowledge* readings_;
  const ShopHistory* history_ = nullptr;
  std::map<std::string, std::unique_ptr<Ground>> grounds_;
  int edition_ = 0;
};

/// The equipment of that id, or a problem with the nearest spelling.
[[nodiscard]] quantities::Result<const knowledge::Equipment*> find_equipment(
    const knowledge::KnowledgeBase& knowledge, const std::string& id);

/// Calendar year (UTC) of a moment.
[[nodiscard]] int year_of(std::int64_t at);

}  // namespace dryout::casework
