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
  return MendingKnowledge{std::move(*shop), std::move(*substitution)};
}

}  // namespace dryout::casework
