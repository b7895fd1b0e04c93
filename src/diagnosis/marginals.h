// Joint weights of every level and state with all the evidence, before they are normalised: the
// common ground of posteriors and outlooks.
#pragma once

#include <vector>

#include "diagnosis/explained_set_sweep.h"

namespace dryout::diagnosis {

/// Within one step of the sweep (its items, and the cold members of the cohort it opens) all values
/// carry the same factor; so do those of one cold cohort.
template <class Real>
struct Marginals {
  std::vector<Index> first_state;        ///< per item and one past the end
  std::vector<Real> state;               ///< [first_state[item] + state]
  std::vector<std::vector<Real>> level;  ///< [cohort][level]
  /// Laid out as FoldedEvidence::weight: each state's chance given the level, all evidence on the
  /// item itself included. Rows of zeros where the item rules the level out.
  std::vector<Real> chance;

  [[nodiscard]] const Real* chances(const FoldedEvidence& folded, Index item,
                                    Index at_level) const {
    return &chance[folded.first_weight[item] + at_level * folded.states(item)];
  }
};

template <class Real>
[[nodiscard]] Marginals<Real> find_marginals(const ExplainedSetSweep<Real>& sweep);

/// Divides by the sum and rounds to double.
template <class Real>
void normalise_to(const Real* values, std::size_t count, double* out) {
  Real sum{0};
  for (std::size_t k = 0; k < count; ++k) {
    sum += values[k];
  }
  for (std::size_t k = 0; k < count; ++k) {
    out[k] = static_cast<double>(values[k] / sum);
  }
}

}  // namespace dryout::diagnosis
