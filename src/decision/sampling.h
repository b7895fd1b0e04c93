// The preventive job: how many of a cohort to measure before it is recapped or cleared. Wald's
// sequential probability ratio test (Sequential Analysis, 1947): after each part the log ratio of
// "this batch has gone" to "this batch is sound" moves, and the test stops as soon as either error
// bound allows it. Fixed sampling of the same strength needs about twice as many parts.
#pragma once

#include <cstddef>

namespace dryout::decision {

struct SamplingPlan {
  double bad_share_sound = 0.05;  ///< share out of limit in a batch that may stay
  double bad_share_gone = 0.40;   ///< share out of limit in a batch to be replaced
  double false_recap = 0.05;      ///< P(recap | batch sound), alpha
  double false_clear = 0.10;      ///< P(clear | batch gone), beta
};

enum class Advice { measure_another, clear, recap };

/// What to do after so many bad ones among so many measured; all parts measured settles it by
/// count.
[[nodiscard]] Advice advise(const SamplingPlan& plan, std::size_t measured, std::size_t bad,
                            std::size_t cohort_size);

/// Good ones in a row that clear a batch in which none is bad; bad ones in a row that condemn it.
[[nodiscard]] std::size_t good_to_clear(const SamplingPlan& plan);
[[nodiscard]] std::size_t bad_to_recap(const SamplingPlan& plan);

/// Mean number measured until a cohort of that size is settled, when the share of bad ones is
/// `share`: exact, by summing over all walks (parts taken as independent).
[[nodiscard]] double expected_measured(const SamplingPlan& plan, double share,
                                       std::size_t cohort_size);

}  // namespace dryout::decision
