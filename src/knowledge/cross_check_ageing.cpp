#include <cmath>
#include <numeric>
#include <string>

#include "knowledge/cross_check.h"
#include "knowledge/known_ids.h"

namespace dryout::knowledge {

using quantities::Place;
using quantities::Problems;

Problems broken_ageing(const Ageing& ageing) {
  Problems problems;
  constexpr double sum_tolerance = 1e-6;
  double before = 0.0;
  for (std::size_t s = 0; s < ageing.steps.size(); ++s) {
    const Ageing::Step& step = ageing.steps[s];
    const Place place = within(ageing.place, "/steps/" + std::to_string(s));
    const double sum = std::accumulate(step.weights.begin(), step.weights.end(), 0.0);
    if (step.weights.size() != ageing.levels.size() || std::abs(sum - 1.0) > sum_tolerance) {
      problems.push_back(
          {"the weights of a step of age do not share out its parts", place,
           std::to_string(step.weights.size()) + " weights, sum " + std::to_string(sum),
           "one weight a level, summing to 1"});
    }
    if (step.age_years_max <= before) {
      problems.push_back({"steps of age out of order", place, std::to_string(step.age_years_max),
                          "rising \"age_years_max\""});
    }
    before = step.age_years_max;
  }
  if (ageing.levels.empty() || ageing.steps.empty()) {
    problems.push_back(
        {"no ageing levels", ageing.place, "", "rules/ageing.json with levels and steps"});
  }
  return problems;
}

}  // namespace dryout::knowledge
