// A set described by its parts list: the nearest architecture with its groups of capacitors
// replaced by those of the list. The result is an equipment like any other, kept as a file of the
// technician's own.
//
// Blocks of which the list has no capacitor keep the architecture's groups (unless told
// otherwise), so that a list of one board does not empty the others. Boards, rails, access,
// hazards and symptoms stay the architecture's. Parts without a place stay in `unplaced`, where
// lint tells of them.
#pragma once

#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"
#include "knowledge/parts_list.h"
#include "quantities/result.h"

namespace dryout::knowledge {

struct SetWish {
  std::string id;            ///< of the equipment to be made
  std::string title;         ///< "" = the id as it stands
  std::string like;          ///< id of the architecture; "" = the one that fits best
  bool only_listed = false;  ///< blocks without listed capacitors lose the architecture's groups
};

struct Nearness {
  std::string id, title;
  int placed = 0;    ///< capacitors that find a place in it
  double fit = 0.0;  ///< placed, those unlike any of its groups counted half
};

struct DescribedSet {
  Equipment equipment;
  Nearness like;
  int lent = 0;                          ///< parts whose role or block was taken from a look-alike
  std::vector<std::string> lent_names;   ///< "C7: Main reservoirs"
  std::vector<std::string> kept_groups;  ///< titles of the architecture's groups that stayed
};

/// Architectures by fit, best first.
[[nodiscard]] std::vector<Nearness> nearest_equipment(const KnowledgeBase& knowledge,
                                                      const PartsList& list);

/// Refused: an id not of the agreed form, an unknown architecture, a list of which nothing finds a
/// place.
[[nodiscard]] quantities::Result<DescribedSet> describe_set(const KnowledgeBase& knowledge,
                                                            const PartsList& list,
                                                            const SetWish& wish);

}  // namespace dryout::knowledge
