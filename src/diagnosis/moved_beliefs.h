// Turns a candidate's sweep into normalised beliefs of the items it moves.
#pragma once

#include "diagnosis/candidate_sweep.h"
#include "diagnosis/held_candidate.h"
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

/// `Candidate` is a CandidateSweep or a HeldCandidate.
template <class Real, class Candidate>
[[nodiscard]] MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<Real>& sweep,
                                              const Marginals<Real>& now, const ItemGroups& groups,
                                              Candidate& candidate);

}  // namespace dryout::diagnosis
