#include "circuit/solve_ac.h"

#include <gtest/gtest.h>

#include <numbers>

#include "networks.h"
#include "ngspice.h"

namespace dryout::circuit {
namespace {

using Complex = std::complex<double>;
using quantities::hertz;

Netlist with_nodes(std::size_t count) {
  Netlist netlist;
  for (std::size_t n = 0; n < count; ++n) {
    netlist.nodes.push_back(std::to_string(n));
  }
  return netlist;
}

Complex seen(const Netlist& netlist, double frequency, NodePair probe = {0, 1}) {
  const auto z = impedance_between(netlist, hertz(frequency), probe);
  EXPECT_TRUE(z.ok());
  EXPECT_TRUE(z.ok() && z->has_value());
  return z.ok() && *z ? **z : Complex();
}

void expect_close(Complex ours, Complex theirs, const std::string& what) {
  EXPECT_LE(std::abs(ours - theirs), 1e-6 * std::abs(theirs))
      << what << ": ours " << ours << ", reference " << theirs;
}

// Ninety random networks against ngspice: forty plain, thirty with coupled windings (leakage
// included), twenty with an ideal transformer, at frequencies from 50 Hz to 1 MHz.
TEST(SolveAc, AgreesWithNgspiceOnRandomNetworks) {
  for (std::uint64_t seed = 1; seed <= 90; ++seed) {
    std::mt19937_64 random(seed);
    Netlist netlist = random_network(random, 2 + seed % 19);
    if (seed > 40) {
      netlist = with_transformer(std::move(netlist), random, seed > 70);
    }
    const double frequency = std::pow(10.0, std::uniform_real_distribution(1.7, 6.0)(random));
    expect_close(seen(netlist, frequency), ngspice_impedance(netlist, hertz(frequency), {0, 1}),
                 "seed " + std::to_string(seed));
  }
}

TEST(SolveAc, AgreesWithNgspiceOnALadderOfFiveHundredNodes) {
  const Netlist netlist = ladder(500);
  expect_close(seen(netlist, 3e4, {1, 0}), ngspice_impedance(netlist, hertz(3e4), {1, 0}),
               "ladder");
}

// Closed forms: definition of impedance, any network-theory text.
TEST(SolveAc, SeriesAndParallelFollowTheDefinition) {
  Netlist netlist = with_nodes(3);
  netlist.elements = {resistor("R", {0, 2}, 100.0), capacitor("C", {2, 1}, 1e-6, 2.0),
                      inductor("L", {0, 1}, 1e-3, 5.0)};
  const double w = 2.0 * std::numbers::pi * 1234.0;
  const Complex upper = Complex(102.0, -1.0 / (w * 1e-6));
  const Complex lower = Complex(5.0, w * 1e-3);
  const Complex expected = upper * lower / (upper + lower);
  EXPECT_LE(std::abs(seen(netlist, 1234.0) - expected), 1e-12 * std::abs(expected));
}

// 1 / (2 pi f C), definition.
TEST(SolveAc, AHundredNanofaradsAtAHundredKilohertzAreSixteenOhms) {
  Netlist netlist = with_nodes(2);
  netlist.elements = {capacitor("C", {0, 1}, 100e-9, 0.0)};
  EXPECT_NEAR(std::abs(seen(netlist, 1e5)), 15.915494309, 1e-8);
}

// Wheatstone, balanced: the detector branch carries nothing and its value does not matter.
TEST(SolveAc, ABalancedBridgeDoesNotSeeItsDetector) {
  for (const double detector : {1e-3, 1.0, 1e9}) {
    Netlist netlist = with_nodes(4);
    netlist.elements = {resistor("R1", {0, 2}, 10.0), resistor("R2", {2, 1}, 20.0),
                        resistor("R3", {0, 3}, 30.0), resistor("R4", {3, 1}, 60.0),
                        resistor("D", {2, 3}, detector)};
    EXPECT_NEAR(seen(netlist, 50.0).real(), 22.5, 1e-9) << detector;
  }
}

// An ideal transformer shows its load times the square of the turns ratio.
TEST(SolveAc, AnIdealTransformerShowsTheLoadTimesTheSquareOfTheRatio) {
  Netlist netlist = with_nodes(4);
  Transformer transformer{"T", true, 1.0, {{{0, 1}, 0.0, 10.0, 0.5}, {{2, 3}, 0.0, 100.0, 3.0}}};
  netlist.transformers = {transformer};
  netlist.elements = {resistor("R", {2, 3}, 47.0)};
  EXPECT_NEAR(seen(netlist, 50.0).real(), 0.5 + (3.0 + 47.0) / 100.0, 1e-12);
}

// Short-circuited secondary: L1 (1 - k^2), the leakage inductance seen from the primary.
TEST(SolveAc, AShortedSecondaryLeavesTheLeakageInductance) {
  Netlist netlist = with_nodes(4);
  netlist.transformers = {{"T", false, 0.98, {{{0, 1}, 1e-3, 1.0, 0.0}, {{2, 3}, 4e-3, 1.0, 0.0}}}};
  netlist.elements = {resistor("short", {2, 3}, 0.0)};
  const double w = 2.0 * std::numbers::pi * 1e4;
  EXPECT_NEAR(seen(netlist, 1e4).imag(), w * 1e-3 * (1.0 - 0.98 * 0.98), 1e-9);
}

TEST(SolveAc, PartsOfNoResistanceJoinTheirNodesEvenInALoop) {
  Netlist netlist = with_nodes(4);
  netlist.elements = {resistor("w1", {0, 2}, 0.0), resistor("w2", {2, 3}, 0.0),
                      resistor("w3", {3, 0}, 0.0), resistor("R", {3, 1}, 33.0)};
  EXPECT_DOUBLE_EQ(seen(netlist, 1e3).real(), 33.0);
}

TEST(SolveAc, NodesWithoutAPathBetweenThemHaveNoImpedance) {
  Netlist netlist = with_nodes(4);
  netlist.elements = {resistor("R", {0, 2}, 10.0), capacitor("open", {2, 1}, 0.0, 0.0)};
  netlist.transformers = {{"T", false, 0.9, {{{0, 2}, 1e-3, 1.0, 0.1}, {{1, 3}, 1e-3, 1.0, 0.1}}}};
  const auto z = impedance_between(netlist, hertz(50.0), {0, 1});
  ASSERT_TRUE(z.ok());
  EXPECT_FALSE(z->has_value());
}

TEST(SolveAc, AnIdealTransformerIntoNothingIsRefused) {
  Netlist netlist = with_nodes(4);
  netlist.transformers = {{"T", true, 1.0, {{{0, 1}, 0.0, 1.0, 0.0}, {{2, 3}, 0.0, 1.0, 0.0}}}};
  EXPECT_FALSE(impedance_between(netlist, hertz(50.0), {0, 1}).ok());
}

}  // namespace
}  // namespace dryout::circuit
