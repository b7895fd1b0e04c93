#include "circuit/capacitor_model.h"

#include <gtest/gtest.h>

#include <cmath>

namespace dryout::circuit {
namespace {

using namespace quantities;  // NOLINT: makers of quantities, in a test

CapacitorModel radial() {
  return {microfarads(100.0), ohms(0.35), 0.02, henries(13e-9), Core::wet, 0.0, amperes(3e-6)};
}

// ESR = tan delta / (2 pi f C): Vishay doc. 28309 and KEMET A4001 give the formula; figures from
// it.
TEST(CapacitorModel, EsrFollowsFromTanDelta) {
  const auto esr = [](double tan_delta, double uF) {
    return esr_from_tan_delta(tan_delta, hertz(120.0), microfarads(uF)).si();
  };
  EXPECT_NEAR(esr(0.16, 10.0), 21.2207, 1e-4);
  EXPECT_NEAR(esr(0.12, 1000.0), 0.159155, 1e-6);
  EXPECT_NEAR(esr(0.22, 1000.0), 0.291784, 1e-6);
  EXPECT_NEAR(esr(0.12, 100.0), 1.59155, 1e-5);
}

TEST(CapacitorModel, AtSelfResonanceTheImpedanceIsTheResistance) {
  const CapacitorModel model = radial();
  const Hertz f = self_resonance(model);
  EXPECT_NEAR(std::abs(impedance_at(model, f, Celsius(20.0))), esr_at(model, f, Celsius(20.0)).si(),
              1e-9);
}

TEST(CapacitorModel, ResistanceFallsWithFrequencyTowardsTheCore) {
  const CapacitorModel model = radial();
  Ohm before = esr_at(model, hertz(50.0), Celsius(20.0));
  for (const double f : {120.0, 1e3, 1e4, 1e5, 1e6}) {
    const Ohm now = esr_at(model, hertz(f), Celsius(20.0));
    EXPECT_LT(now, before);
    before = now;
  }
  EXPECT_NEAR(before.si(), 0.35, 1e-3);
}

// Ranges, not a curve: bench figures recalled for wet aluminium, from memory; a published curve
// was not found. The maker's ratio of impedance at -40 C to 20 C is 2 to 15 by voltage (Nichicon
// UZR, UPW, URZ sheets), at 120 Hz where the reactance holds it down.
TEST(CapacitorModel, ColdRaisesAndWarmthLowersTheResistanceOfAWetCore) {
  EXPECT_DOUBLE_EQ(core_factor(Core::wet, Celsius(20.0)), 1.0);
  EXPECT_GE(core_factor(Core::wet, Celsius(0.0)), 2.0);
  EXPECT_LE(core_factor(Core::wet, Celsius(0.0)), 4.0);
  EXPECT_GE(core_factor(Core::wet, Celsius(-20.0)), 5.0);
  EXPECT_LE(core_factor(Core::wet, Celsius(-20.0)), 10.0);
  EXPECT_GE(core_factor(Core::wet, Celsius(85.0)), 0.3);
  EXPECT_LE(core_factor(Core::wet, Celsius(85.0)), 0.65);
  EXPECT_DOUBLE_EQ(core_factor(Core::solid, Celsius(-20.0)), 1.0);
}

TEST(CapacitorModel, WearRaisesResistanceAndTakesCapacitance) {
  const CapacitorModel model = worn(radial(), 8.0, 0.4);
  EXPECT_NEAR(model.core_resistance.si(), 2.8, 1e-12);
  EXPECT_NEAR(in_microfarads(model.capacitance), 40.0, 1e-9);
}

}  // namespace
}  // namespace dryout::circuit
