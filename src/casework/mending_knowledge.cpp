#include "casework/mending_knowledge.h"

#include <utility>

namespace dryout::casework {

quantities::Result<MendingKnowledge> load_mending_knowledge(
    const std::vector<std::string>& directories) {
  auto shop = decision::load_shop_settings(directories);
  if (!shop) {
    return shop.problems();
  }
  auto substitution = decision::load_substitution_rules(directories);
  if (!substitution) {
    return substitution.problems();
  }
  auto rules = decision::load_mending_rules(directories);
  if (!rules) {
    return rules.problems();
  }
  auto shipped = decision::load_shop_settings({directories.front()});
  if (!shipped) {
    return shipped.problems();
  }
  return MendingKnowledge{std::move(*shop), std::move(*shipped), std::move(*substitution),
                          std::move(*rules)};
}

}  // namespace dryout::casework
