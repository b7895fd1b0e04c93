// The inside of one step: how likely its items explain each subset of the step's findings, in total
// and with one item held in one state. All of it lives in the 2^k subsets of the step's own k
// findings, however many others are open.
#pragma once

#include <vector>

#include "diagnosis/sweep_plan.h"

namespace dryout::diagnosis {

/// Strength with which a state of one item shows a finding that is only being considered.
struct StateStrength {
  Index state = 0;
  double strength = 0.0;
};
struct ItemStrengths {
  Index item = 0;
  std::vector<StateStrength> states;
};

/// Tables per level l. With a candidate finding the local state has one more, lowest bit: whether
/// an item of the step already showed the candidate; `size` is then 2^(k + 1), else 2^k.
template <class Real>
struct StepTables {
  Index levels = 1;
  Index size = 1;
  std::vector<Real> total;  ///< [level][size]
  std::vector<Real> rows;   ///< [row][level][size]; a row is one state of one item of the step

  [[nodiscard]] const Real* total_at(Index level) const { return &total[level * size]; }
  [[nodiscard]] const Real* row_at(Index row, Index level) const {
    return &rows[(row * levels + level) * size];
  }
};

/// `candidate` holds the items of this step that can show it; null for none at all.
template <class Real>
[[nodiscard]] StepTables<Real> tabulate(const FoldedEvidence& folded, const SweepPlan& plan,
                                        const Step& step,
                                        const std::vector<const ItemStrengths*>* candidate);

/// The same, in the worlds where an item of the step is in that state.
template <class Real>
[[nodiscard]] StepTables<Real> tabulate_held(const FoldedEvidence& folded, const SweepPlan& plan,
                                             const Step& step, Index item, Index state);

/// For each item of a step that is no wide one, as its rows taken together, but counting only the
/// worlds in which the item makes none of the marked shared findings present: [item][level][size].
template <class Real>
[[nodiscard]] std::vector<Real> tabulate_without_doing(const FoldedEvidence& folded,
                                                       const SweepPlan& plan, const Step& step,
                                                       const std::vector<bool>& marked);

/// Kernel of a step from the table of what it explains, or of each lane from that of each lane, one
/// after the other. `width` values lie side by side per local state and are carried along.
template <class Real>
[[nodiscard]] std::vector<Real> to_kernel(const FoldedEvidence& folded, const Step& step,
                                          std::vector<Real> table, Index width);

/// The transpose of to_kernel: from values per lane and kernel entry to values per lane and local
/// state.
/// `only_present`: count only the outcomes in which that leaving finding is present.
template <class Real>
[[nodiscard]] std::vector<Real> from_kernel(const FoldedEvidence& folded, const Step& step,
                                            std::vector<Real> entries, Index only_present = none);

}  // namespace dryout::diagnosis
