#include "circuit/in_circuit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "circuit/unmasking.h"
#include "networks.h"
#include "ngspice.h"

namespace dryout::circuit {
namespace {

using quantities::hertz;

Netlist two_nodes(std::vector<Element> elements) {
  Netlist netlist;
  netlist.nodes = {"a", "b"};
  netlist.elements = std::move(elements);
  return netlist;
}

InCircuitAnswer ask(const Netlist& netlist, double limit, MeterShows shows = MeterShows::impedance,
                    std::optional<double> reading = {}, double frequency = 1e5) {
  const auto answer =
      answer_in_circuit(netlist, {hertz(frequency), {0, 1}, shows, 0, limit}, reading);
  EXPECT_TRUE(answer.ok());
  return answer.ok() ? *answer : InCircuitAnswer{};
}

// Two networks worked by hand: the parallel part sets the ceiling. Definition of reactance.
TEST(InCircuit, ACeramicAcrossAnOpenPartReadsItsOwnReactance) {
  const Netlist netlist =
      two_nodes({capacitor("C1", {0, 1}, 10e-6, 1.0), capacitor("C2", {0, 1}, 100e-9, 0.0)});
  const auto answer = ask(netlist, 3.0);
  EXPECT_NEAR(*answer.reading_if_open, 15.9155, 1e-4);
  EXPECT_FALSE(*answer.masked);
  EXPECT_TRUE(*ask(netlist, 21.2).masked);
}

TEST(InCircuit, ASoundBrotherAcrossHidesADeadPartCompletely) {
  const Netlist netlist =
      two_nodes({capacitor("C1", {0, 1}, 10e-6, 500.0), capacitor("C2", {0, 1}, 10e-6, 0.5)});
  const auto answer = ask(netlist, 3.0);
  EXPECT_NEAR(*answer.reading_if_open, std::hypot(0.5, 0.159155), 1e-5);
  EXPECT_TRUE(*answer.masked);
}

TEST(InCircuit, WithNothingAcrossAnOpenPartReadsWithoutBound) {
  const auto answer = ask(two_nodes({capacitor("C1", {0, 1}, 10e-6, 4.5)}), 3.0);
  EXPECT_FALSE(answer.reading_if_open.has_value());
  EXPECT_FALSE(answer.ceiling.has_value());
  EXPECT_FALSE(*answer.masked);
  EXPECT_NEAR(*answer.reading, std::hypot(4.5, 0.159155), 1e-5);
  EXPECT_NEAR(*answer.reading_at_limit, std::hypot(3.0, 0.159155), 1e-5);
}

// A coil across a capacitor: near resonance the magnitude is largest at the smallest resistance,
// and neither the open part nor the short bounds the reading.
TEST(InCircuit, NearResonanceTheCeilingIsNotTheOpenReading) {
  const Netlist netlist =
      two_nodes({capacitor("C1", {0, 1}, 1e-6, 1.0), inductor("L", {0, 1}, 2.533e-6, 0.02)});
  const auto answer = ask(netlist, 0.5);
  EXPECT_GT(*answer.ceiling, 10.0 * *answer.reading_if_open);
}

/// The quantities are exact; a dense scan over the resistance must neither beat the ceiling nor
/// stay far from it, and inversion must give back what was put in.
TEST(InCircuit, CeilingFloorAndInversionHoldOnRandomNetworks) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    Netlist netlist = random_network(random, 2 + seed % 9);
    if (seed % 3 == 0) {
      netlist = with_transformer(std::move(netlist), random, seed % 2 == 0);
    }
    const double frequency = std::pow(10.0, std::uniform_real_distribution(2.0, 6.0)(random));
    const auto sweep = sweep_resistance(netlist, hertz(frequency), {0, 1}, 0);
    ASSERT_TRUE(sweep.ok());
    for (const MeterShows shows : {MeterShows::impedance, MeterShows::resistance}) {
      const auto ceiling = sweep->ceiling(shows);
      double scanned = 0.0;
      for (double r = 1e-4; r < 1e7; r *= 1.01) {
        const double reading = sweep->reading(r, shows);
        scanned = std::max(scanned, reading);
        EXPECT_GE(reading, sweep->floor(shows) - 1e-9 * std::abs(reading));
      }
      if (ceiling) {
        EXPECT_LE(scanned, *ceiling * (1.0 + 1e-9));
        EXPECT_GE(scanned, *ceiling * 0.99);
      }
      for (const double r : {0.02, 0.7, 30.0}) {
        const double reading = sweep->reading(r, shows);
        for (const double back : sweep->resistances_for(reading, shows)) {
          EXPECT_NEAR(sweep->reading(back, shows), reading, 1e-6 * std::abs(reading) + 1e-12);
        }
        EXPECT_FALSE(sweep->resistances_for(reading, shows).empty());
      }
    }
  }
}

TEST(InCircuit, TheSweepAgreesWithNgspiceAtEveryResistance) {
  for (std::uint64_t seed = 300; seed < 320; ++seed) {
    std::mt19937_64 random(seed);
    Netlist netlist = random_network(random, 6);
    const auto sweep = sweep_resistance(netlist, hertz(1e5), {0, 1}, 0);
    ASSERT_TRUE(sweep.ok());
    netlist.elements[0].resistance_ohm = 7.7;
    const auto reference = ngspice_impedance(netlist, hertz(1e5), {0, 1});
    EXPECT_LE(std::abs(sweep->impedance(7.7) - reference), 1e-6 * std::abs(reference)) << seed;
  }
}

// In-phase meter, resistor-free coil across: Re Z = r X^2 / (r^2 + X^2) rises and falls, so one
// reading has two resistances behind it.
TEST(InCircuit, AnInPhaseReadingCanHaveTwoResistancesBehindIt) {
  const Netlist netlist =
      two_nodes({capacitor("C1", {0, 1}, 100e-6, 1.0), capacitor("C2", {0, 1}, 1e-6, 0.0)});
  const auto answer = ask(netlist, 1.0, MeterShows::resistance, 0.5);
  ASSERT_EQ(answer.esr_solutions.size(), 2U);
  EXPECT_LT(answer.esr_solutions[0], answer.esr_solutions[1]);
  EXPECT_NE(answer.esr_remark.find("two"), std::string::npos);
}

TEST(InCircuit, AReadingAboveTheCeilingHasNoResistanceBehindItAndSaysWhy) {
  const Netlist netlist =
      two_nodes({capacitor("C1", {0, 1}, 10e-6, 1.0), resistor("R", {0, 1}, 5.0)});
  const auto answer = ask(netlist, 3.0, MeterShows::impedance, 6.0);
  EXPECT_TRUE(answer.esr_solutions.empty());
  EXPECT_NE(answer.esr_remark.find("this high"), std::string::npos);
  EXPECT_NE(ask(netlist, 3.0, MeterShows::impedance, 0.01).esr_remark.find("this low"),
            std::string::npos);
}

TEST(InCircuit, LiftingTheRightPartOrChangingFrequencyUnmasks) {
  // 10 uF behind a 1 uF ceramic at 100 kHz: 1.6 ohm hides a 3 ohm limit; at 1 kHz it can't.
  const Netlist netlist =
      two_nodes({capacitor("C1", {0, 1}, 10e-6, 1.0), capacitor("C2", {0, 1}, 1e-6, 0.01),
                 resistor("R", {0, 1}, 1e5)});
  const ProbePoint point{hertz(1e5), {0, 1}, MeterShows::impedance, 0, 3.0};
  const auto ways = ways_to_see(netlist, point, {hertz(1e3), hertz(1e4), hertz(1e5)});
  ASSERT_TRUE(ways.ok());
  ASSERT_EQ(ways->frequencies.size(), 2U);
  EXPECT_EQ(ways->frequencies[0], hertz(1e3));
  EXPECT_EQ(ways->lifted, std::vector<std::string>{"C2"});
}

}  // namespace
}  // namespace dryout::circuit
