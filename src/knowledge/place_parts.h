// Where the parts of a list belong in an architecture: which role, which block. What the list says
// counts; where it says nothing, a group of the architecture that looks alike and has no rival may
// lend its role or block. What finds no place says why.
#pragma once

#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"
#include "knowledge/parts_list.h"

namespace dryout::knowledge {

struct PlacedPart {
  const PartsRow* row = nullptr;
  std::string role, block;
  const PartGroup* pattern = nullptr;  ///< the architecture's group that it looks like, or null
  bool lent = false;                   ///< role or block were taken from the pattern, not the list
};

struct Placing {
  std::vector<PlacedPart> placed;
  std::vector<UnplacedPart> unplaced;
  int parts_placed = 0;  ///< capacitors, not rows
  /// How well the list fits the architecture: parts placed, those that look like a group of it
  /// counted in full, the others half.
  double fit = 0.0;
};

/// What is placed points into `list` and `architecture`: both must outlive it.
[[nodiscard]] Placing place_parts(const KnowledgeBase& knowledge, const PartsList& list,
                                  const Equipment& architecture);

}  // namespace dryout::knowledge
