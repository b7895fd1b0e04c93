// The shopping list of one way of mending: what decision/ may substitute for the parts of this set,
// in words.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "casework/build_view.h"
#include "casework/mending_knowledge.h"
#include "casework/mending_view.h"
#include "decision/shopping_list.h"
#include "knowledge/rules.h"

namespace dryout::casework {

/// A valve does the rectifying: one of the set's valves feeds a rectifier. Null where none does.
[[nodiscard]] const knowledge::Block* rectifier_valve_of(const knowledge::Equipment& equipment);

struct PartsList {
  std::vector<ShoppingRow> rows;
  std::string csv;                   ///< decision::to_csv
  std::vector<std::string> notices;  ///< values that must be read off the part
};

/// The parts of a group as the set has them: task, value, and where they stand.
[[nodiscard]] decision::PartNeed need_of_group(const knowledge::Equipment& equipment,
                                               const knowledge::PartGroup& group,
                                               const std::string& technology);

/// `items`: diagnosis items that will be mended; those that are no capacitors buy what their remedy
/// says.
[[nodiscard]] PartsList parts_list_of(const CaseInHand& hand, const std::vector<std::size_t>& items,
                                      const MendingKnowledge& knowledge);

}  // namespace dryout::casework
