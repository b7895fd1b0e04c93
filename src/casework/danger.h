// What can hurt at a check: from its own cautions, from the state of the set, and from the rails at
// the place where hands and probes go.
#pragma once

#include <string_view>
#include <vector>

#include "casework/case_ground.h"
#include "knowledge/knowledge_base.h"
#include "planning/next_check.h"

namespace dryout::casework {

struct Hazard {
  planning::Danger danger = planning::Danger::none;
  /// Those of the check first, then those the place calls for.
  std::vector<const knowledge::Caution*> cautions;
  [[nodiscard]] bool dangerous() const { return danger != planning::Danger::none; }
};

/// The finding must be one of a check.
[[nodiscard]] Hazard hazard_of(const Ground& ground, diagnosis::KnownFinding finding);

/// "none", "stored-charge", "mains", "high-tension"; any other word is none.
[[nodiscard]] planning::Danger danger_of(std::string_view word);

/// The block a finding's place lies in, and the rails at it; the set itself has neither.
struct Whereabouts {
  const knowledge::Block* block = nullptr;
  std::vector<const knowledge::Rail*> rails;
};
[[nodiscard]] Whereabouts whereabouts_of(const Ground& ground,
                                         const diagnosis::CompiledFinding& finding);

}  // namespace dryout::casework
