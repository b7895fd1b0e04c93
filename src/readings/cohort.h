// Brothers: parts of one type, value, volts and make, read with the same meter. They share the
// type's typical resistance (unknown) and the ageing level of their cohort (unknown); both are
// inferred jointly, on a grid, exactly. One good brother lowers the others' suspicion, one bad one
// raises it, and three alike move the limit itself when that was only believed.
#pragma once

#include <vector>

#include "readings/likelihood.h"

namespace dryout::readings {

struct Brother {
  double value = 0.0;             ///< as corrected
  std::vector<double> posterior;  ///< P(state | all readings)
  double times_median = 1.0;      ///< against the median of the others
  bool outlier = false;           ///< hardly to be expected from the others, and twice off them
  /// What this brother's reading does to the first part's odds of not being sound, in decibans.
  double weight_on_first = 0.0;
};

/// Who reads at least so many times the median of the others stands off them (judgement).
inline constexpr double outlier_times = 2.0;

/// A reading against the median of the others (of itself, where there are none).
[[nodiscard]] double times_median_of_others(const std::vector<double>& values, std::size_t which);

struct CohortAssessment {
  std::vector<Brother> brothers;    ///< in the order given; the first is the part asked about
  std::vector<double> levels;       ///< P(ageing level | all readings)
  double typical_factor = 1.0;      ///< posterior mean of exp(shared), geometric
  double typical_log_spread = 0.0;  ///< posterior standard deviation of `shared`
  /// P(first reading | level, state) once the others have told of their type. Each level as a whole
  /// weighs what the reading alone gives it: the others' own readings speak of the level.
  std::vector<std::vector<double>> likelihood;
};

/// All readings of one type under one belief about its limit. At least one.
[[nodiscard]] CohortAssessment assess_cohort(const std::vector<EsrEvidence>& readings,
                                             const std::vector<double>& values,
                                             const Priors& priors);

}  // namespace dryout::readings
