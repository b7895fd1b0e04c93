// What mending needs to know besides the set: the shop's figures and the rules of substitution.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "decision/mending_rules.h"
#include "decision/shop_settings.h"
#include "decision/substitution.h"
#include "quantities/result.h"

namespace dryout::casework {

struct MendingKnowledge {
  std::optional<decision::ShopSettings> shop;          ///< nothing: mending cannot be weighed
  std::optional<decision::ShopSettings> shipped_shop;  ///< as it is without the shop's own figures
  decision::SubstitutionRules substitution;
  decision::MendingRules rules;
};

/// From knowledge trees, the shipped one first; the technician's own figures and rules are laid
/// over it.
[[nodiscard]] quantities::Result<MendingKnowledge> load_mending_knowledge(
    const std::vector<std::string>& directories);

}  // namespace dryout::casework
