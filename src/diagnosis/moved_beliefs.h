// Turns a candidate's sweep into normalised beliefs of the items it moves.
#pragma once

#include "diagnosis/candidate_sweep.h"
#include "diagnosis/item_beliefs.h"
#include "diagnosis/marginals.h"

namespace dryout::diagnosis {

/// The groups in which candidates move items: pieces of the sweep (with the cold members of their
/// cohorts), cold cohorts, lone cold items.
[[nodiscard]] ItemGroups group_items(const FoldedEvidence& folded, const SweepPlan& plan);

/// Both outcomes, laid out alike. The values of an impossible outcome mean nothing.
struct MovedBeliefs {
  std::vector<ItemBeliefs::MovedGroup> groups;
  std::vector<double> if_absent;
  std::vector<double> if_present;
};

template <class Real>
[[nodiscard]] MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<Real>& sweep,
                                              const Marginals<Real>& now, const ItemGroups& groups,
                                              CandidateSweep<Real>& candidate);

}  // namespace dryout::diagnosis
