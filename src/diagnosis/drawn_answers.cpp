#include "diagnosis/drawn_answers.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "diagnosis/inference.h"
#include "quantities/holds.h"
#include "quantities/patience.h"

namespace dryout::diagnosis {
namespace {

/// All items stand in one group: any outcome may move any of them.
std::unique_ptr<ItemGroups> one_group(const Network& network) {
  auto groups = std::make_unique<ItemGroups>();
  groups->members.resize(1);
  groups->width = {0};
  for (std::size_t item = 0; item < network.items.size(); ++item) {
    groups->group.push_back(0);
    groups->place.push_back(groups->width.front());
    groups->members.front().push_back(item);
    groups->width.front() += static_cast<std::uint32_t>(network.items[item].states.size());
  }
  return groups;
}

/// Sums, per slot (state of an item) and candidate, of the draws' weights with either outcome.
class OutlookSums {
 public:
  OutlookSums(const PosteriorDraws& draws, const ItemGroups& groups,
              std::span<const std::size_t> candidates)
      : draws_(draws),
        groups_(groups),
        candidates_(candidates),
        present_(candidates.size(), 0.0),
        slots_(static_cast<std::size_t>(groups.width.front()) * 2 * candidates.size(), 0.0) {
    std::vector<double> absence;
    std::vector<double> split(2 * candidates.size());
    for (std::size_t n = 0; n < draws.size(); ++n) {
      draws.find_absence(n, absence);
      for (std::size_t c = 0; c < candidates.size(); ++c) {
        const double silent = absence[candidates[c]];
        split[2 * c] = draws.weight(n) * silent;
        split[2 * c + 1] = draws.weight(n) * (1.0 - silent);
        present_[c] += split[2 * c + 1];
      }
      add(draws.states(n), split);
    }
  }

  [[nodiscard]] double present(std::size_t candidate) const { return present_[candidate]; }

  /// Beliefs after one outcome, laid out as the group. The sound states are what is left.
  [[nodiscard]] std::vector<double> beliefs(std::size_t candidate, bool present) const {
    const double total = present ? present_[candidate] : 1.0 - present_[candidate];
    const std::size_t width = 2 * candidates_.size();
    std::vector<double> values(groups_.width.front());
    for (std::size_t slot = 0; slot < values.size(); ++slot) {
      values[slot] = slots_[slot * width + 2 * candidate + (present ? 1 : 0)] / total;
    }
    for (std::size_t item = 0; item < groups_.place.size(); ++item) {
      const std::size_t first = groups_.place[item];
      double others = 0.0;
      for (std::size_t s = 1; s < draws_.network().items[item].states.size(); ++s) {
        others += values[first + s];
      }
      values[first] = std::max(0.0, 1.0 - others);
    }
    return values;
  }

 private:
  void add(std::span<const std::uint16_t> states, const std::vector<double>& split) {
    for (std::size_t item = 0; item < states.size(); ++item) {
      if (states[item] != 0) {
        double* const sums = &slots_[(groups_.place[item] + states[item]) * split.size()];
        for (std::size_t k = 0; k < split.size(); ++k) {
          sums[k] += split[k];
        }
      }
    }
  }

  const PosteriorDraws& draws_;
  const ItemGroups& groups_;
  std::span<const std::size_t> candidates_;
  std::vector<double> present_;
  std::vector<double> slots_;  ///< [slot][candidate][absent, present]
};

/// What each draw would weigh without one piece, up to a factor.
class Reweighing {
 public:
  explicit Reweighing(const PosteriorDraws& draws) : draws_(draws) {
    const Evidence& evidence = draws.evidence();
    pieces_ = evidence.present.size() + evidence.absent.size() + evidence.soft.size() +
              evidence.readings.size();
    weights_.assign(pieces_, std::vector<double>(draws.size()));
    std::vector<double> silence;
    for (std::size_t n = 0; n < draws.size(); ++n) {
      draws.find_silence(n, silence);
      std::size_t piece = 0;
      for (const std::size_t f : evidence.present) {
        put(piece++, n, 1.0 - silence[f]);
      }
      for (const std::size_t f : evidence.absent) {
        put(piece++, n, silence[f]);
      }
      for (const SoftFinding& soft : evidence.soft) {
        put(piece++, n,
            soft.if_absent * silence[soft.finding] +
                soft.if_present * (1.0 - silence[soft.finding]));
      }
      for (const ItemReading& reading : evidence.readings) {
        const auto& cohort = draws.network().items[reading.item].cohort;
        const std::size_t row =
            reading.likelihood.size() == 1 || !cohort ? 0 : draws.level(n, *cohort);
        put(piece++, n, reading.likelihood[row][draws.states(n)[reading.item]]);
      }
    }
  }

  [[nodiscard]] std::size_t pieces() const { return pieces_; }
  [[nodiscard]] const std::vector<double>& without(std::size_t piece) const {
    return weights_[piece];
  }

 private:
  void put(std::size_t piece, std::size_t n, double likelihood) {
    weights_[piece][n] = likelihood > 0.0 ? draws_.weight(n) / likelihood : 0.0;
  }

  const PosteriorDraws& draws_;
  std::size_t pieces_ = 0;
  std::vector<std::vector<double>> weights_;
};

/// How many draws of equal weight each item's "not sound" and "sound" are worth.
struct Counts {
  std::vector<double> not_sound;
  double all = 0.0;
};

Counts count(const PosteriorDraws& draws, const std::vector<double>& weights) {
  Counts counts;
  counts.not_sound.assign(draws.network().items.size(), 0.0);
  double total = 0.0;
  double squares = 0.0;
  for (std::size_t n = 0; n < draws.size(); ++n) {
    total += weights[n];
    squares += weights[n] * weights[n];
    const auto states = draws.states(n);
    for (std::size_t item = 0; item < states.size(); ++item) {
      counts.not_sound[item] += states[item] != 0 ? weights[n] : 0.0;
    }
  }
  counts.all = squares > 0.0 ? total * total / squares : 0.0;
  for (double& each : counts.not_sound) {
    each *= total > 0.0 ? counts.all / total : 0.0;
  }
  return counts;
}

struct LogOdds {
  double value = 0.0;     ///< natural log
  double variance = 0.0;  ///< of that
};

/// Half a draw is added to either side, so that no draw at all is no certainty (Haldane, "The
/// estimation and significance of the logarithm of a ratio of frequencies", 1956).
LogOdds log_odds(const Counts& counts, std::size_t item) {
  const double yes = counts.not_sound[item] + 0.5;
  const double no = std::max(0.0, counts.all - counts.not_sound[item]) + 0.5;
  return {std::log(yes / no), 1.0 / yes + 1.0 / no};
}

/// The chance that each set causes some of the findings, one draw after the other.
class BlameOfSets {
 public:
  BlameOfSets(const PosteriorDraws& draws, std::span<const std::vector<std::size_t>> sets,
              std::span<const std::size_t> findings)
      : draws_(draws), findings_(findings), sets_of_(draws.network().items.size()) {
    for (std::size_t s = 0; s < sets.size(); ++s) {
      for (const std::size_t item : sets[s]) {
        sets_of_[item].push_back(s);
      }
    }
    for (const Item& item : draws.network().items) {
      doings_.emplace_back(item.states.size());
    }
    for (std::size_t k = 0; k < findings.size(); ++k) {
      for (const Cause& cause : draws.network().findings[findings[k]].causes) {
        doings_[cause.item][cause.state].emplace_back(k, 1.0 - cause.strength);
      }
    }
    silent_.assign(sets.size(), std::vector<double>(findings.size(), 1.0));
    values_.assign(sets.size(), std::vector<double>(draws.size()));
  }

  std::vector<Estimate> run() {
    for (std::size_t n = 0; n < draws_.size(); ++n) {
      const auto states = draws_.states(n);
      draws_.find_silence(n, silence_);
      for (auto& each : silent_) {
        std::fill(each.begin(), each.end(), 1.0);
      }
      for (std::size_t item = 0; item < states.size(); ++item) {
        for (const auto& [finding, silent] : doings_[item][states[item]]) {
          for (const std::size_t set : sets_of_[item]) {
            silent_[set][finding] *= silent;
          }
        }
      }
      for (std::size_t set = 0; set < silent_.size(); ++set) {
        values_[set][n] = 1.0 - innocence(set, states);
      }
    }
    std::vector<Estimate> estimates;
    for (const std::vector<double>& values : values_) {
      estimates.push_back(draws_.average(values));
    }
    return estimates;
  }

 private:
  /// P(the set shows none of the findings | states, all of them present).
  [[nodiscard]] double innocence(std::size_t set, std::span<const std::uint16_t> states) const {
    double product = 1.0;
    for (std::size_t k = 0; k < findings_.size(); ++k) {
      const double own = silent_[set][k];
      if (own < 1.0) {
        // Dividing the set's part out is safe but where it is zero.
        const double others =
            own > 0.0 ? silence_[findings_[k]] / own : silence_of_others(set, k, states);
        product *= own * (1.0 - others) / (1.0 - own * others);
      }
    }
    return product;
  }

  [[nodiscard]] double silence_of_others(std::size_t set, std::size_t k,
                                         std::span<const std::uint16_t> states) const {
    const Finding& finding = draws_.network().findings[findings_[k]];
    double silence = 1.0 - finding.leak;
    for (const Cause& cause : finding.causes) {
      if (states[cause.item] == cause.state && !quantities::holds(sets_of_[cause.item], set)) {
        silence *= 1.0 - cause.strength;
      }
    }
    return silence;
  }

  const PosteriorDraws& draws_;
  std::span<const std::size_t> findings_;
  std::vector<std::vector<std::size_t>> sets_of_;  ///< [item]
  /// [item][state]: index into findings, and the chance not to show it
  std::vector<std::vector<std::vector<std::pair<std::size_t, double>>>> doings_;
  std::vector<double> silence_;              ///< [finding of the network], of the draw at work
  std::vector<std::vector<double>> silent_;  ///< [set][finding], of the draw at work
  std::vector<std::vector<double>> values_;  ///< [set][draw]
};

}  // namespace

bool too_wide(const Network& network, const Evidence& evidence, std::size_t questions) {
  constexpr double cells_max = 4.0e7;  // measured: README.md
  const FoldedEvidence folded = fold_evidence(network, evidence);
  return folded.possible &&
         order_for_draws(folded).cells * static_cast<double>(questions) > cells_max;
}

Foresight foresee(const PosteriorDraws& draws, std::span<const std::size_t> candidates) {
  Foresight foresight;
  foresight.now = draws.posterior();
  foresight.precision = {draws.size(), draws.set_aside(), draws.within()};
  auto groups = one_group(draws.network());
  const OutlookSums sums(draws, *groups, candidates);
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    quantities::rest(c, candidates.size());
    Outlook& outlook = foresight.outlooks.emplace_back();
    outlook.finding = candidates[c];
    const bool seen_present = quantities::holds(draws.evidence().present, candidates[c]);
    const bool seen_absent = quantities::holds(draws.evidence().absent, candidates[c]);
    outlook.present = seen_present ? 1.0 : (seen_absent ? 0.0 : sums.present(c));
    foresight.now.findings[candidates[c]] = outlook.present;
    for (const bool present : {true, false}) {
      if (present ? outlook.present <= 0.0 : outlook.present >= 1.0) {
        continue;
      }
      std::vector<ItemBeliefs::MovedGroup> moved;
      std::vector<double> values;
      if (!seen_present && !seen_absent) {
        moved.push_back({0, 0});
        values = sums.beliefs(c, present);
      }
      (present ? outlook.items_if_present : outlook.items_if_absent) = {
          *groups, foresight.now.items, std::move(moved), std::move(values)};
    }
  }
  foresight.groups = std::move(groups);
  return foresight;
}

EvidenceWeights leave_one_out(const PosteriorDraws& draws) {
  constexpr double decibans_per_neper = 4.342944819032518;
  constexpr double errors_least = 4.0;
  EvidenceWeights weights;
  weights.pieces = piece_labels(draws.network(), draws.evidence());
  std::vector<double> all;
  for (std::size_t n = 0; n < draws.size(); ++n) {
    all.push_back(draws.weight(n));
  }
  const Counts with = count(draws, all);
  const Reweighing reweighing(draws);
  for (std::size_t piece = 0; piece < reweighing.pieces(); ++piece) {
    quantities::rest(piece, reweighing.pieces());
    const Counts without = count(draws, reweighing.without(piece));
    std::vector<quantities::Decibans>& row = weights.weight.emplace_back();
    for (std::size_t item = 0; item < draws.network().items.size(); ++item) {
      const LogOdds now = log_odds(with, item);
      const LogOdds then = log_odds(without, item);
      const double moved = now.value - then.value;
      const bool told = std::abs(moved) > errors_least * std::sqrt(now.variance + then.variance);
      row.push_back({told ? decibans_per_neper * moved : 0.0});
    }
  }
  return weights;
}

std::vector<Estimate> blame(const PosteriorDraws& draws,
                            std::span<const std::vector<std::size_t>> sets,
                            std::span<const std::size_t> findings) {
  return BlameOfSets(draws, sets, findings).run();
}

}  // namespace dryout::diagnosis
