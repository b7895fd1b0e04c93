// Forward chaining over one equipment: which faults give rise to which phenomena where, how
// strongly, and along which path. The strength of a path is the product of its links; where several
// paths lead from one fault to one place, the strongest counts (they share their origin, so they
// are not independent causes). Each consequence remembers the one it came from, so that its path
// can be told when somebody asks. Of neighbours on a board that lead on alike (groups of one role,
// block and rail) the first stands for all.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "knowledge/block_graph.h"
#include "knowledge/fault_site.h"
#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {

/// A phenomenon at a place of the equipment.
struct Fact {
  std::size_t phenomenon = 0;  ///< index into KnowledgeBase::phenomena
  Location place;
  friend auto operator<=>(const Fact&, const Fact&) = default;
};

struct Consequence {
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  std::size_t site = 0;  ///< index into Chained::sites: the fault
  Fact fact;
  double strength = 0.0;       ///< of the whole path
  const Link* link = nullptr;  ///< the last step of the path; owned by the knowledge base
  std::size_t before = none;   ///< index into Chained::consequences: where that step started
};

struct Chained {
  std::vector<FaultSite> sites;
  std::vector<Consequence> consequences;  ///< site after site, strongest first
};

/// Consequences weaker than `strength_min` are dropped. The result points into `knowledge`.
[[nodiscard]] Chained chain(const KnowledgeBase& knowledge, const Equipment& equipment,
                            double strength_min = 1e-3);

/// The consequences on the way from the fault to this one, which is the last.
[[nodiscard]] std::vector<const Consequence*> path(const Chained& chained, std::size_t consequence);

/// One line a step: "ripple on the +38 V rail: a dried reservoir lets the ripple through".
[[nodiscard]] std::vector<std::string> tell(const KnowledgeBase& knowledge,
                                            const Equipment& equipment, const Chained& chained,
                                            std::size_t consequence);

}  // namespace dryout::knowledge
