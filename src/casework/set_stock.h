// The set as decision/ weighs it: its capacitors with their posterior, who stands convicted, what
// is already open and what has been replaced.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "casework/build_view.h"
#include "decision/mending_rules.h"
#include "decision/options.h"

namespace dryout::casework {

struct WeighedSet {
  decision::SetStock stock;
  std::vector<std::size_t> items;  ///< diagnosis item of each part of the stock
  bool preventive = false;         ///< no symptom was reported
  bool settled = false;            ///< something is convicted or was mended
  std::vector<std::string> notices;
};

/// Who is convicted, conviction.h says; a cause that is no capacitor then stands among the parts.
/// Where nothing is, or what is hardly explains the complaint, and none was mended, what leads
/// stands in, whatever it is, and a notice says so. Brothers are of the same batch, make and kind.
[[nodiscard]] WeighedSet weighed_set_of(const CaseInHand& hand,
                                        const decision::MendingRules& rules);

/// What kind a capacitor item is: as its name says, or else as its group.
[[nodiscard]] std::string technology_of_item(const CaseInHand& hand, std::size_t item);

/// How many parts stand behind a capacitor item: of a group, those that have no name of their own.
[[nodiscard]] int count_of(const CaseInHand& hand, std::size_t item);

}  // namespace dryout::casework
