#include <cmath>

#include "diagnosis/inference.h"

namespace dryout::diagnosis {
namespace {

/// Odds of "not sound" in decibans; infinite where it is certain either way.
double odds_decibans(const std::vector<double>& states) {
  double not_sound = 0.0;
  for (std::size_t state = 1; state < states.size(); ++state) {
    not_sound += states[state];
  }
  return quantities::weight_of(not_sound / states.front()).value;
}

/// What the piece moved; nothing where it was certain before and stays so.
quantities::Decibans moved(double with, double without) {
  return {with == without ? 0.0 : with - without};
}

quantities::Result<Posterior> infer_items(const Network& network, const Evidence& evidence) {
  return with_sweep<Posterior>(network, evidence, [](const auto& sweep) {
    return posterior_of(sweep, find_marginals(sweep), false);
  });
}

}  // namespace

quantities::Result<EvidenceWeights> leave_one_out(const Network& network,
                                                  const Evidence& evidence) {
  const quantities::Result<Posterior> full = infer_items(network, evidence);
  if (!full) {
    return full.problems();
  }
  EvidenceWeights weights;
  weights.pieces = piece_labels(network, evidence);
  std::vector<bool> keep(weights.pieces.size(), true);
  for (std::size_t piece = 0; piece < keep.size(); ++piece) {
    keep[piece] = false;
    const quantities::Result<Posterior> without = infer_items(network, selection(evidence, keep));
    keep[piece] = true;
    if (!without) {
      return without.problems();
    }
    std::vector<quantities::Decibans>& row = weights.weight.emplace_back();
    for (std::size_t item = 0; item < network.items.size(); ++item) {
      row.push_back(moved(odds_decibans(full->items[item]), odds_decibans(without->items[item])));
    }
  }
  return weights;
}

}  // namespace dryout::diagnosis
