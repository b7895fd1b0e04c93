// Positive findings taken out of a sweep that would be too wide, each replaced by something that
// no item has to share. With s = sum over true causes (and the leak) of -log(1 - strength), a
// finding is present with probability 1 - exp(-s), and log(1 - exp(-s)) lies below its tangents:
//
//   1 - exp(-s) <= exp(f(s0) + (s - s0) / (exp(s0) - 1)),   f(s) = log(1 - exp(-s))
//
// which is a product of one factor an item (the upper bound of Jaakkola and Jordan, "Variational
// probabilistic inference and the QMR-DT network", JAIR 10, 1999, section 4; from memory). A fault
// state drawn under the bound is given the weight that makes up for it, which is at most 1.
#pragma once

#include <cstddef>
#include <vector>

#include "diagnosis/network.h"

namespace dryout::diagnosis {

/// One finding's bound. A cause of strength 1 counts as `most`, where the tangent reaches 1.
struct Tangent {
  std::size_t finding = 0;
  double touches = 1.0;  ///< s0
  double slope = 1.0;
  double most = 1.0;

  [[nodiscard]] static Tangent at(std::size_t finding, double touches);
  /// What a cause, or the leak, of that strength adds to s.
  [[nodiscard]] double of_strength(double strength) const;
  /// Log of the bound.
  [[nodiscard]] double log_bound(double s) const;
};

/// The evidence with the tangents' findings replaced by readings of the items behind them, and the
/// log of the factor, the same for all states, by which the bounds are larger than those readings.
struct WithoutThem {
  Evidence evidence;
  double log_factor = 0.0;
};
[[nodiscard]] WithoutThem without(const Network& network, const Evidence& evidence,
                                  const std::vector<Tangent>& aside);

/// Expected s of a finding where the items stand in their states with these probabilities.
[[nodiscard]] double expected_sum(const Network& network, const Tangent& tangent,
                                  const std::vector<std::vector<double>>& items);

/// Findings to set aside so that the order of draws stays below `cells_max`: those with the most
/// hot items first. May not succeed where what is wide is not reported but soft.
[[nodiscard]] std::vector<std::size_t> findings_to_set_aside(const Network& network,
                                                             const Evidence& evidence,
                                                             double cells_max);

}  // namespace dryout::diagnosis
