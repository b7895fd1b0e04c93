// What a fault is counted under. The same trouble in two sets has two items ("group:reservoirs",
// "part:C12") but one subject: a capacitor counts under its role, anything else under its cause.
//   "role:reservoir", "cause:dry-joint"; "" where an id says nothing
#pragma once

#include <string>
#include <string_view>

#include "casework/case_state.h"
#include "diagnosis/compile_network.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

/// Subjects and titles of the items of one case. For as long as its knowledge and state live.
class Subjects {
 public:
  Subjects(const knowledge::KnowledgeBase& knowledge, const CaseState& state);

  /// Of an item, named in full ("part:C12") or short ("C12").
  [[nodiscard]] std::string of_item(std::string_view item) const;
  /// "C12 Reservoirs", "Reservoirs", "Dry joint"; the id itself where nobody knows it.
  [[nodiscard]] std::string title_of_item(std::string_view item) const;
  /// "Reservoir", "Dry joint"
  [[nodiscard]] std::string title_of(std::string_view subject) const;

  /// The named part, and the group, that an item is or belongs to; null where it is none.
  [[nodiscard]] const NamePart* part_of(std::string_view item) const;
  [[nodiscard]] const knowledge::PartGroup* group_of(std::string_view item) const;

 private:
  const knowledge::KnowledgeBase* knowledge_;
  const knowledge::Equipment* equipment_;  ///< null: the knowledge has it no more
  const CaseState* state_;
};

/// "Reservoir", "Dry joint"; the subject itself where the knowledge has it no more.
[[nodiscard]] std::string title_of_subject(const knowledge::KnowledgeBase& knowledge,
                                           std::string_view subject);
/// Of an item of a compiled network.
[[nodiscard]] std::string subject_of(const diagnosis::CompiledItem& item,
                                     const knowledge::Equipment& equipment);

}  // namespace dryout::casework
