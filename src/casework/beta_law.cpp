#include "casework/beta_law.h"

#include <cmath>

#include "quantities/check.h"

namespace dryout::casework {
namespace {

/// DLMF 8.17.22, evaluated forwards (modified Lentz); converges fast for x < (a + 1) / (a + b + 2).
double continued_fraction(double x, double a, double b) {
  constexpr double tiny = 1e-300;
  constexpr double enough = 1e-14;
  constexpr int terms_max = 10'000;
  const auto away_from_zero = [](double v) { return std::abs(v) < tiny ? tiny : v; };
  double c = 1.0;
  double d = 1.0 / away_from_zero(1.0 - (a + b) * x / (a + 1.0));
  double value = d;
  for (int m = 1; m < terms_max; ++m) {
    const double even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
    double change = 1.0;
    for (const double numerator : {even, odd}) {
      d = 1.0 / away_from_zero(1.0 + numerator * d);
      c = away_from_zero(1.0 + numerator / c);
      change = c * d;
      value *= change;
    }
    if (std::abs(change - 1.0) < enough) {
      break;
    }
  }
  return value;
}

double below_by_fraction(double x, double a, double b) {
  const double log_front =
      std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x);
  return std::exp(log_front) * continued_fraction(x, a, b) / a;
}

}  // namespace

double beta_below(double x, double a, double b) {
  CHECK(a > 0.0 && b > 0.0);
  if (x <= 0.0 || x >= 1.0) {
    return x <= 0.0 ? 0.0 : 1.0;
  }
  return x < (a + 1.0) / (a + b + 2.0) ? below_by_fraction(x, a, b)
                                       : 1.0 - below_by_fraction(1.0 - x, b, a);
}

double beta_quantile(double p, double a, double b) {
  CHECK(p > 0.0 && p < 1.0);
  constexpr int halvings = 60;  // to the last digit of a double
  double low = 0.0;
  double high = 1.0;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (beta_below(middle, a, b) < p ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace dryout::casework
