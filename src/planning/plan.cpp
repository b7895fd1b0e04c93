#include "planning/plan.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planning/exact_optimum.h"
#include "planning/look_ahead.h"
#include "planning/policy_tree.h"
#include "planning/repair_order.h"
#include "quantities/check.h"
#include "quantities/printed_number.h"

namespace dryout::planning {
namespace {

using quantities::Problem;
using quantities::Result;

constexpr std::size_t tree_nodes_max = 1'000'000;
constexpr std::size_t exact_table_max = 1'000'000;
constexpr std::size_t thorough_nodes_max = 50'000;  ///< beyond, heuristics go on with repairs only

double entropy_bits(const std::vector<double>& weights) {
  double bits = 0.0;
  for (const double w : weights) {
    bits -= w > 0.0 ? w * std::log2(w) : 0.0;
  }
  return bits;
}

/// The check with the most expected bits a minute, or the next repair where none informs.
Action most_informative(const SituationSpace& space, const Situation& at) {
  Action best;
  double best_rate = 0.0;
  for (const Action action : space.actions(at)) {
    if (action.kind != Step::Kind::check) {
      continue;
    }
    double bits = entropy_bits(at.weights);
    for (const Branch& branch : space.follow(at, action)) {
      bits -= branch.probability * entropy_bits(branch.situation.weights);
    }
    constexpr double minutes_least = 1e-9;  // a check for nothing is still compared by its bits
    const double rate = bits / std::max(space.cost(at, action), minutes_least);
    if (rate > best_rate) {
      best = action;
      best_rate = rate;
    }
  }
  return best_rate > 0.0 ? best : repairs_in_order(space, at, OrderBy::probability_over_cost).first;
}

Choose in_order(const SituationSpace& space, OrderBy order) {
  return [&space, order](const Situation& at) { return repairs_in_order(space, at, order).first; };
}

/// Leaves a way of choosing for plain repairs once it has been asked too often, so that the tree
/// stays of a size to print.
Choose while_affordable(const SituationSpace& space, Choose choose) {
  return [&space, choose = std::move(choose), asked = std::size_t{0}](const Situation& at) mutable {
    return ++asked <= thorough_nodes_max ? choose(at)
                                         : repairs_in_order(space, at, OrderBy::clusters).first;
  };
}

Choose chooser(const SituationSpace& space, Policy policy, ExactOptimum& exact, LookAhead& ours) {
  switch (policy) {
    case Policy::ours:
    case Policy::look_ahead:
      return while_affordable(space, [&ours](const Situation& at) { return ours.choose(at); });
    case Policy::information_gain:
      return while_affordable(
          space, [&space](const Situation& at) { return most_informative(space, at); });
    case Policy::probability_over_cost:
      return in_order(space, OrderBy::probability_over_cost);
    case Policy::probability_first:
      return in_order(space, OrderBy::probability);
    case Policy::fixed_order:
      return in_order(space, OrderBy::printed);
    case Policy::optimal:
      break;
  }
  return [&exact](const Situation& at) {
    // All that an optimal plan can meet is in the table already; no limit is needed any more.
    const auto solved = exact.solve(at, std::numeric_limits<std::size_t>::max());
    CHECK(solved.has_value());
    return solved->action;
  };
}

/// Situations of the exact search that are worth beginning: one costs about faults x steps x steps
/// operations, for every step that bounds it weighs all steps that may follow.
std::size_t exact_entries_affordable(const TroubleshootingProblem& problem) {
  constexpr double operations_max = 2.0e10;
  const double steps = static_cast<double>(problem.repairs.size() + problem.checks.size()) + 1.0;
  const double each = static_cast<double>(problem.faults.size()) * steps * steps;
  return static_cast<std::size_t>(
      std::clamp(operations_max / each, 1000.0, static_cast<double>(exact_table_max)));
}

/// "up to 4e+12 situations": repairs done or not, checks not made or with one of their outcomes.
std::string situations_of(const TroubleshootingProblem& problem) {
  double log10 =
      static_cast<double>(problem.repairs.size() + problem.access.size()) * std::log10(2.0);
  for (const Check& check : problem.checks) {
    log10 += std::log10(1.0 + static_cast<double>(check.outcomes.size()));
  }
  return "up to 10^" + quantities::whole_number(log10) + " situations";
}

Problem too_large(std::string what, std::string limit) {
  return {std::move(what),
          {},
          "more than " + std::move(limit),
          "fewer checks, repairs or access steps, or --policy ours"};
}

}  // namespace

std::string_view name_of(Policy policy) {
  switch (policy) {
    case Policy::ours:
      return "ours";
    case Policy::look_ahead:
      return "look-ahead";
    case Policy::optimal:
      return "optimal";
    case Policy::probability_over_cost:
      return "probability-over-cost";
    case Policy::probability_first:
      return "probability-first";
    case Policy::information_gain:
      return "information-gain";
    case Policy::fixed_order:
      break;
  }
  return "fixed-order";
}

Result<Plan> plan(const TroubleshootingProblem& problem, Policy policy,
                  const std::function<bool()>& keep_on) {
  const SituationSpace space(problem);
  ExactOptimum exact(space);
  Diligence diligence = Diligence::for_size_of(problem);
  if (policy == Policy::look_ahead) {
    diligence.exact_table_max = 0;
    diligence.exact_per_step = 0;
  }
  LookAhead ours(space, diligence);
  if (policy == Policy::optimal) {
    const std::size_t affordable = exact_entries_affordable(problem);
    if (!exact.solve(space.start(), affordable, keep_on)) {
      return too_large("the exact optimum takes too much work for this problem, which has " +
                           situations_of(problem),
                       std::to_string(exact.table_size()) + " of them solved without an end");
    }
  }
  Plan plan;
  plan.first = grow(space, chooser(space, policy, exact, ours), tree_nodes_max);
  if (plan.first == nullptr) {
    return too_large("the policy is too large to be written down as a tree",
                     std::to_string(tree_nodes_max) + " steps");
  }
  give_up_in_time(space, space.start(), *plan.first);
  plan.expected_minutes = expected_minutes(problem, *plan.first);
  return plan;
}

}  // namespace dryout::planning
