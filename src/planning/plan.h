// Plans for a bare troubleshooting problem: the exact optimum, ours, and the classic order of
// probability over cost, each as a policy tree with its exact expected cost.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "documents/parse.h"
#include "planning/troubleshooting_problem.h"
#include "quantities/result.h"

namespace dryout::planning {

enum class Policy { ours, optimal, probability_over_cost };

/// One step of a policy and what follows each of its outcomes.
struct Step {
  enum class Kind { check, repair, give_up };
  Kind kind = Kind::give_up;
  std::size_t index = 0;                  ///< of the check or repair
  std::vector<std::unique_ptr<Step>> then;  ///< check: per outcome; repair: [still faulty]; null =
                                            ///< cannot happen
};

struct Plan {
  double expected_minutes = 0.0;  ///< exact expectation of this very tree
  std::unique_ptr<Step> first;
};

/// Plans the problem. Refuses (a Problem) when the exact optimum would need too large a table.
[[nodiscard]] quantities::Result<Plan> plan(const TroubleshootingProblem& problem, Policy policy);

/// The exact expectation of any policy tree, by walking it: used to check the planners.
[[nodiscard]] double expected_minutes(const TroubleshootingProblem& problem, const Step& first);

[[nodiscard]] quantities::Result<TroubleshootingProblem> read_problem(
    const documents::Document& document);
[[nodiscard]] documents::Value to_json(const TroubleshootingProblem& problem, const Plan& plan);

}  // namespace dryout::planning
