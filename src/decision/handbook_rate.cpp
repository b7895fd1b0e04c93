#include "decision/handbook_rate.h"

#include <array>
#include <cmath>

namespace dryout::decision {
namespace {

/// lambda_b = f0 ((S/f1)^f2 + 1) exp(f3 ((T + 273)/(Tr + 273))^f4); pi_CV = c0 C^c1 with C in uF.
struct Coefficients {
  double f0, f1, f2, f3, f4, c0, c1;
};

constexpr std::array<Coefficients, 4> table{{{.00375, .40, 3, 2.60, 9.0, 1.00, .120},
                                             {.00165, .40, 3, 2.60, 9.0, .82, .066},
                                             {.00254, .50, 3, 5.09, 5.0, .34, .180},
                                             {.00280, .55, 3, 4.09, 5.9, .32, .190}}};

// The handbook adds 273, not 273.15: its tables are reproduced with its own figure.
constexpr double handbook_zero = 273.0;

const Coefficients& row(Style style) { return table.at(static_cast<std::size_t>(style)); }

}  // namespace

double base_rate(const Stress& stress) {
  const Coefficients& c = row(stress.style);
  const double load = std::pow(stress.voltage_ratio / c.f1, c.f2) + 1.0;
  const double heat =
      (stress.ambient.degrees() + handbook_zero) / (stress.rated_at.degrees() + handbook_zero);
  return c.f0 * load * std::exp(c.f3 * std::pow(heat, c.f4));
}

double failures_per_million_hours(const Stress& stress) {
  const Coefficients& c = row(stress.style);
  const double size = c.c0 * std::pow(quantities::in_microfarads(stress.capacitance), c.c1);
  const double series = stress.style == Style::solid_tantalum ? stress.series_resistance : 1.0;
  return base_rate(stress) * size * stress.quality * stress.environment * series;
}

}  // namespace dryout::decision
