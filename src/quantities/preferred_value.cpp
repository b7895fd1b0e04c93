#include "quantities/preferred_value.h"

#include <array>
#include <cmath>

#include "quantities/check.h"

namespace dryout::quantities {
namespace {

constexpr std::array<double, 24> e24{1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
                                     3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1};

/// Calls `visit` with every preferred number of the series in the value's decade and its
/// neighbours.
template <class Visit>
void each_preferred_near(Farad value, Series series, Visit visit) {
  const int step = 24 / static_cast<int>(series);
  const double decade = std::floor(std::log10(value.si()));
  for (const double shift : {-1.0, 0.0, 1.0}) {
    for (std::size_t i = 0; i < e24.size(); i += static_cast<std::size_t>(step)) {
      // E12 and below keep the old figures 2.7 3.3 3.9 4.7, which are those of E24 at these steps.
      visit(Farad(e24.at(i) * std::pow(10.0, decade + shift)));
    }
  }
}

}  // namespace

Farad nearest_preferred(Farad value, Series series) {
  CHECK(value > Farad(0));
  Farad best(0);
  double distance = 1e9;
  each_preferred_near(value, series, [&](Farad candidate) {
    const double away = std::abs(std::log(candidate / value));
    if (away < distance) {
      distance = away;
      best = candidate;
    }
  });
  return best;
}

Farad preferred_not_below(Farad value, Series series) {
  CHECK(value > Farad(0));
  Farad best(1e9);
  each_preferred_near(value, series, [&](Farad candidate) {
    if (candidate >= value * (1.0 - 1e-9) && candidate < best) {
      best = candidate;
    }
  });
  return best;
}

bool is_preferred(Farad value, Series series) {
  constexpr double rounding = 1e-6;
  return value > Farad(0) &&
         std::abs(std::log(nearest_preferred(value, series) / value)) < rounding;
}

}  // namespace dryout::quantities
