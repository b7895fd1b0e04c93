// Whether stated probabilities deserve belief: Brier score, logarithmic score and reliability bins
// of predictions of yes/no events (Brier, Monthly Weather Review 78, 1950; Good, JRSS B 14, 1952;
// both recalled).
#pragma once

#include <array>
#include <cstddef>

namespace dryout::planning {

class Calibration {
 public:
  struct Bin {
    std::size_t count = 0;
    double predicted_sum = 0.0;
    std::size_t came_true = 0;
  };
  static constexpr std::size_t bins_count = 10;

  /// `predicted` is the stated probability of the event.
  void add(double predicted, bool came_true);

  [[nodiscard]] std::size_t count() const { return count_; }
  /// Mean squared error, 0 (perfect) to 1. 0 where nothing was predicted.
  [[nodiscard]] double brier() const;
  /// Mean of -ln P(what happened) in nat; a prediction of 0 for it counts as 1e-12.
  [[nodiscard]] double log_score() const;
  /// Tenths of predicted probability.
  [[nodiscard]] const std::array<Bin, bins_count>& bins() const { return bins_; }

 private:
  std::size_t count_ = 0;
  double squares_ = 0.0;
  double logs_ = 0.0;
  std::array<Bin, bins_count> bins_{};
};

}  // namespace dryout::planning
