#include "circuit/discharge.h"

#include <gtest/gtest.h>

#include <string>

#include "ngspice.h"

namespace dryout::circuit {
namespace {

using namespace quantities;  // NOLINT: makers of quantities, in a test

// Definitions (C V^2 / 2, R C ln(V0 / V), V^2 / R); figures worked from them.
TEST(Discharge, EnergyTimeAndPeakPowerFollowTheirDefinitions) {
  const Charged bulk{microfarads(470.0), volts(400.0)};
  EXPECT_NEAR(stored_energy(bulk).si(), 37.6, 1e-9);
  EXPECT_NEAR(time_to(bulk, ohms(1000.0), volts(60.0)).si(), 0.891646, 1e-6);
  EXPECT_NEAR(plan_discharge(bulk, ohms(1000.0), 0.1).peak_power.si(), 160.0, 1e-9);
}

// IEC 60950-1, 2.1.1.7, example as discussed in public: 340 V peak, 1 uF, 1 Mohm; after one time
// constant 37 %, 125.8 V by the rounded figure, 125.08 V exactly. Second-hand.
TEST(Discharge, OneTimeConstantLeavesThirtySevenPercent) {
  const Charged filter{microfarads(1.0), volts(340.0)};
  EXPECT_NEAR(volts_left(filter, ohms(1e6), seconds(1.0)).si(), 125.079, 1e-3);
}

TEST(Discharge, TheVoltageMayClimbBackByTheAbsorbedShare) {
  const Charged bulk{microfarads(220.0), volts(400.0)};
  const DischargeStep step = plan_discharge(bulk, ohms(4700.0), 0.1);
  EXPECT_NEAR(step.rebound.si(), 40.0, 1e-9);
  EXPECT_LE(step.left.si(), 10.0);
  EXPECT_GE(step.hold, ohms(4700.0) * microfarads(220.0) * 5.0);
}

// Common practice, no source: 325 to 400 V on 470 uF about 2 k; 450 V on 100 uF 10 k; 60 V on
// 10 000 uF 100 to 220 ohm; 2.5 kV on 10 uF 100 k.
TEST(Discharge, ResistorsComeOutAsTheBenchChoosesThem) {
  const auto chosen = [](double uF, double v) {
    return discharge_resistor({microfarads(uF), volts(v)}).si();
  };
  EXPECT_NEAR(chosen(470.0, 400.0), 2200.0, 1e-6);
  EXPECT_NEAR(chosen(100.0, 450.0), 10000.0, 1e-6);
  EXPECT_NEAR(chosen(10000.0, 60.0), 180.0, 1e-6);
  EXPECT_NEAR(chosen(100000.0, 100.0), chosen(100000.0, 101.0), 1e-6) << "no step at 100 V";
  EXPECT_NEAR(chosen(10.0, 2500.0), 100000.0, 1e-3);
}

TEST(Discharge, AboveAHundredVoltsTheTipsNeverSeeMoreThanAFifthOfAnAmpere) {
  for (double v = 101.0; v < 3000.0; v *= 1.3) {
    for (double uF = 0.1; uF < 5000.0; uF *= 2.0) {
      const Charged part{microfarads(uF), volts(v)};
      EXPECT_LE(plan_discharge(part, discharge_resistor(part), 0.1).peak_current.si(), 0.2 + 1e-9);
    }
  }
}

/// What the tips and the resistor see at first, of the resistor that is chosen.
DischargeStep chosen_step(double uF, double v) {
  const Charged part{microfarads(uF), volts(v)};
  return plan_discharge(part, discharge_resistor(part), 0.1);
}

// Whatever is charged, to whatever: neither current nor power is more than moderate, and a little
// more volts or capacitance never changes either by more than a step of the E12 series (10 to 12:
// IEC 60063) and the little itself. Bounds: common practice (0.2 A) and judgement, discharge.h.
TEST(Discharge, PeakCurrentAndPowerStayModerateAndNeverJump) {
  constexpr double little = 1.01;
  constexpr double e12_step = 1.25;
  for (double v = 3.0; v < 30000.0; v *= little) {
    for (double uF = 1e-4; uF < 1e6; uF *= 3.7) {
      const DischargeStep step = chosen_step(uF, v);
      EXPECT_LE(step.peak_current.si(), 1.0 + 1e-9) << uF << ' ' << v;
      EXPECT_LE(step.peak_power.si(), v <= 100.0 ? 20.001 : 80.001) << uF << ' ' << v;
      if (v > 100.0) {
        EXPECT_LE(step.peak_current.si(), 0.2 + 1e-9) << uF << ' ' << v;
      }
      EXPECT_LE(step.left.si(), 5.0 + 1e-9) << "the longer hold empties it";
      for (const DischargeStep& next : {chosen_step(uF, v * little), chosen_step(uF * little, v)}) {
        for (const double jump :
             {next.peak_current / step.peak_current, next.peak_power / step.peak_power}) {
          EXPECT_LT(jump, e12_step * little * little) << uF << ' ' << v;
          EXPECT_GT(jump, 1.0 / e12_step) << uF << ' ' << v;
        }
      }
    }
  }
}

// 220 uF from 400 V to 60 V in 5 s (the time of IEC 60204-1, 6.2.4, second-hand): 11.98 k, 13.4 W.
TEST(Discharge, ABleederIsSizedByTimeAndCostsPowerAllDay) {
  const Bleeder bleeder =
      size_bleeder({microfarads(220.0), volts(400.0)}, volts(60.0), seconds(5.0));
  EXPECT_NEAR(bleeder.resistance_max.si(), 11980.0, 5.0);
  EXPECT_NEAR(bleeder.power.si(), 13.4, 0.05);
}

// The same exponential in ngspice's transient analysis.
TEST(Discharge, AgreesWithNgspice) {
  const Charged can{microfarads(47.0), volts(350.0)};
  const Ohm resistor = discharge_resistor(can);
  const std::string deck = "discharge\nC1 c 0 47u ic=350\nR1 c 0 " + std::to_string(resistor.si()) +
                           "\n.control\nset numdgt=12\ntran 1m 4 uic\n"
                           "meas tran one FIND v(c) AT=1\nmeas tran four FIND v(c) AT=4\n.endc\n"
                           ".end\n";
  const auto reference = run_ngspice(deck);
  ASSERT_EQ(reference.count("four"), 1U);
  EXPECT_NEAR(volts_left(can, resistor, seconds(1.0)).si(), reference.at("one"), 0.05);
  EXPECT_NEAR(volts_left(can, resistor, seconds(4.0)).si(), reference.at("four"), 0.02);
}

// A back-up part: its own resistance slows the discharge, limits the current and takes its share.
// The same network in ngspice.
TEST(Discharge, ThePartsOwnResistanceSlowsItAndLimitsTheCurrent) {
  const Charged cell{farads(0.1), volts(5.5), ohms(45.0)};
  const Ohm resistor = ohms(10.0);
  const auto reference = run_ngspice(
      "cell\nC1 c 0 0.1 ic=5.5\nR1 c out 45\nR2 out 0 10\n.control\nset numdgt=12\n"
      "tran 5m 12 uic\nmeas tran one FIND v(c) AT=5.5\nmeas tran first FIND v(out) AT=1m\n.endc\n"
      ".end\n");
  ASSERT_EQ(reference.count("one"), 1U);
  EXPECT_NEAR(time_constant(cell, resistor).si(), 5.5, 1e-12);
  EXPECT_NEAR(volts_left(cell, resistor, seconds(5.5)).si(), reference.at("one"), 2e-3);
  const DischargeStep step = plan_discharge(cell, resistor, 0.1);
  EXPECT_NEAR(step.peak_current.si() * 10.0, reference.at("first"), 2e-3);
  EXPECT_NEAR(step.peak_power.si(), 0.1 * 0.1 * 10.0, 1e-12);
  EXPECT_GE(discharge_resistor(cell).si(), 1.0);
}

TEST(Discharge, OneOhmAcrossABulkCanIsNextToAShort) {
  const auto short_through = [](const Charged& part, double r) {
    return next_to_a_short(part, plan_discharge(part, ohms(r), 0.1));
  };
  EXPECT_TRUE(short_through({microfarads(470.0), volts(450.0)}, 1.0));
  EXPECT_FALSE(short_through({microfarads(470.0), volts(450.0)}, 2200.0));
  EXPECT_FALSE(short_through({microfarads(0.01), volts(450.0)}, 1.0)) << "holds 4.5 uC";
  EXPECT_FALSE(short_through({microfarads(10000.0), volts(50.0)}, 1.0)) << "hurts no one";
  for (double v = 61.0; v < 30000.0; v *= 1.5) {
    for (double uF = 0.1; uF < 50000.0; uF *= 3.0) {
      const Charged part{microfarads(uF), volts(v)};
      EXPECT_FALSE(short_through(part, discharge_resistor(part).si())) << uF << ' ' << v;
    }
  }
}

// 470 uF at 400 V through 2.2 k: 37.6 J in 5.17 s is 7.3 W on average, twice that 14.5 W; 72.7 W at
// first. 10 000 uF at 60 V through 180 ohm: 18 J in 9 s, 2 W, twice that 4 W; 20 W at first. Worked
// by hand.
TEST(Discharge, TheRatingToBuyIsTheNextThatIsSold) {
  const auto bought = [](const Charged& part) {
    return rating_to_buy(plan_discharge(part, discharge_resistor(part), 0.1)).si();
  };
  EXPECT_NEAR(bought({microfarads(470.0), volts(400.0)}), 15.0, 1e-9);
  EXPECT_NEAR(bought({microfarads(10000.0), volts(60.0)}), 5.0, 1e-9);
  for (double v = 10.0; v < 3000.0; v *= 1.4) {
    for (double uF = 0.1; uF < 50000.0; uF *= 3.0) {
      const Charged part{microfarads(uF), volts(v)};
      const DischargeStep step = plan_discharge(part, discharge_resistor(part), 0.1);
      EXPECT_GE(rating_to_buy(step).si() * step.hold.si(), step.energy.si());
      EXPECT_LE(step.peak_power.si(), 10.0 * rating_to_buy(step).si() + 1e-9);
      EXPECT_LE(step.left.si(), 5.0 + 1e-9);
    }
  }
}

TEST(Discharge, SmallPartsAreNotGivenAResistorThatAMeterShunts) {
  EXPECT_LE(discharge_resistor({microfarads(0.001), volts(24000.0)}).si(), 10e6 + 1.0);
}

TEST(Discharge, APartAlreadyLowNeedsNoTime) {
  EXPECT_EQ(time_to({microfarads(100.0), volts(5.0)}, ohms(100.0), volts(10.0)), seconds(0.0));
}

}  // namespace
}  // namespace dryout::circuit
