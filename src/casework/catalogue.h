// What can be picked before there is a case: the kinds of equipment the knowledge covers. Plain
// values, as a face may read them.
#pragma once

#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"

namespace dryout::casework {

struct EquipmentChoice {
  std::string id, title, family;
  std::string because;  ///< what the architecture is, in words
  int year_from = 0, year_to = 0;
};

struct Catalogue {
  std::vector<EquipmentChoice> equipment;  ///< by family, then title
};

[[nodiscard]] Catalogue catalogue_of(const knowledge::KnowledgeBase& knowledge);

}  // namespace dryout::casework
