// Wear-out as a Weibull distribution, and the age at which replacing before failure is cheapest
// (Barlow and Proschan, Mathematical Theory of Reliability, 1965; NIST/SEMATECH e-Handbook of
// Statistical Methods, 8.1.6.2, for the distribution).
#pragma once

#include <optional>

#include "quantities/quantity.h"

namespace dryout::decision {

struct Weibull {
  double shape = 1.0;        ///< beta > 0; above 1 parts wear out, below 1 they settle in
  quantities::Second scale;  ///< eta > 0: 63.2 % have failed by then
};

/// P(still good at that age).
[[nodiscard]] double survival(const Weibull& wear, quantities::Second age);
/// P(fails within the horizon | good at that age).
[[nodiscard]] double failure_within(const Weibull& wear, quantities::Second age,
                                    quantities::Second horizon);
[[nodiscard]] quantities::Second mean_life(const Weibull& wear);

/// Cost per unit of time when every part is replaced at `age` or at failure, whichever is first:
/// (planned * R(age) + failure * (1 - R(age))) / integral of R up to age.
[[nodiscard]] double cost_rate(const Weibull& wear, double planned_cost, double failure_cost,
                               quantities::Second age);
/// The cheapest replacement age; nothing where running to failure is cheapest (shape <= 1, or
/// failure no dearer than planned work).
[[nodiscard]] std::optional<quantities::Second> cheapest_age(const Weibull& wear,
                                                             double planned_cost,
                                                             double failure_cost);

}  // namespace dryout::decision
