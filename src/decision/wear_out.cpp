#include "decision/wear_out.h"

#include <cmath>

#include "quantities/check.h"

namespace dryout::decision {
namespace {

using quantities::Second;

double hazard_integral(const Weibull& wear, Second age) {
  CHECK(wear.shape > 0.0);
  CHECK(wear.scale > Second(0));
  return std::pow(age / wear.scale, wear.shape);
}

/// Integral of the survival function up to `age`, by Simpson's rule; R is smooth and falls from 1
/// to 0, so 400 panels give nine digits.
double mean_time_used(const Weibull& wear, Second age) {
  constexpr int panels = 400;
  const double step = age.si() / panels;
  double sum = survival(wear, Second(0)) + survival(wear, age);
  for (int i = 1; i < panels; ++i) {
    sum += (i % 2 == 1 ? 4.0 : 2.0) * survival(wear, Second(step * i));
  }
  return sum * step / 3.0;
}

}  // namespace

double survival(const Weibull& wear, Second age) { return std::exp(-hazard_integral(wear, age)); }

double failure_within(const Weibull& wear, Second age, Second horizon) {
  return -std::expm1(hazard_integral(wear, age) - hazard_integral(wear, age + horizon));
}

Second mean_life(const Weibull& wear) { return wear.scale * std::tgamma(1.0 + 1.0 / wear.shape); }

double cost_rate(const Weibull& wear, double planned_cost, double failure_cost, Second age) {
  const double alive = survival(wear, age);
  return (planned_cost * alive + failure_cost * (1.0 - alive)) / mean_time_used(wear, age);
}

std::optional<Second> cheapest_age(const Weibull& wear, double planned_cost, double failure_cost) {
  if (wear.shape <= 1.0 || failure_cost <= planned_cost) {
    return std::nullopt;
  }
  // The cost rate has one minimum for an increasing hazard: golden section on it.
  constexpr double golden = 0.6180339887498949;
  double low = wear.scale.si() * 1e-3;
  double high = wear.scale.si() * 3.0;
  const auto rate = [&](double age) {
    return cost_rate(wear, planned_cost, failure_cost, Second(age));
  };
  for (int i = 0; i < 80; ++i) {
    const double a = high - golden * (high - low);
    const double b = low + golden * (high - low);
    (rate(a) < rate(b) ? high : low) = rate(a) < rate(b) ? b : a;
  }
  return Second(0.5 * (low + high));
}

}  // namespace dryout::decision
