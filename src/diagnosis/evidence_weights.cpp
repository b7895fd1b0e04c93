#include <algorithm>
#include <cmath>

#include "diagnosis/inference.h"
#include "quantities/patience.h"

namespace dryout::diagnosis {
namespace {

struct Soundness {
  double sound = 0.0;
  double not_sound = 0.0;

  /// Odds of "not sound" in decibans; infinite where it is certain either way.
  [[nodiscard]] double decibans() const { return quantities::weight_of(not_sound / sound).value; }
};

Soundness soundness_of(const std::vector<double>& states) {
  Soundness soundness{states.front(), 0.0};
  for (std::size_t state = 1; state < states.size(); ++state) {
    soundness.not_sound += states[state];
  }
  return soundness;
}

std::vector<Soundness> soundness_of(const std::vector<std::vector<double>>& items) {
  std::vector<Soundness> all;
  all.reserve(items.size());
  for (const std::vector<double>& states : items) {
    all.push_back(soundness_of(states));
  }
  return all;
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
        now_(soundness_of(full.items)),
        at_level_(network.cohorts.size()),
        moved_with_(network.cohorts.size()) {}

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

  /// What the reading moves each item's "not sound" by.
  [[nodiscard]] std::vector<quantities::Decibans> weigh(const ItemReading& reading) {
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
    for (double& level : levels) {
      level /= sum;
    }
    std::vector<quantities::Decibans> row(full_.items.size());
    if (cohort) {
      const std::vector<Level>& at_level = believed_at(*cohort, item);
      for (const std::size_t other : moved_with_[*cohort]) {
        row[other] = moved(now_[other].decibans(), mixed(levels, at_level, other).decibans());
      }
    }
    std::vector<double> states(full_.items[item].size(), 0.0);
    for (Index level = 0; level < levels.size(); ++level) {
      for (std::size_t state = 0; state < states.size(); ++state) {
        states[state] += levels[level] * own[level][state];
      }
    }
    row[item] = moved(now_[item].decibans(), soundness_of(states).decibans());
    return row;
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

  using Level = std::vector<Soundness>;

  /// All items with a cohort held at each of its levels, by way of one of its items; empty where
  /// the evidence rules the level out.
  const std::vector<Level>& believed_at(std::size_t cohort, Index item) {
    auto& known = at_level_[cohort];
    if (!known.empty()) {
      return known;
    }
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
        known.back() = soundness_of(posterior->items);
      }
    }
    for (std::size_t each = 0; each < now_.size(); ++each) {
      if (depends_on_level(known, each)) {
        moved_with_[cohort].push_back(each);
      }
    }
    return known;
  }

  /// Whether it makes a difference to an item at which level the cohort stands, rounding apart.
  [[nodiscard]] static bool depends_on_level(const std::vector<Level>& levels, std::size_t item) {
    constexpr double rounding = 1e-13;
    const Soundness* first = nullptr;
    for (const Level& level : levels) {
      if (level.empty()) {
        continue;
      }
      first = first == nullptr ? &level[item] : first;
      const double apart =
          std::abs(first->not_sound * level[item].sound - level[item].not_sound * first->sound);
      if (apart > rounding * first->not_sound * level[item].sound) {
        return true;
      }
    }
    return false;
  }

  static Soundness mixed(const std::vector<double>& levels, const std::vector<Level>& at_level,
                         std::size_t item) {
    Soundness mixed;
    for (std::size_t level = 0; level < levels.size(); ++level) {
      if (!at_level[level].empty()) {
        mixed.sound += levels[level] * at_level[level][item].sound;
        mixed.not_sound += levels[level] * at_level[level][item].not_sound;
      }
    }
    return mixed;
  }

  const Network& network_;
  const Evidence& evidence_;
  const Posterior& full_;
  FoldedEvidence folded_;
  std::vector<Soundness> now_;                        ///< [item]
  std::vector<std::vector<Level>> at_level_;          ///< [cohort][level]
  std::vector<std::vector<std::size_t>> moved_with_;  ///< [cohort] items it makes a difference to
};

/// Weights of one piece, from the posteriors with and without it.
std::vector<quantities::Decibans> weigh(const std::vector<std::vector<double>>& with,
                                        const std::vector<std::vector<double>>& without) {
  std::vector<quantities::Decibans> row;
  row.reserve(with.size());
  for (std::size_t item = 0; item < with.size(); ++item) {
    row.push_back(with[item] == without[item] ? quantities::Decibans{0.0}
                                              : moved(soundness_of(with[item]).decibans(),
                                                      soundness_of(without[item]).decibans()));
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
    quantities::rest(piece, keep.size());
    if (piece >= first_reading && cold.take(evidence.readings[piece - first_reading])) {
      weights.weight.push_back(cold.weigh(evidence.readings[piece - first_reading]));
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
