// A set with faults that nobody at the bench knows: drawn from a network, it answers checks and can
// be mended. Chance is drawn once, when the set is: whether each faulty state shows each finding is
// then settled, so that a check asked again gives the same answer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

#include "diagnosis/network.h"

namespace dryout::planning {

/// Random numbers that are the same for a seed on every platform.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : random_(seed) {}
  /// 0 <= u < 1.
  [[nodiscard]] double unit() { return static_cast<double>(random_() >> 11U) * 0x1p-53; }
  [[nodiscard]] bool happens(double probability) { return unit() < probability; }
  /// An index drawn with these probabilities.
  [[nodiscard]] std::size_t one_of(const std::vector<double>& probabilities);

 private:
  std::mt19937_64 random_;
};

/// A world that is not as the model says: the odds of every strength and leak, and of every item's
/// being faulty, are multiplied or divided by `odds_factor`, each by the toss of a coin.
/// Certainties (0 and 1) stay.
[[nodiscard]] diagnosis::Network perturb(const diagnosis::Network& network, double odds_factor,
                                         Dice& dice);

class HiddenSet {
 public:
  /// Cohort levels, then item states, then what shows. The network must outlive the set.
  HiddenSet(const diagnosis::Network& network, Dice& dice);

  [[nodiscard]] bool sound(std::size_t item) const { return states_[item] == 0; }
  [[nodiscard]] bool shows(std::size_t finding) const;
  void mend(std::size_t item) { states_[item] = 0; }

 private:
  const diagnosis::Network* network_;
  std::vector<std::size_t> states_;       ///< [item]
  std::vector<std::vector<bool>> shown_;  ///< [finding][cause] its state would show it; last: leak
};

}  // namespace dryout::planning
