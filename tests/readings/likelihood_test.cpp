#include "readings/likelihood.h"

#include <gtest/gtest.h>

#include <cmath>

#include "priors.h"
#include "readings/normal_law.h"

namespace dryout::readings {
namespace {

using circuit::MeterShows;
using quantities::ohms;

CorrectedReading exact_leads(double value) {
  CorrectedReading reading;
  reading.value = value;
  reading.relative = 0.05;
  reading.log_spread = 0.05;
  return reading;
}

// With nothing across, an in-phase meter and no absolute error, everything is log-normal: spreads
// add in squares, and which side of its own limit the part is on, given the reading, is one more
// normal law. The grids must give that closed form.
TEST(Likelihood, WithNothingAcrossItIsTheClosedForm) {
  const Setting setting = Setting::lifted(MeterShows::resistance, ohms(0.16));
  const BelievedLimit limit{3.0, 0.35};
  const Priors priors = wet_priors();
  for (const double value : {0.5, 1.2, 4.5, 30.0}) {
    const EsrEvidence evidence(setting, exact_leads(value), limit, priors);
    const auto rows = evidence.likelihood();
    for (std::size_t s = 0; s < priors.states.size(); ++s) {
      const StateSpread spread = resistance_spread(priors.states[s], 0.5);
      const bool absolute = is_absolute(priors.states[s]);
      const double shared = absolute ? 0.0 : std::hypot(limit.log_spread, type_log_spread);
      const double median = spread.median * (absolute ? 1.0 : limit.median);
      const double wide = std::hypot(std::hypot(spread.log_spread, shared), 0.05);
      // ln(own resistance / own limit) = ln(median) + u; a sound part has it below nought.
      const double u = std::hypot(spread.log_spread, type_log_spread);
      const double gain = u * u / (wide * wide);
      const double u_mean = gain * std::log(value / median);
      const double u_spread = u * std::sqrt(1.0 - gain);
      const double below_now = normal_below((-std::log(spread.median) - u_mean) / u_spread);
      const double below = normal_below(-std::log(spread.median) / u);
      const Side side = side_of(priors.states[s]);
      const double side_share = side == Side::either   ? 1.0
                                : side == Side::within ? below_now / below
                                                       : (1.0 - below_now) / (1.0 - below);
      const double expected = (1.0 - slip_probability) * side_share *
                                  normal_density(std::log(value), std::log(median), wide) +
                              slip_probability / slip_span;
      EXPECT_NEAR(rows[1][s], expected, 1e-5 * expected + 1e-7) << priors.states[s] << value;
    }
    EXPECT_NEAR(evidence.exceedance(), normal_below(std::log(value / 3.0) / std::hypot(0.05, 0.35)),
                1e-4);
  }
}

TEST(Likelihood, AFinerMeterGivesTheSameAnswerOnItsFinerGrid) {
  const Setting setting = Setting::lifted(MeterShows::impedance, ohms(0.3));
  CorrectedReading fine = exact_leads(1.0);
  fine.relative = 0.049;
  const Priors priors = wet_priors();
  const auto a = EsrEvidence(setting, exact_leads(1.0), {3.0, 0.35}, priors).likelihood();
  const auto b = EsrEvidence(setting, fine, {3.0, 0.35}, priors).likelihood();
  EXPECT_NEAR(a[0][0], b[0][0], 1e-2 * a[0][0]);
}

TEST(Likelihood, AReadingNothingExplainsLeavesTheSlip) {
  const Setting setting = Setting::lifted(MeterShows::impedance, ohms(1000.0));
  const ReadingKernel kernel(setting, exact_leads(1.0), 1.0);
  EXPECT_FALSE(kernel.explains());
  EXPECT_EQ(kernel.exceedance({3.0, 0.1}), 0.0);  // lower than anything it could show
}

TEST(Likelihood, SaysNothingAboutLeakageFromAResistanceReading) {
  const Setting setting = Setting::lifted(MeterShows::resistance, ohms(0.16));
  const Priors priors = wet_priors();
  const auto rows = EsrEvidence(setting, exact_leads(1.2), {3.0, 0.05}, priors).likelihood();
  EXPECT_DOUBLE_EQ(rows[0][0], rows[0][3]);  // sound, leaky
}

}  // namespace
}  // namespace dryout::readings
