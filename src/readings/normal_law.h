// The normal law, for everything in this room that is log-normal.
#pragma once

#include <cmath>
#include <numbers>

namespace dryout::readings {

/// Density at x.
[[nodiscard]] inline double normal_density(double x, double mean, double spread) {
  const double z = (x - mean) / spread;
  return std::exp(-0.5 * z * z) / (spread * std::sqrt(2.0 * std::numbers::pi));
}

/// P(standard normal <= z).
[[nodiscard]] inline double normal_below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

}  // namespace dryout::readings
