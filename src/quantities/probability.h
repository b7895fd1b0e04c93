// A probability, and the weight of evidence that moves it. Weights are in decibans: ten times the
// base-10 logarithm of a likelihood ratio, so that 10 dB is a factor of ten in the odds (Good,
// Probability and the Weighing of Evidence, 1950).
#pragma once

#include <cmath>
#include <compare>
#include <limits>

#include "quantities/check.h"

namespace dryout::quantities {

class Probability {
 public:
  constexpr Probability() = default;
  /// Rounding may carry a computed probability an ulp outside [0, 1]; more than that is a bug.
  explicit Probability(double value) : value_(value) {
    CHECK(value >= -1e-9);
    CHECK(value <= 1.0 + 1e-9);
    value_ = value < 0.0 ? 0.0 : (value > 1.0 ? 1.0 : value);
  }
  [[nodiscard]] constexpr double value() const { return value_; }
  friend constexpr auto operator<=>(const Probability&, const Probability&) = default;

 private:
  double value_ = 0.0;
};

struct Decibans {
  double value = 0.0;
  friend constexpr auto operator<=>(const Decibans&, const Decibans&) = default;
};

/// Weight of a likelihood ratio; infinite where the ratio is 0 or infinite.
[[nodiscard]] inline Decibans weight_of(double likelihood_ratio) {
  return {10.0 * std::log10(likelihood_ratio)};
}

}  // namespace dryout::quantities
