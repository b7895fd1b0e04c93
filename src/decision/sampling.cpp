#include "decision/sampling.h"

#include <cmath>

#include "quantities/check.h"

namespace dryout::decision {
namespace {

struct Bounds {
  double recap;  ///< log ratio at or above: the batch has gone
  double clear;  ///< at or below: it may stay
};

Bounds bounds(const SamplingPlan& plan) {
  CHECK(plan.bad_share_sound > 0.0);
  CHECK(plan.bad_share_gone > plan.bad_share_sound);
  CHECK(plan.bad_share_gone < 1.0);
  return {std::log((1.0 - plan.false_clear) / plan.false_recap),
          std::log(plan.false_clear / (1.0 - plan.false_recap))};
}

double step_bad(const SamplingPlan& plan) {
  return std::log(plan.bad_share_gone / plan.bad_share_sound);
}
double step_good(const SamplingPlan& plan) {
  return std::log((1.0 - plan.bad_share_gone) / (1.0 - plan.bad_share_sound));
}

}  // namespace

Advice advise(const SamplingPlan& plan, std::size_t measured, std::size_t bad,
              std::size_t cohort_size) {
  CHECK(bad <= measured);
  CHECK(measured <= cohort_size);
  const Bounds limit = bounds(plan);
  const double ratio = static_cast<double>(bad) * step_bad(plan) +
                       static_cast<double>(measured - bad) * step_good(plan);
  if (ratio >= limit.recap) {
    return Advice::recap;
  }
  if (ratio <= limit.clear) {
    return Advice::clear;
  }
  if (measured < cohort_size) {
    return Advice::measure_another;
  }
  return ratio > 0.0 ? Advice::recap : Advice::clear;
}

std::size_t good_to_clear(const SamplingPlan& plan) {
  return static_cast<std::size_t>(std::ceil(bounds(plan).clear / step_good(plan)));
}

std::size_t bad_to_recap(const SamplingPlan& plan) {
  return static_cast<std::size_t>(std::ceil(bounds(plan).recap / step_bad(plan)));
}

double expected_measured(const SamplingPlan& plan, double share) {
  const Bounds limit = bounds(plan);
  const double drift = share * step_bad(plan) + (1.0 - share) * step_good(plan);
  // Wald's formula at the two design points; between them the walk is nearly driftless there and
  // the variance form takes over.
  const auto at = [&](double accept_recap) {
    return (accept_recap * limit.recap + (1.0 - accept_recap) * limit.clear) / drift;
  };
  if (share <= plan.bad_share_sound) {
    return at(plan.false_recap);
  }
  if (share >= plan.bad_share_gone) {
    return at(1.0 - plan.false_clear);
  }
  const double square =
      share * step_bad(plan) * step_bad(plan) + (1.0 - share) * step_good(plan) * step_good(plan);
  return -limit.recap * limit.clear / square;
}

}  // namespace dryout::decision
