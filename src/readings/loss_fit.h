// The step from the loss at 120 Hz, which sheets state as tan delta, to that at 100 kHz, where a
// tester measures: how many times greater the series resistance is at 120 Hz. The oxide's loss
// falls away as 1/f and the electrolyte's stays, so the step is large for small low-impedance
// parts and nears 1 for big and for high-voltage ones.
//
// Fitted by least squares, ln(R_120Hz / R_100kHz) against ln C, ln V and the grade, from the rows
// of rules/limits that state a resistance or |Z| at 8 kHz or more (|Z| freed of its reactance;
// left out where less than half of Z^2 is resistance). Tan delta is the row's own, else that of
// its series, else the middle one of the library's sheets of that grade and voltage. What the
// constants are, from how many rows and with what spread, stands in loss_fit.cpp; a test fits
// anew from the rules and holds them to that.
#pragma once

#include <string_view>
#include <vector>

#include "quantities/quantity.h"
#include "readings/least_squares.h"
#include "readings/limits_library.h"

namespace dryout::readings {

/// Divide a resistance at 120 Hz by exp(log_ratio) to have the one at 100 kHz; log_spread is the
/// standard deviation of that logarithm for one part, and grows outside the fitted values.
struct LossStep {
  double log_ratio = 0.0;  ///< never below 0: resistance does not rise with frequency
  double log_spread = 0.0;
};

/// For a wet part. `grade` is that of a limits row: "low-impedance", "" where nothing is known
/// (then half way between, and wider), anything else counts as general purpose.
[[nodiscard]] LossStep loss_step(quantities::Farad capacitance, quantities::Volt rated, Body body,
                                 std::string_view grade);

/// What one row of the library says of the step.
struct LossPoint {
  const LimitRow* row = nullptr;
  double log_ratio = 0.0;
};
[[nodiscard]] std::vector<LossPoint> loss_points(const LimitsLibrary& library);

/// The regressors, in the order of the coefficients: 1, ln(C / 100 uF), ln(V / 35 V), and 1 for a
/// part that is not of low impedance.
[[nodiscard]] LeastSquares fit_loss_step(const LimitsLibrary& library);
/// What loss_step uses.
[[nodiscard]] const LeastSquares& shipped_loss_fit();

}  // namespace dryout::readings
