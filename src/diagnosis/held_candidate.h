// A check that looks at one thing only within the sweep, one hot item or cold items of one cohort:
// both its outcomes are weighted sums over the ways in which that thing was held (held_sweep.h).
// Reads like CandidateSweep.
#pragma once

#include <optional>
#include <vector>

#include "diagnosis/candidate_sweep.h"
#include "diagnosis/held_sweep.h"

namespace dryout::diagnosis {

/// What must be held for the candidate; nothing where it looks at more, or at nothing.
template <class Real>
[[nodiscard]] std::optional<Held> held_for(const FoldedEvidence& folded,
                                           const CandidateEffect<Real>& effect);

template <class Real>
class HeldCandidate : public CandidateOdds<Real> {
 public:
  /// All must outlive the candidate; `held` holds what held_for said.
  HeldCandidate(const ExplainedSetSweep<Real>& sweep, const HeldSweep<Real>& held,
                const CandidateEffect<Real>& effect);

  void extend() {}
  [[nodiscard]] Index moved_begin() const { return held_.begin(); }
  [[nodiscard]] Index moved_end() const { return held_.end(); }

  struct NoFit {};
  [[nodiscard]] NoFit fit(Index) const { return {}; }
  [[nodiscard]] Outcomes<Real> row(Index t, Index row, NoFit) const;
  [[nodiscard]] Outcomes<Real> level(Index t, Index level, NoFit) const;

 private:
  [[nodiscard]] Outcomes<Real> weigh(const Real* ways) const;

  using CandidateOdds<Real>::by_sweep_;
  const HeldSweep<Real>& held_;
  bool by_cohort_;
  std::vector<Shown<Real>> shown_;  ///< per way
};

}  // namespace dryout::diagnosis
