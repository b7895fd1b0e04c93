#include "readings/limit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "circuit/capacitor_model.h"
#include "readings/loss_fit.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using namespace quantities;  // NOLINT: makers of quantities, in a test

Limit on_impedance(double ohm) {
  Limit limit;
  limit.value = ohm;
  limit.kind = Kind::impedance;
  return limit;
}

TEST(Limit, ALookAlikeIsBelievedMoreThanATableAndLessThanTheSheet) {
  Limit limit;
  limit.value = 3.0;
  double before = 0.0;
  for (const LimitSource source :
       {LimitSource::datasheet, LimitSource::look_alike, LimitSource::general_table}) {
    limit.source = source;
    EXPECT_GT(believe(limit).log_spread, before);
    before = believe(limit).log_spread;
  }
}

// KEMET A4074 (ESL), second-hand: 1 uF 100 V, 1.85 ohm at 100 kHz, of which 1/(2 pi f C) = 1.59 ohm
// is reactance: at most sqrt(1.85^2 - 1.59^2) = 0.94 ohm is left for the resistance, and the
// tolerance of C makes that vague.
TEST(Limit, AnImpedanceLimitBecomesAResistanceLimitWhereEnoughIsLeft) {
  const auto limit =
      esr_limit_under(on_impedance(1.85), {hertz(100e3), Celsius(20.0), microfarads(1.0), true});
  ASSERT_TRUE(limit.ok());
  EXPECT_NEAR(limit->median, 0.943, 0.002);
  EXPECT_GT(limit->log_spread, 0.4);
}

TEST(Limit, AnImpedanceLimitThatIsAllReactanceIsRefused) {
  const auto limit =
      esr_limit_under(on_impedance(1.62), {hertz(100e3), Celsius(20.0), microfarads(1.0), true});
  ASSERT_FALSE(limit.ok());
  EXPECT_THAT(describe(limit.problems()), HasSubstr("reactance"));
}

TEST(Limit, ALargePartsImpedanceIsItsResistance) {
  const auto limit =
      esr_limit_under(on_impedance(0.046), {hertz(100e3), Celsius(20.0), microfarads(470.0), true});
  ASSERT_TRUE(limit.ok());
  EXPECT_NEAR(limit->median, 0.0459, 1e-4);
}

TEST(Limit, TanDeltaAtOneHundredAndTwentyIsHeldAgainstLikeAtLowFrequency) {
  // tan delta 0.16, 10 uF, 120 Hz: 21.22 ohm (definition; Vishay 28309).
  const Limit limit = derive_from_tan_delta(0.16, hertz(120.0), microfarads(10.0), "");
  EXPECT_NEAR(limit.value, 21.2207, 1e-4);
  const auto low = esr_limit_under(limit, {hertz(120.0), Celsius(20.0), microfarads(10.0), true});
  const auto high = esr_limit_under(limit, {hertz(100e3), Celsius(20.0), microfarads(10.0), true});
  ASSERT_TRUE(low.ok() && high.ok());
  EXPECT_NEAR(low->median, 21.22, 0.01);
  // Carried by the fitted step, whose spread stays as doubt.
  const LossStep step = loss_step(microfarads(10.0), volts(25.0), Body::unknown, "");
  EXPECT_NEAR(high->median, 21.2207 * std::exp(-step.log_ratio), 1e-5);
  EXPECT_GE(high->log_spread, step.log_spread);
  EXPECT_GT(high->log_spread, 2.0 * low->log_spread);
}

TEST(Limit, TemperatureMovesTheLimitOfAWetPartOnly) {
  Limit limit;
  limit.value = 1.0;
  const Conditions cool{hertz(100e3), Celsius(10.0), {}, true};
  const auto wet = esr_limit_under(limit, cool);
  ASSERT_TRUE(wet.ok());
  EXPECT_NEAR(wet->median, circuit::core_factor(circuit::Core::wet, Celsius(10.0)), 1e-12);
  const auto solid = esr_limit_under(limit, {hertz(100e3), Celsius(-20.0), {}, false});
  ASSERT_TRUE(solid.ok());
  EXPECT_DOUBLE_EQ(solid->median, 1.0);
}

TEST(Limit, AnImpedanceLimitOfAPartWithoutAValueIsBelievedLess) {
  Limit limit;
  limit.value = 1.0;
  limit.kind = Kind::impedance;
  const auto known =
      esr_limit_under(limit, {hertz(100e3), Celsius(20.0), microfarads(470.0), false});
  const auto unknown = esr_limit_under(limit, {hertz(100e3), Celsius(20.0), {}, false});
  ASSERT_TRUE(known.ok() && unknown.ok());
  EXPECT_NEAR(known->median, unknown->median, 1e-3);
  EXPECT_GT(unknown->log_spread, known->log_spread);
}

TEST(Limit, EveryRungIsFoundByItsWordAndNoOtherWordIs) {
  for (const Rung& rung : ladder()) {
    EXPECT_EQ(limit_source_of(rung.word), rung.source);
  }
  EXPECT_EQ(limit_source_of("hearsay"), std::nullopt);
}

TEST(Limit, ConversionsThatWouldBeGuessworkAreRefusedWithTheReason) {
  Limit limit;
  limit.value = 1.0;
  const auto refusal = [&](double hz, double celsius) {
    const auto r = esr_limit_under(limit, {hertz(hz), Celsius(celsius), {}, true});
    return r.ok() ? std::string("accepted") : describe(r.problems());
  };
  EXPECT_THAT(refusal(1e3, 20.0), HasSubstr("same frequency"));
  EXPECT_THAT(refusal(100e3, 0.0), HasSubstr("room temperature"));
  EXPECT_THAT(refusal(100e3, 80.0), HasSubstr("room temperature"));
  EXPECT_EQ(refusal(50e3, 20.0), "accepted");
}

}  // namespace
}  // namespace dryout::readings
