// The program without a typed limit, against the figures of outside_sheets.h. A part at 0.95 of
// what its own sheet allows must not be convicted, one at five times that not acquitted; and the
// limit that is printed should lie within a factor of three of the sheet's.
#include "outside_sheets.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "priors.h"

namespace dryout::readings {
namespace {

Assessment read_at(const SheetFigure& figure, double times) {
  ReadingInput input;
  input.kind = figure.kind;
  input.technology = std::string(figure.technology);
  input.body = figure.body;
  input.capacitance = quantities::microfarads(figure.microfarads);
  input.rated = quantities::volts(figure.rated_V);
  input.frequency = quantities::hertz(figure.hertz);
  if (figure.test_V > 0.0) {
    input.test_volts = quantities::volts(figure.test_V);
  }
  input.in_circuit = false;
  input.lead_zero = quantities::ohms(0.0);
  const bool least = figure.kind == Kind::insulation;
  return assessed(input, least ? figure.greatest / times : figure.greatest * times);
}

TEST(OutsideSheets, NoPartWithinItsOwnSheetIsConvictedAndNoneFarBeyondItAcquitted) {
  constexpr double near_limit = 0.95;
  constexpr double far_beyond = 5.0;
  int convicted = 0;
  int acquitted = 0;
  int near = 0;
  for (const SheetFigure& figure : sheet_figures) {
    const Assessment within = read_at(figure, near_limit);
    const Assessment beyond = read_at(figure, far_beyond);
    if (within.verdict == Verdict::over_limit) {
      ++convicted;
      ADD_FAILURE() << figure.source << ": " << within.sentence << ' ' << within.limit_told;
    }
    // Of insulation less than a tenth of a microampere is let pass on purpose: nothing notices it.
    const bool noticed =
        figure.kind != Kind::insulation || figure.test_V / (figure.greatest / far_beyond) > 0.1e-6;
    if (beyond.verdict == Verdict::within_limit) {
      ++acquitted;
    }
    if (beyond.verdict == Verdict::within_limit && noticed) {
      ADD_FAILURE() << figure.source << ": " << beyond.sentence << ' ' << beyond.limit_told;
    }
    const bool within_three =
        within.limit && std::abs(std::log(within.limit->value / figure.greatest)) < std::log(3.0);
    near += within_three ? 1 : 0;
    if (!within_three) {
      std::printf("far: %s, %g uF %g V, sheet %g: %s\n", std::string(figure.source).c_str(),
                  figure.microfarads, figure.rated_V, figure.greatest, within.limit_told.c_str());
    }
  }
  std::printf(
      "%zu figures: %d convicted within, %d acquitted at five times, %d limits within three\n",
      std::size(sheet_figures), convicted, acquitted, near);
  EXPECT_GE(near, static_cast<int>(0.7 * static_cast<double>(std::size(sheet_figures))));
}

}  // namespace
}  // namespace dryout::readings
