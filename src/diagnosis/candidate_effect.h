// A finding that is only being considered, seen from the folded network: through which steps and
// which cohorts its causes act. "Shown" means that some cause (or the leak) made it present.
#pragma once

#include <vector>

#include "diagnosis/step_tables.h"

namespace dryout::diagnosis {

/// Chances that something did not, and did, show the candidate. Both are carried, because taking
/// one from the other would cancel digits.
template <class Real>
struct Shown {
  Real no{1};
  Real yes{0};
};

/// Not shown by either, shown by at least one.
template <class Real>
[[nodiscard]] Shown<Real> either(const Shown<Real>& a, const Shown<Real>& b) {
  return {a.no * b.no, a.yes + a.no * b.yes};
}

/// Causes among the cold items of one cohort, or one cold item without cohort.
template <class Real>
struct ColdEffect {
  Index cohort = none;
  std::vector<ItemStrengths> items;   ///< in ascending order
  std::vector<Shown<Real>> at_level;  ///< by all of these items together
};

/// What changes inside one step.
struct StepEffect {
  Index step = 0;
  std::vector<const ItemStrengths*> hot;  ///< causes among the step's own items
  Index cold = none;                      ///< index of the ColdEffect on its levels
};

template <class Real>
struct CandidateEffect {
  Shown<Real> leak;
  std::vector<ItemStrengths> hot;
  std::vector<ColdEffect<Real>> cold;
  std::vector<StepEffect> steps;  ///< in order of the sweep
};

/// By one item in one state, all its causes taken together.
template <class Real>
[[nodiscard]] Shown<Real> shown_by(const ItemStrengths& item, Index state);

/// By one cold item, whatever state it is in, at a level.
template <class Real>
[[nodiscard]] Shown<Real> shown_by_item(const FoldedEvidence& folded, const ItemStrengths& item,
                                        Index level);

/// The result points into itself: neither copy nor move it.
template <class Real>
void find_effect(const FoldedEvidence& folded, const SweepPlan& plan, Index finding,
                 CandidateEffect<Real>& effect);

}  // namespace dryout::diagnosis
