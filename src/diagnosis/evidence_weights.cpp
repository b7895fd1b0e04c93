#include <algorithm>
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

/// Readings of items that no shared finding is linked to. Given its cohort's level such an item is
/// independent of all others, so that without the reading the level is believed otherwise, and
/// every other item as before at each level: some inferences a cohort serve all its readings.
class ColdReadings {
 public:
  ColdReadings(const Network& network, const Evidence& evidence, const Posterior& full)
      : network_(network),
        evidence_(evidence),
        full_(full),
        folded_(fold_evidence(network, evidence)),
        at_level_(network.cohorts.size()) {}

  /// The item is cold, and the reading rules nothing out.
  [[nodiscard]] bool take(const ItemReading& reading) const {
    const auto item = static_cast<Index>(reading.item);
    if (folded_.is_hot(item)) {
      return false;
    }
    for (const std::vector<double>& row : reading.likelihood) {
      for (const double likelihood : row) {
        if (!(likelihood > 0.0)) {
          return false;
        }
      }
    }
    return true;
  }

  /// Posteriors without the reading.
  [[nodiscard]] std::vector<std::vector<double>> without(const ItemReading& reading) {
    const auto item = static_cast<Index>(reading.item);
    const auto& cohort = network_.items[item].cohort;
    std::vector<double> levels(folded_.levels(item), 1.0);
    std::vector<std::vector<double>> own;
    double sum = 0.0;
    for (Index level = 0; level < levels.size(); ++level) {
      own.push_back(own_states(reading, level, levels[level]));
      levels[level] *= cohort ? full_.cohorts[*cohort][level] : 1.0;
      sum += levels[level];
    }
    std::vector<std::vector<double>> items = full_.items;
    for (double& level : levels) {
      level /= sum;
    }
    if (cohort) {
      mix(levels, posteriors_at(*cohort, item), items);
    }
    std::fill(items[item].begin(), items[item].end(), 0.0);
    for (Index level = 0; level < levels.size(); ++level) {
      for (std::size_t state = 0; state < items[item].size(); ++state) {
        items[item][state] += levels[level] * own[level][state];
      }
    }
    return items;
  }

 private:
  /// Of the item at a level, and by how much the reading had lowered that level.
  [[nodiscard]] std::vector<double> own_states(const ItemReading& reading, Index level,
                                               double& lifted) const {
    const auto item = static_cast<Index>(reading.item);
    const std::vector<double>& row = reading.likelihood[reading.likelihood.size() == 1 ? 0 : level];
    const long double* const weights = folded_.weights(item, level);
    std::vector<double> states;
    long double with = 0.0L;
    long double without = 0.0L;
    for (std::size_t state = 0; state < row.size(); ++state) {
      with += weights[state];
      without += weights[state] / row[state];
    }
    lifted = with > 0.0L ? static_cast<double>(without / with) : 0.0;
    for (std::size_t state = 0; state < row.size(); ++state) {
      states.push_back(without > 0.0L ? static_cast<double>(weights[state] / row[state] / without)
                                      : 0.0);
    }
    return states;
  }

  /// Posteriors with a cohort held at each of its levels, by way of one of its items; empty where
  /// the evidence rules the level out.
  const std::vector<std::vector<std::vector<double>>>& posteriors_at(std::size_t cohort,
                                                                     Index item) {
    auto& known = at_level_[cohort];
    for (Index level = 0; known.size() < folded_.levels(item); ++level) {
      known.emplace_back();
      if (full_.cohorts[cohort][level] <= 0.0) {
        continue;
      }
      Evidence held = evidence_;
      ItemReading hold{item, {}};
      for (Index each = 0; each < folded_.levels(item); ++each) {
        hold.likelihood.emplace_back(folded_.states(item), each == level ? 1.0 : 0.0);
      }
      held.readings.push_back(std::move(hold));
      if (auto posterior = infer_items(network_, held)) {
        known.back() = std::move(posterior->items);
      }
    }
    return known;
  }

  static void mix(const std::vector<double>& levels,
                  const std::vector<std::vector<std::vector<double>>>& at_level,
                  std::vector<std::vector<double>>& items) {
    for (std::size_t item = 0; item < items.size(); ++item) {
      std::fill(items[item].begin(), items[item].end(), 0.0);
      for (std::size_t level = 0; level < levels.size(); ++level) {
        for (std::size_t state = 0; !at_level[level].empty() && state < items[item].size();
             ++state) {
          items[item][state] += levels[level] * at_level[level][item][state];
        }
      }
    }
  }

  const Network& network_;
  const Evidence& evidence_;
  const Posterior& full_;
  FoldedEvidence folded_;
  std::vector<std::vector<std::vector<std::vector<double>>>> at_level_;  ///< [cohort][level]
};

/// Weights of one piece, from the posteriors with and without it.
std::vector<quantities::Decibans> weigh(const std::vector<std::vector<double>>& with,
                                        const std::vector<std::vector<double>>& without) {
  std::vector<quantities::Decibans> row;
  row.reserve(with.size());
  for (std::size_t item = 0; item < with.size(); ++item) {
    row.push_back(with[item] == without[item]
                      ? quantities::Decibans{0.0}
                      : moved(odds_decibans(with[item]), odds_decibans(without[item])));
  }
  return row;
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
  ColdReadings cold(network, evidence, *full);
  const std::size_t first_reading = weights.pieces.size() - evidence.readings.size();
  std::vector<bool> keep(weights.pieces.size(), true);
  for (std::size_t piece = 0; piece < keep.size(); ++piece) {
    if (piece >= first_reading && cold.take(evidence.readings[piece - first_reading])) {
      weights.weight.push_back(
          weigh(full->items, cold.without(evidence.readings[piece - first_reading])));
      continue;
    }
    keep[piece] = false;
    const quantities::Result<Posterior> without = infer_items(network, selection(evidence, keep));
    keep[piece] = true;
    if (!without) {
      return without.problems();
    }
    weights.weight.push_back(weigh(full->items, without->items));
  }
  return weights;
}

}  // namespace dryout::diagnosis
