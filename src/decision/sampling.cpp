#include "decision/sampling.h"

#include <cmath>
#include <utility>
#include <vector>

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

double expected_measured(const SamplingPlan& plan, double share, std::size_t cohort_size) {
  std::vector<double> walking{1.0};  // [bad so far] P(not settled yet)
  double mean = 0.0;
  for (std::size_t n = 1; n <= cohort_size; ++n) {
    std::vector<double> next(n + 1, 0.0);
    for (std::size_t bad = 0; bad < n; ++bad) {
      mean += walking[bad];
      next[bad] += walking[bad] * (1.0 - share);
      next[bad + 1] += walking[bad] * share;
    }
    for (std::size_t bad = 0; bad <= n; ++bad) {
      if (advise(plan, n, bad, cohort_size) != Advice::measure_another) {
        next[bad] = 0.0;
      }
    }
    walking = std::move(next);
  }
  return mean;
}

}  // namespace dryout::decision
