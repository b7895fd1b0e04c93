#include "diagnosis/draw_sweep.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace dryout::diagnosis {
namespace {

using Vector = std::vector<double>;

/// Repeatable on every machine, which the distributions of the standard library are not:
/// splitmix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014).
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}
  /// In [0, 1).
  double next() {
    state_ += 0x9e3779b97f4a7c15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return static_cast<double>((z ^ (z >> 31U)) >> 11U) * 0x1.0p-53;
  }

 private:
  std::uint64_t state_;
};

/// Which of the weights an even chance falls on; their sum must not be zero.
template <class Weights>
std::size_t pick(const Weights& weights, double chance) {
  double total = 0.0;
  for (const double w : weights) {
    total += w;
  }
  double left = chance * total;
  std::size_t last = 0;
  for (std::size_t k = 0; k < weights.size(); ++k) {
    if (weights[k] <= 0.0) {
      continue;
    }
    last = k;
    left -= weights[k];
    if (left < 0.0) {
      break;
    }
  }
  return last;
}

struct BitLink {
  Index bit = 0;
  double strength = 0.0;
};

/// The item's links by state, with their findings' bits.
std::vector<std::vector<BitLink>> links_of(const FoldedEvidence& folded, const DrawStep& step) {
  std::vector<std::vector<BitLink>> links(folded.states(step.item));
  for (Index k = folded.first_link[step.item]; k < folded.first_link[step.item + 1]; ++k) {
    const Link& link = folded.links[k];
    const auto at = std::find(step.open.begin(), step.open.end(), link.shared);
    links[link.state].push_back({static_cast<Index>(at - step.open.begin()), link.strength});
  }
  return links;
}

/// What a link makes of the worth of sets: an unexplained finding is explained, or stays.
void look_back(const BitLink& link, Vector& values) {
  const std::size_t run = std::size_t{1} << link.bit;
  for (std::size_t base = 0; base < values.size(); base += 2 * run) {
    double* const open = &values[base];
    const double* const explained = open + run;
    for (std::size_t k = 0; k < run; ++k) {
      open[k] = (1.0 - link.strength) * open[k] + link.strength * explained[k];
    }
  }
}

/// What a link makes of the weight of sets.
void look_on(const BitLink& link, Vector& values) {
  const std::size_t run = std::size_t{1} << link.bit;
  for (std::size_t base = 0; base < values.size(); base += 2 * run) {
    double* const open = &values[base];
    double* const explained = open + run;
    for (std::size_t k = 0; k < run; ++k) {
      explained[k] += link.strength * open[k];
      open[k] *= 1.0 - link.strength;
    }
  }
}

/// The weight that the evidence gives to a finding that closes explained, and not.
struct Closing {
  double open = 0.0;
  double explained = 1.0;
};
Closing closing_of(const SharedFinding& shared) {
  return {static_cast<double>(shared.if_absent * (1.0L - shared.leak) +
                              shared.if_present * shared.leak),
          static_cast<double>(shared.if_present)};
}

/// Takes bit `bit` out of every set, weighing both sides.
Vector close(const Vector& values, Index bit, const Closing& closing) {
  const std::size_t run = std::size_t{1} << bit;
  Vector out(values.size() / 2);
  for (std::size_t to = 0; to < out.size(); to += run) {
    for (std::size_t k = 0; k < run; ++k) {
      out[to + k] =
          closing.open * values[2 * to + k] + closing.explained * values[2 * to + run + k];
    }
  }
  return out;
}

Vector unclose(const Vector& values, Index bit, const Closing& closing) {
  const std::size_t run = std::size_t{1} << bit;
  Vector out(values.size() * 2);
  for (std::size_t from = 0; from < values.size(); from += run) {
    for (std::size_t k = 0; k < run; ++k) {
      out[2 * from + k] = closing.open * values[from + k];
      out[2 * from + run + k] = closing.explained * values[from + k];
    }
  }
  return out;
}

/// Brings the largest into [0.5, 1); the power of two, or nothing where all are zero or not finite.
std::optional<int> scale(Vector& values) {
  const double largest = *std::max_element(values.begin(), values.end());
  if (!(largest > 0.0) || !std::isfinite(largest)) {
    return std::nullopt;
  }
  int shift = 0;
  std::frexp(largest, &shift);
  const double factor = std::ldexp(1.0, -shift);
  for (double& value : values) {
    value *= factor;
  }
  return shift;
}

void normalise(Vector& values) {
  double sum = 0.0;
  for (const double value : values) {
    sum += value;
  }
  for (double& value : values) {
    value /= sum;
  }
}

Vector level_weights(const FoldedEvidence& folded, Index cohort) {
  if (cohort == none) {
    return {1.0};
  }
  return {folded.level_weight[cohort].begin(), folded.level_weight[cohort].end()};
}

}  // namespace

DrawSweep::DrawSweep(const FoldedEvidence& folded, const DrawOrder& order)
    : folded_(folded), order_(order), evidence_(folded.constant) {
  go_back();
}

void DrawSweep::go_back() {
  after_.resize(order_.steps.size());
  Vector values{1.0};
  for (std::size_t t = order_.steps.size(); t-- > 0;) {
    const DrawStep& step = order_.steps[t];
    if (step.last) {
      const Vector one = values;
      for (Index lane = 1; lane < step.levels; ++lane) {
        values.insert(values.end(), one.begin(), one.end());
      }
    }
    for (const Index bit : step.closes) {
      values = unclose(values, bit, closing_of(folded_.shared[step.open[bit]]));
    }
    after_[t] = values;
    const auto links = links_of(folded_, step);
    const std::size_t lane_size = std::size_t{1} << step.open.size();
    Vector before(values.size(), 0.0);
    for (Index state = 0; state < links.size(); ++state) {
      Vector explained = values;
      for (const BitLink& link : links[state]) {
        look_back(link, explained);
      }
      for (Index lane = 0; lane < step.levels; ++lane) {
        const auto w = static_cast<double>(folded_.weights(step.item, lane)[state]);
        for (std::size_t k = lane * lane_size; w > 0.0 && k < (lane + 1) * lane_size; ++k) {
          before[k] += w * explained[k];
        }
      }
    }
    // What opens here was open for nobody before: those sets hold none of it.
    const std::size_t size = lane_size >> step.opens;
    const Vector levels = step.first ? level_weights(folded_, step.cohort) : Vector{};
    values.assign(step.first ? size : size * step.levels, 0.0);
    for (Index lane = 0; lane < step.levels; ++lane) {
      for (std::size_t k = 0; k < size; ++k) {
        const double worth = before[lane * lane_size + k];
        if (step.first) {
          values[k] += levels[lane] * worth;
        } else {
          values[lane * size + k] = worth;
        }
      }
    }
    const auto shift = scale(values);
    if (!shift) {
      sound_ = false;
      return;
    }
    evidence_.multiply_power_of_two(*shift);
  }
  evidence_.multiply(values.front());
}

/// One way forward through all steps, draws and marginals side by side.
class Forward {
 public:
  Forward(DrawSweep& sweep, std::size_t count, std::uint64_t seed)
      : sweep_(sweep),
        folded_(sweep.folded_),
        items_(folded_.network->items.size()),
        cohorts_(folded_.network->cohorts.size()),
        chance_(seed),
        sets_(count, 0),
        lanes_(count, 0) {
    drawn_.count = count;
    drawn_.state.resize(count * items_);
    drawn_.level.resize(count * cohorts_);
    sweep_.items_.resize(items_);
    sweep_.cohorts_.resize(cohorts_);
  }

  DrawnStates run() {
    for (std::size_t t = 0; t < sweep_.order_.steps.size(); ++t) {
      go_through(t);
    }
    take_cold_cohorts();
    take_cold_items();
    return std::move(drawn_);
  }

 private:
  void go_through(std::size_t t) {
    const DrawStep& step = sweep_.order_.steps[t];
    const auto links = links_of(folded_, step);
    lane_size_ = std::size_t{1} << step.open.size();
    // worth_[state][k]: of the sets when all but the first k links of the state have acted.
    worth_.assign(links.size(), {});
    for (std::size_t state = 0; state < links.size(); ++state) {
      std::vector<Vector>& worth = worth_[state];
      worth.resize(links[state].size() + 1);
      worth.back() = sweep_.after_[t];
      for (std::size_t k = links[state].size(); k-- > 0;) {
        worth[k] = worth[k + 1];
        look_back(links[state][k], worth[k]);
      }
    }
    if (step.first) {
      open_cohort(step);
    } else {
      open_findings(step);
    }
    find_states(step);
    draw_states(step, links);
    act(step, links);
  }

  [[nodiscard]] double weight(const DrawStep& step, Index lane, std::size_t state) const {
    return static_cast<double>(folded_.weights(step.item, lane)[state]);
  }

  /// Of an explained set and level before the item acts.
  [[nodiscard]] double worth_of(const DrawStep& step, Index lane, std::size_t set) const {
    double worth = 0.0;
    for (std::size_t state = 0; state < worth_.size(); ++state) {
      worth += weight(step, lane, state) * worth_[state].front()[lane * lane_size_ + set];
    }
    return worth;
  }

  void open_cohort(const DrawStep& step) {
    const Vector levels = level_weights(folded_, step.cohort);
    Vector chances(levels.size(), 0.0);
    for (std::size_t n = 0; step.levels > 1 && n < sets_.size(); ++n) {
      for (Index lane = 0; lane < step.levels; ++lane) {
        chances[lane] = levels[lane] * worth_of(step, lane, sets_[n]);
      }
      lanes_[n] = static_cast<Index>(pick(chances, chance_.next()));
    }
    if (step.cohort != none) {
      for (std::size_t n = 0; n < sets_.size(); ++n) {
        drawn_.level[n * cohorts_ + step.cohort] = static_cast<std::uint16_t>(lanes_[n]);
      }
    }
    Vector opened(step.levels * lane_size_, 0.0);
    Vector marginal(levels.size(), 0.0);
    for (Index lane = 0; lane < step.levels; ++lane) {
      for (std::size_t set = 0; set < before_.size(); ++set) {
        opened[lane * lane_size_ + set] = levels[lane] * before_[set];
        marginal[lane] += opened[lane * lane_size_ + set] * worth_of(step, lane, set);
      }
    }
    before_ = std::move(opened);
    if (step.cohort != none) {
      normalise(marginal);
      sweep_.cohorts_[step.cohort] = std::move(marginal);
    }
  }

  void open_findings(const DrawStep& step) {
    const std::size_t size = lane_size_ >> step.opens;
    Vector opened(step.levels * lane_size_, 0.0);
    for (Index lane = 0; lane < step.levels; ++lane) {
      std::copy_n(&before_[lane * size], size, &opened[lane * lane_size_]);
    }
    before_ = std::move(opened);
  }

  void find_states(const DrawStep& step) {
    Vector marginal(worth_.size(), 0.0);
    for (std::size_t state = 0; state < worth_.size(); ++state) {
      for (Index lane = 0; lane < step.levels; ++lane) {
        double sum = 0.0;
        for (std::size_t k = lane * lane_size_; k < (lane + 1) * lane_size_; ++k) {
          sum += before_[k] * worth_[state].front()[k];
        }
        marginal[state] += weight(step, lane, state) * sum;
      }
    }
    normalise(marginal);
    sweep_.items_[step.item] = std::move(marginal);
  }

  void draw_states(const DrawStep& step, const std::vector<std::vector<BitLink>>& links) {
    Vector chances(worth_.size());
    for (std::size_t n = 0; n < sets_.size(); ++n) {
      const std::size_t lane_at = lanes_[n] * lane_size_;
      for (std::size_t state = 0; state < worth_.size(); ++state) {
        chances[state] = weight(step, lanes_[n], state) * worth_[state].front()[lane_at + sets_[n]];
      }
      const std::size_t state = pick(chances, chance_.next());
      drawn_.state[n * items_ + step.item] = static_cast<std::uint16_t>(state);
      for (std::size_t k = 0; k < links[state].size(); ++k) {
        const std::size_t bit = std::size_t{1} << links[state][k].bit;
        if ((sets_[n] & bit) != 0) {
          continue;
        }
        const Vector& then = worth_[state][k + 1];
        const double fires = links[state][k].strength * then[lane_at + (sets_[n] | bit)];
        const double silent = (1.0 - links[state][k].strength) * then[lane_at + sets_[n]];
        if (chance_.next() * (fires + silent) < fires) {
          sets_[n] |= bit;
        }
      }
    }
  }

  void act(const DrawStep& step, const std::vector<std::vector<BitLink>>& links) {
    Vector next(before_.size(), 0.0);
    for (std::size_t state = 0; state < links.size(); ++state) {
      Vector explained = before_;
      for (const BitLink& link : links[state]) {
        look_on(link, explained);
      }
      for (Index lane = 0; lane < step.levels; ++lane) {
        const double w = weight(step, lane, state);
        for (std::size_t k = lane * lane_size_; w > 0.0 && k < (lane + 1) * lane_size_; ++k) {
          next[k] += w * explained[k];
        }
      }
    }
    for (std::size_t c = step.closes.size(); c-- > 0;) {
      const Index bit = step.closes[c];
      next = close(next, bit, closing_of(folded_.shared[step.open[bit]]));
      for (std::size_t& set : sets_) {
        const std::size_t low = (std::size_t{1} << bit) - 1;
        set = (set & low) | ((set >> 1U) & ~low);
      }
    }
    if (step.last) {
      const std::size_t size = next.size() / step.levels;
      for (Index lane = 1; lane < step.levels; ++lane) {
        for (std::size_t k = 0; k < size; ++k) {
          next[k] += next[lane * size + k];
        }
      }
      next.resize(size);
      std::fill(lanes_.begin(), lanes_.end(), Index{0});
    }
    scale(next);
    before_ = std::move(next);
  }

  void take_cold_cohorts() {
    for (Index cohort = 0; cohort < cohorts_; ++cohort) {
      if (folded_.cohort_is_hot[cohort]) {
        continue;
      }
      Vector levels = level_weights(folded_, cohort);
      normalise(levels);
      for (std::size_t n = 0; n < sets_.size(); ++n) {
        drawn_.level[n * cohorts_ + cohort] =
            static_cast<std::uint16_t>(pick(levels, chance_.next()));
      }
      sweep_.cohorts_[cohort] = std::move(levels);
    }
  }

  void take_cold_items() {
    for (Index item = 0; item < items_; ++item) {
      if (folded_.is_hot(item)) {
        continue;
      }
      const auto& cohort = folded_.network->items[item].cohort;
      Vector marginal(folded_.states(item), 0.0);
      std::vector<Vector> chances;
      for (Index level = 0; level < folded_.levels(item); ++level) {
        const long double* const weights = folded_.weights(item, level);
        chances.emplace_back(weights, weights + folded_.states(item));
        const double at_level = cohort ? sweep_.cohorts_[*cohort][level] : 1.0;
        const auto total = static_cast<double>(folded_.total[folded_.first_total[item] + level]);
        for (std::size_t state = 0; total > 0.0 && state < marginal.size(); ++state) {
          marginal[state] += at_level * chances.back()[state] / total;
        }
      }
      normalise(marginal);
      sweep_.items_[item] = std::move(marginal);
      for (std::size_t n = 0; n < sets_.size(); ++n) {
        const std::size_t level = cohort ? drawn_.level[n * cohorts_ + *cohort] : 0;
        drawn_.state[n * items_ + item] =
            static_cast<std::uint16_t>(pick(chances[level], chance_.next()));
      }
    }
  }

  DrawSweep& sweep_;
  const FoldedEvidence& folded_;
  std::size_t items_;
  std::size_t cohorts_;
  Chance chance_;
  std::vector<std::size_t> sets_;  ///< per draw: explained so far
  std::vector<Index> lanes_;       ///< per draw: level of the cohort at work
  DrawnStates drawn_;
  Vector before_{1.0};  ///< exact weights of the sets
  std::size_t lane_size_ = 1;
  std::vector<std::vector<Vector>> worth_;
};

DrawnStates DrawSweep::draw(std::size_t count, std::uint64_t seed) {
  return Forward(*this, count, seed).run();
}

}  // namespace dryout::diagnosis
