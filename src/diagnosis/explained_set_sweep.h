// The sweep over all steps, forward and backward, and what it knows when it is through: for each
// step how every way of explaining its findings fits the rest of the evidence.
#pragma once

#include <vector>

#include "diagnosis/step_tables.h"

namespace dryout::diagnosis {

template <class Real>
class ExplainedSetSweep {
 public:
  /// Both must outlive the sweep.
  ExplainedSetSweep(const FoldedEvidence& folded, const SweepPlan& plan);

  /// Evidence of probability zero, as far as Real can tell.
  [[nodiscard]] bool impossible() const { return impossible_; }
  /// False where intermediate values span so many decades that some may have been lost below the
  /// smallest Real: then the answer must not be used.
  [[nodiscard]] bool in_range() const { return in_range_; }
  [[nodiscard]] double log_evidence() const { return evidence_.log(); }

  [[nodiscard]] const FoldedEvidence& folded() const { return folded_; }
  [[nodiscard]] const SweepPlan& plan() const { return plan_; }

  /// P(evidence so far, explained set) before step t, scaled; and P(later evidence | explained set)
  /// from there on. Their product summed is the same at every t.
  [[nodiscard]] const std::vector<Real>& before(std::size_t t) const { return before_[t]; }
  [[nodiscard]] const std::vector<Real>& after(std::size_t t) const { return after_[t]; }

  struct StepResult {
    StepTables<Real> tables;
    std::vector<Real> rows;      ///< [row][lane][size]: tables.rows, levels mixed if not carried
    std::vector<Real> forward;   ///< kernel coefficients, scaled, in forward order
    std::vector<Real> backward;  ///< and in backward order
    Real scale{1};
    std::vector<Real> fit;  ///< [lane][size]: what the rest makes of each local state
  };
  [[nodiscard]] const StepResult& step(std::size_t t) const { return steps_[t]; }

  /// Unscaled-by-Z joint weights: [level] of a block, [state] of a hot item.
  [[nodiscard]] std::vector<Real> level_values(Index block) const;
  [[nodiscard]] std::vector<Real> state_values(Index item) const;
  /// P(present | evidence) of a shared finding.
  [[nodiscard]] Real present(Index shared) const;

 private:
  void prepare(std::size_t t);
  void go_forward();
  void go_backward();
  void meet_all();

  const FoldedEvidence& folded_;
  const SweepPlan& plan_;
  ScaledProduct evidence_;
  bool impossible_ = false;
  bool in_range_ = true;
  std::vector<StepResult> steps_;
  std::vector<std::vector<Real>> before_;
  std::vector<std::vector<Real>> after_;
};

/// sum of a[k] * b[k]
template <class Real>
[[nodiscard]] Real dot(const Real* a, const Real* b, std::size_t size) {
  Real sum{0};
  for (std::size_t k = 0; k < size; ++k) {
    sum += a[k] * b[k];
  }
  return sum;
}

}  // namespace dryout::diagnosis
