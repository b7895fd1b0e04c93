// Exact posteriors of a fault network, by a sweep that never subtracts.
//
// The state of the sweep is the set of positive (and soft) findings already explained; every term
// is a sum of products of non-negative numbers, so no digits cancel whatever the strengths. Time
// O(levels * links to positive findings * 2^p), memory O((cohorts + items per cohort) * 2^p) with p
// positive and soft findings. There is no sampling and no approximation in here.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "diagnosis/candidate_twins.h"
#include "diagnosis/item_beliefs.h"
#include "diagnosis/network.h"
#include "quantities/probability.h"
#include "quantities/result.h"

namespace dryout::diagnosis {

struct Posterior {
  double log_evidence = 0.0;                 ///< natural log of P(evidence)
  std::vector<std::vector<double>> items;    ///< [item][state]
  std::vector<std::vector<double>> cohorts;  ///< [cohort][level]
  std::vector<double> findings;              ///< P(present | evidence); 1 or 0 where hard
};

/// All marginals given the evidence. Evidence of probability zero is a Problem whose message names
/// a smallest contradictory set by the ids of its parts. Both arguments must have passed check().
[[nodiscard]] quantities::Result<Posterior> infer(const Network& network, const Evidence& evidence);

/// A smallest set of pieces of evidence that cannot all be true, as readable labels ("hum present",
/// "reading of C1"). Empty where the evidence is possible.
[[nodiscard]] std::vector<std::string> smallest_contradiction(const Network& network,
                                                              const Evidence& evidence);

/// What a yes/no check on one finding would say, and what would then be believed.
struct Outlook {
  std::size_t finding = 0;
  double present = 0.0;          ///< P(finding present | evidence)
  ItemBeliefs items_if_present;  ///< [item][state]; empty where impossible
  ItemBeliefs items_if_absent;
  /// The outlook of which this is the image, where there is one (candidate_twins.h).
  std::optional<CandidateTwin> twin;
  /// The items that either outcome can move; all others stay as they are now.
  [[nodiscard]] std::vector<std::size_t> moved() const {
    return items_if_present.empty() ? items_if_absent.moved() : items_if_present.moved();
  }
};

/// How good the figures are: exact, or averages over draws (posterior_draws.h).
struct Precision {
  std::size_t draws = 0;      ///< 0 = exact
  std::size_t set_aside = 0;  ///< findings that the draws make up for by their weights
  /// Half-width within which the truth of the widest figure lies 99 times in a hundred.
  double within = 0.0;
  [[nodiscard]] bool exact() const { return draws == 0; }
};

/// Can be moved, not copied: the outlooks look through to `now` and `groups`.
struct Foresight {
  Posterior now;
  std::vector<Outlook> outlooks;  ///< one per candidate, in the order asked
  std::unique_ptr<const ItemGroups> groups;
  Precision precision;
};

/// One query for everything a planner needs: posteriors now, and for every candidate finding its
/// outcome probabilities and the posteriors after each outcome.
[[nodiscard]] quantities::Result<Foresight> infer_with_outlook(
    const Network& network, const Evidence& evidence, std::span<const std::size_t> candidates);

/// How far each piece of evidence moves each item's "not sound", leave one out:
///   weight[e][i] = dB(odds of not sound with everything) - dB(odds without piece e)
/// Pieces in the order present, absent, soft, readings.
struct EvidenceWeights {
  std::vector<std::string> pieces;                        ///< readable label of each piece
  std::vector<std::vector<quantities::Decibans>> weight;  ///< [piece][item]
};
[[nodiscard]] quantities::Result<EvidenceWeights> leave_one_out(const Network& network,
                                                                const Evidence& evidence);

}  // namespace dryout::diagnosis
