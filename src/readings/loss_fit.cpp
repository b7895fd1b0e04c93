#include "readings/loss_fit.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "circuit/capacitor_model.h"

namespace dryout::readings {

using quantities::Farad;
using quantities::Volt;

namespace {

constexpr double fit_plateau_from = 8e3;  // hertz
constexpr double resistive_share = 0.5;   // of Z^2; below, |Z| says too little of resistance
constexpr double same_volts = 1.05;       // 6.3 is not 10, but 400 and 420 are not one column
constexpr double typical_farad = 100e-6;  // where the regressors are zero, no more
constexpr double typical_volts = 35.0;
/// Judged: hardly any rows of these bodies state both figures, so a third more of doubt.
constexpr double little_known_body = 0.3;

bool polar_aluminium(const LimitRow& row) {
  return row.technology == "wet-aluminium" || row.technology == "surface-mount-aluminium";
}

/// The regressor of the grade: 1 for general purpose.
double general(std::string_view grade) {
  return grade == "low-impedance" ? 0.0 : (grade.empty() ? 0.5 : 1.0);
}

std::vector<double> regressors(Farad capacitance, Volt rated, std::string_view grade) {
  return {1.0, std::log(capacitance.si() / typical_farad), std::log(rated.si() / typical_volts),
          general(grade)};
}

bool same_column(const LimitRow& a, const LimitRow& b) {
  const double apart = a.rated.si() / b.rated.si();
  return a.tan_delta_max && !a.capacitance && polar_aluminium(a) && apart < same_volts &&
         apart > 1.0 / same_volts;
}

/// "HE(M)" and "HE (UHE)" are one series; sheets write their names with and without a code.
std::string_view series_name(std::string_view series) {
  return series.substr(0, series.find_first_of(" (,"));
}

/// The row whose tan delta holds for this one: itself, one of its series, the middle of its grade.
std::optional<double> tan_delta_of(const LimitsLibrary& library, const LimitRow& row) {
  if (row.tan_delta_max) {
    return tan_delta_allowed(row, *row.capacitance);
  }
  std::vector<double> alike;
  for (const LimitRow& other : library.rows) {
    if (!same_column(other, row)) {
      continue;
    }
    const double allowed = *tan_delta_allowed(other, *row.capacitance);
    if (other.maker == row.maker && series_name(other.series) == series_name(row.series)) {
      return allowed;
    }
    if (other.body == row.body && general(other.grade) == general(row.grade)) {
      alike.push_back(allowed);
    }
  }
  if (alike.empty()) {
    return std::nullopt;
  }
  const auto middle = alike.begin() + static_cast<std::ptrdiff_t>(alike.size() / 2);
  std::nth_element(alike.begin(), middle, alike.end());
  return *middle;
}

/// In ohm; nothing where the row's |Z| is mostly reactance.
std::optional<double> resistance_of(const LimitRow& row) {
  if (row.esr_max) {
    return row.esr_max->si();
  }
  const double z = row.impedance_max->si();
  const double x = circuit::reactance(*row.capacitance, row.frequency).si();
  const double square = z * z - x * x;
  return square < resistive_share * z * z ? std::nullopt : std::optional(std::sqrt(square));
}

}  // namespace

std::vector<LossPoint> loss_points(const LimitsLibrary& library) {
  std::vector<LossPoint> points;
  for (const LimitRow& row : library.rows) {
    const bool stated = row.capacitance && (row.esr_max || row.impedance_max) &&
                        row.frequency.si() >= fit_plateau_from;
    if (!stated || !polar_aluminium(row)) {
      continue;
    }
    const auto tan_delta = tan_delta_of(library, row);
    const auto high = resistance_of(row);
    if (tan_delta && high) {
      const double low =
          circuit::esr_from_tan_delta(*tan_delta, row.tan_delta_frequency, *row.capacitance).si();
      points.push_back({&row, std::log(low / *high)});
    }
  }
  return points;
}

LeastSquares fit_loss_step(const LimitsLibrary& library) {
  std::vector<std::vector<double>> x;
  std::vector<double> y;
  for (const LossPoint& point : loss_points(library)) {
    x.push_back(regressors(*point.row->capacitance, point.row->rated, point.row->grade));
    y.push_back(point.log_ratio);
  }
  return least_squares(x, y);
}

const LeastSquares& shipped_loss_fit() {
  // 28 rows, 2.2 to 4,700 uF, 10 to 450 V: 8.4 for a low-impedance part of 100 uF 35 V, falling by
  // a seventh each time C doubles, 0.57 of it for general purpose; one part lies a third off.
  static const LeastSquares fit{
      {2.1273, -0.2123, -0.0833, -0.5615},
      {0.08300, -0.02356, -0.00772, -0.07650, -0.02356, 0.01707, 0.00237, 0.02055, -0.00772,
       0.00237, 0.04112, -0.01427, -0.07650, 0.02055, -0.01427, 0.20693},
      0.2803,
      28};
  return fit;
}

LossStep loss_step(Farad capacitance, Volt rated, Body body, std::string_view grade) {
  const LeastSquares& fit = shipped_loss_fit();
  const std::vector<double> x = regressors(capacitance, rated, grade);
  const bool little_known = body == Body::axial || body == Body::can || body == Body::smd;
  // Half way between two grades either may be the true one.
  const double unknown_grade = grade.empty() ? 0.5 * std::abs(fit.coefficients.back()) : 0.0;
  return {std::max(0.0, fit.value_at(x)),
          std::hypot(fit.spread_at(x), little_known ? little_known_body : 0.0, unknown_grade)};
}

}  // namespace dryout::readings
