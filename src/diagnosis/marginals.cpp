#include "diagnosis/marginals.h"

#include <algorithm>

namespace dryout::diagnosis {
namespace {

template <class Real>
void find_levels(const ExplainedSetSweep<Real>& sweep, Marginals<Real>& marginals) {
  const FoldedEvidence& folded = sweep.folded();
  for (std::size_t c = 0; c < folded.level_weight.size(); ++c) {
    const Index block = sweep.plan().block_of_cohort[c];
    if (block != none) {
      marginals.level.push_back(sweep.level_values(block));
      continue;
    }
    std::vector<Real> values;
    for (const long double weight : folded.level_weight[c]) {
      values.push_back(static_cast<Real>(weight));
    }
    marginals.level.push_back(std::move(values));
  }
}

template <class Real>
void find_chances(const FoldedEvidence& folded, Marginals<Real>& marginals) {
  marginals.chance.reserve(folded.weight.size());
  for (Index item = 0; item < folded.network->items.size(); ++item) {
    for (Index level = 0; level < folded.levels(item); ++level) {
      const long double total = folded.total[folded.first_total[item] + level];
      const long double scale = total == 0.0L ? 0.0L : 1.0L / total;
      for (Index state = 0; state < folded.states(item); ++state) {
        marginals.chance.push_back(static_cast<Real>(folded.weights(item, level)[state] * scale));
      }
    }
  }
}

template <class Real>
void find_cold_states(const FoldedEvidence& folded, Index item, Marginals<Real>& marginals) {
  Real* const values = &marginals.state[marginals.first_state[item]];
  const auto& cohort = folded.network->items[item].cohort;
  for (Index level = 0; level < folded.levels(item); ++level) {
    const Real level_value = cohort ? marginals.level[*cohort][level] : Real{1};
    for (Index state = 0; state < folded.states(item); ++state) {
      values[state] += level_value * marginals.chances(folded, item, level)[state];
    }
  }
}

}  // namespace

template <class Real>
Marginals<Real> find_marginals(const ExplainedSetSweep<Real>& sweep) {
  const FoldedEvidence& folded = sweep.folded();
  const auto item_count = static_cast<Index>(folded.network->items.size());
  Marginals<Real> marginals;
  marginals.first_state.push_back(0);
  for (Index item = 0; item < item_count; ++item) {
    marginals.first_state.push_back(marginals.first_state.back() + folded.states(item));
  }
  marginals.state.assign(marginals.first_state.back(), Real{0});
  find_levels(sweep, marginals);
  find_chances(folded, marginals);
  for (Index item = 0; item < item_count; ++item) {
    if (folded.is_hot(item)) {
      const std::vector<Real> values = sweep.state_values(item);
      std::copy(values.begin(), values.end(), &marginals.state[marginals.first_state[item]]);
    } else {
      find_cold_states(folded, item, marginals);
    }
  }
  return marginals;
}

template Marginals<double> find_marginals(const ExplainedSetSweep<double>&);
template Marginals<long double> find_marginals(const ExplainedSetSweep<long double>&);

}  // namespace dryout::diagnosis
