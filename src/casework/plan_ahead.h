// The whole plan from here as a tree for the novice: check this; if it looks bad then that, if good
// then the other; and what to mend at the ends. It says what step-by-step advice would say there.
#pragma once

#include <string>
#include <vector>

#include "casework/case_ground.h"
#include "casework/reasoning.h"
#include "quantities/probability.h"
#include "quantities/result.h"

namespace dryout::casework {

struct PlanStep {
  bool leaf = true;
  quantities::Probability reached;     ///< of standing here, given where the case stands now
  std::string check, place, title;     ///< of the check; title: "Ripple, +38 V rail"
  std::string suspect, suspect_title;  ///< most to blame here; at a leaf: look there, mend it
  quantities::Probability suspicion;   ///< that it is not sound
  std::vector<PlanStep> then;          ///< [0] looked bad, [1] looked good; empty at a leaf
};

/// `depth`: checks in a row, 1 to 6.
[[nodiscard]] quantities::Result<PlanStep> plan_ahead(const Ground& ground,
                                                      const Reasoning& reasoning, int depth);

}  // namespace dryout::casework
