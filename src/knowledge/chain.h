// Forward chaining over one equipment: which faults give rise to which phenomena where, how
// strongly, and along which path. The strength of a path is the product of its links; where several
// paths lead from one fault to one place, the strongest counts (they share their origin, so they
// are not independent causes) and is kept, so that it can be told.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {

/// A fault that an equipment can have: a part group in a mode, or a cause in a block.
struct FaultSite {
  enum class Kind { group, cause };
  Kind kind = Kind::group;
  std::size_t group = 0;  ///< Kind::group: index into Equipment::groups
  std::string mode;       ///< Kind::group
  std::size_t cause = 0;  ///< Kind::cause: index into KnowledgeBase::causes
  std::size_t block = 0;  ///< Kind::cause: index into Equipment::blocks
};

/// A phenomenon at a place of the equipment.
struct Fact {
  std::string phenomenon;
  Phenomenon::At at = Phenomenon::At::block;
  std::size_t place = 0;  ///< index into rails, blocks or groups, by `at`
  friend auto operator<=>(const Fact&, const Fact&) = default;
};

struct PathStep {
  const Link* link = nullptr;
  Fact fact;  ///< what this link gave rise to
};

struct Consequence {
  std::size_t site = 0;  ///< index into Chained::sites
  Fact fact;
  double strength = 0.0;
  std::vector<PathStep> path;  ///< from the fault to the fact
};

struct Chained {
  std::vector<FaultSite> sites;
  std::vector<Consequence> consequences;  ///< sorted by fact, then site
};

/// Consequences weaker than `strength_min` are dropped.
[[nodiscard]] Chained chain(const KnowledgeBase& knowledge, const Equipment& equipment,
                            double strength_min = 1e-3);

/// One line a step: "a dried reservoir puts ripple on its rail: ripple on the +38 V rail".
[[nodiscard]] std::vector<std::string> tell(const Equipment& equipment,
                                            const KnowledgeBase& knowledge,
                                            const Consequence& consequence);

/// What a place is called: title of the rail, block or group.
[[nodiscard]] std::string title_of(const Equipment& equipment, const Fact& fact);

}  // namespace dryout::knowledge
