#include "planning/look_ahead.h"

#include <algorithm>
#include <vector>

namespace dryout::planning {

Diligence Diligence::for_size_of(const TroubleshootingProblem& problem) {
  // One entry or horizon costs about faults x steps operations.
  const std::size_t operations =
      problem.faults.size() * (problem.repairs.size() + problem.checks.size() + 1);
  constexpr std::size_t exact_operations = 50'000'000;
  constexpr std::size_t horizon_operations = 200'000'000;
  constexpr std::size_t horizons_least = 500;
  Diligence diligence;
  diligence.exact_table_max = std::min(diligence.exact_table_max, exact_operations / operations);
  diligence.horizons_max =
      std::min(diligence.horizons_max, horizons_least + horizon_operations / operations);
  return diligence;
}

Action LookAhead::choose(const Situation& at) {
  if (const auto exact = choose_exactly(at)) {
    return *exact;
  }
  return ahead(at, diligence_.depth).first;
}

std::optional<Action> LookAhead::choose_exactly(const Situation& at) {
  const std::size_t used = exact_.table_size();
  // The first step may use up the whole allowance: if the root is solved, everything is.
  const std::size_t table_max =
      first_step_ ? diligence_.exact_table_max
                  : std::min(used + diligence_.exact_per_step, 2 * diligence_.exact_table_max);
  first_step_ = false;
  const auto solved = exact_.solve(at, table_max);
  return solved ? std::optional(solved->action) : std::nullopt;
}

Course LookAhead::tail(const Situation& at) {
  std::string key = space_->key(at);
  if (const auto known = tails_.find(key); known != tails_.end()) {
    return known->second;
  }
  const Course course = repairs_in_order(*space_, at, OrderBy::clusters);
  tails_.emplace(std::move(key), course);
  return course;
}

double LookAhead::after(const Situation& at, Action action, int depth) {
  double minutes = space_->cost(at, action);
  for (const Branch& branch : space_->follow(at, action)) {
    minutes += branch.probability * ahead(branch.situation, depth).minutes;
  }
  return minutes;
}

Course LookAhead::ahead(const Situation& at, int depth) {
  Course best = tail(at);
  if (depth == 0) {
    return best;
  }
  if (tails_.size() >= diligence_.horizons_max) {
    depth = 1;
  }
  std::vector<Course> steps;
  for (const Action action : space_->actions(at)) {
    steps.push_back({after(at, action, 0), action});
  }
  std::stable_sort(steps.begin(), steps.end(),
                   [](const Course& a, const Course& b) { return a.minutes < b.minutes; });
  if (depth > 1 && steps.size() > diligence_.best_few) {
    steps.resize(diligence_.best_few);
  }
  for (Course& step : steps) {
    if (depth > 1) {
      step.minutes = after(at, step.first, depth - 1);
    }
    if (step.minutes < best.minutes) {
      best = step;
    }
  }
  return best;
}

}  // namespace dryout::planning
