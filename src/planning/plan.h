// Plans for a bare troubleshooting problem: the exact optimum, ours, and the plain orders that
// people use, each as a policy tree with its exact expected cost.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <memory>
#include <string_view>
#include <vector>

#include "documents/parse.h"
#include "planning/troubleshooting_problem.h"
#include "quantities/result.h"

namespace dryout::planning {

enum class Policy {
  ours,                   ///< look_ahead.h: exact where the problem is small, else near it
  look_ahead,             ///< the same without its exact search: the heuristic alone
  optimal,                ///< exact_optimum.h; refused where the table would grow too large
  probability_over_cost,  ///< repairs only, p/C with the access still closed, weighed again each
                          ///< time
  probability_first,      ///< repairs only, the likeliest fault first
  information_gain,       ///< the check with most bits a minute while any informs, then p/C
  fixed_order             ///< repairs only, as printed in the problem
};
inline constexpr std::array<Policy, 7> policies{Policy::ours,
                                                Policy::look_ahead,
                                                Policy::optimal,
                                                Policy::probability_over_cost,
                                                Policy::probability_first,
                                                Policy::information_gain,
                                                Policy::fixed_order};
/// "ours", "look-ahead", "optimal", "probability-over-cost"...
[[nodiscard]] std::string_view name_of(Policy policy);

/// One step of a policy and what follows each of its outcomes.
struct Step {
  enum class Kind { check, repair, give_up };
  Kind kind = Kind::give_up;
  std::size_t index = 0;                    ///< of the check or repair
  std::vector<std::unique_ptr<Step>> then;  ///< check: per outcome; repair: [still faulty]; null =
                                            ///< cannot happen
};

struct Plan {
  double expected_minutes = 0.0;  ///< exact expectation of this very tree
  std::unique_ptr<Step> first;
};

/// Plans the problem. Every policy gives up where going on with its own plan would cost more.
/// Refused (a Problem) where the exact optimum would take too much work (known beforehand from the
/// size of the problem) or `keep_on`, asked now and then while it is looked for, says no; or where
/// the policy tree would have more than a million nodes.
[[nodiscard]] quantities::Result<Plan> plan(const TroubleshootingProblem& problem, Policy policy,
                                            const std::function<bool()>& keep_on = {});

/// The exact expectation of any policy tree, by walking it: used to check the planners. The tree
/// must have an answer to everything that can happen.
[[nodiscard]] double expected_minutes(const TroubleshootingProblem& problem, const Step& first);

/// Strict: unknown members and ids, cycles of access, outcome rows that do not sum to 1, numbers
/// out of range and sizes beyond TroubleshootingProblem's are refused. Priors and rows are
/// rescaled.
[[nodiscard]] quantities::Result<TroubleshootingProblem> read_problem(
    const documents::Document& document);

/// {"expected_minutes": m, "policy": NODE}; NODE is {"do": id, "then": {outcome: NODE or null}},
/// {"do": id, "then": {"still-faulty": NODE or null}} or {"do": "give-up"}.
[[nodiscard]] documents::Value to_json(const TroubleshootingProblem& problem, const Plan& plan);

}  // namespace dryout::planning
