#include "casework/catalogue.h"

#include <algorithm>
#include <tuple>

namespace dryout::casework {

Catalogue catalogue_of(const knowledge::KnowledgeBase& knowledge) {
  Catalogue catalogue;
  for (const knowledge::Equipment& equipment : knowledge.equipment) {
    catalogue.equipment.push_back({equipment.id, equipment.title, equipment.family,
                                   equipment.because, equipment.year_from, equipment.year_to});
  }
  std::sort(catalogue.equipment.begin(), catalogue.equipment.end(),
            [](const EquipmentChoice& a, const EquipmentChoice& b) {
              return std::tie(a.family, a.title) < std::tie(b.family, b.title);
            });
  return catalogue;
}

}  // namespace dryout::casework
