// What must hold of every reading, whatever the figures: on random inputs, with the seed printed.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "priors.h"

namespace dryout::readings {
namespace {

constexpr Across all_across[] = {Across::unknown,      Across::nothing, Across::ceramic,
                                 Across::electrolytic, Across::winding, Across::regulator,
                                 Across::low_resistor};
constexpr LimitSource all_sources[] = {LimitSource::datasheet, LimitSource::look_alike,
                                       LimitSource::fresh_part, LimitSource::tan_delta,
                                       LimitSource::general_table};

double between(std::mt19937_64& random, double low, double high) {
  return std::exp(std::uniform_real_distribution(std::log(low), std::log(high))(random));
}

template <class Choice, std::size_t N>
Choice one_of(std::mt19937_64& random, const Choice (&choices)[N]) {
  return choices[std::uniform_int_distribution<std::size_t>(0, N - 1)(random)];
}

ReadingInput random_input(std::mt19937_64& random) {
  ReadingInput input;
  input.capacitance = quantities::microfarads(between(random, 4.7, 4700.0));
  input.rated = quantities::volts(25.0);
  input.kind = random() % 2 == 0 ? Kind::esr : Kind::impedance;
  input.limit = between(random, 0.4, 20.0);
  input.limit_kind = Kind::esr;
  input.limit_source = one_of(random, all_sources);
  input.across = one_of(random, all_across);
  input.in_circuit = random() % 4 != 0;
  if (random() % 2 == 0) {
    input.lead_zero = quantities::ohms(0.1);
  }
  return input;
}

// The verdicts are declared in the order of a rising reading.
int rank(Verdict verdict) { return static_cast<int>(verdict); }

// A sentence that convicts beside figures that acquit would be worse than either: a reading that no
// answer to "what is across it?" explains must not fall back on the priors.
TEST(ReadingProperties, WhereTheSentenceConvictsTheFiguresDo) {
  int convicted = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    std::mt19937_64 random(seed);
    ReadingInput input = random_input(random);
    input.limit_source = LimitSource::datasheet;
    const Assessment a = assessed(input, *input.limit * between(random, 3.0, 30.0));
    if (a.verdict == Verdict::over_limit) {
      ++convicted;
      // Not nothing: one reading in a thousand is a slip, and some parts seldom dry out.
      EXPECT_LT(share(a, "sound"), 0.3) << "seed " << seed << ", across " << word_of(input.across);
    }
  }
  EXPECT_GT(convicted, 100);
}

TEST(ReadingProperties, TheVerdictRisesWithTheReading) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    std::mt19937_64 random(seed);
    const ReadingInput input = random_input(random);
    int before = 0;
    // "masked" and "not proven" are both "can't say"; between them there is no order.
    const auto level = [](Verdict v) {
      return v == Verdict::masked ? rank(Verdict::not_proven) : rank(v);
    };
    for (double value = 0.11; value < 500.0; value *= 1.35) {
      const int now = level(assessed(input, value).verdict);
      EXPECT_GE(now, before) << "seed " << seed << " at " << value;
      before = now;
    }
  }
}

TEST(ReadingProperties, TheProbabilityOfBeingOverRisesWithTheReading) {
  for (std::uint64_t seed = 100; seed <= 130; ++seed) {
    std::mt19937_64 random(seed);
    ReadingInput input = random_input(random);
    input.in_circuit = false;
    double before = 0.0;
    for (double value = 0.2; value < 300.0; value *= 1.3) {
      const double now = assessed(input, value).over_probability;
      // Near nothing, a meter's absolute error makes a smaller reading the vaguer one.
      EXPECT_GE(now, before - 1e-4) << "seed " << seed << " at " << value;
      before = now;
    }
  }
}

// For a reading clear of every rung's belief: ten times above, or a fiftieth of the limit below.
TEST(ReadingProperties, MoreTrustInTheLimitNeverMakesAClearReadingLessCertain) {
  for (const double times : {10.0, 30.0, 100.0}) {
    double before = 1.0;
    for (const LimitSource source : all_sources) {  // most trusted first
      auto input = surface_mount_10u();
      input.limit_source = source;
      // The same belief about where the part's limit lies, but less trust.
      input.limit = 3.0 / rung_of(source).factor;
      if (source == LimitSource::tan_delta) {
        input.limit_frequency = quantities::hertz(120.0);
      }
      const double over = assessed(input, 3.0 * times).over_probability;
      EXPECT_LE(over, before + 1e-9) << rung_of(source).word << " at " << times;
      EXPECT_GT(over, 0.5);
      before = over;
    }
  }
}

TEST(ReadingProperties, TrustOrdersTheSpreadsOfTheLadder) {
  double before = 0.0;
  for (const Rung& rung : ladder()) {
    EXPECT_GE(rung.log_spread, before) << rung.word;
    before = rung.log_spread;
  }
}

/// One more resistor or capacitor in parallel.
circuit::NetlistFile with_parallel(circuit::NetlistFile file, std::mt19937_64& random) {
  circuit::Element part;
  part.id = "P" + std::to_string(file.netlist.elements.size());
  part.nodes = {0, 1};
  if (random() % 2 == 0) {
    part.kind = circuit::Element::Kind::resistor;
    part.resistance_ohm = between(random, 0.3, 300.0);
  } else {
    part.kind = circuit::Element::Kind::capacitor;
    part.capacitance_F = between(random, 1e-8, 1e-4);
    part.resistance_ohm = between(random, 0.01, 3.0);
  }
  file.netlist.elements.push_back(part);
  return file;
}

TEST(ReadingProperties, APartInParallelNeverTurnsMaskedIntoAcquitted) {
  int masked = 0;
  for (std::uint64_t seed = 1; seed <= 240; ++seed) {
    std::mt19937_64 random(seed);
    ReadingInput input = random_input(random);
    input.in_circuit = true;
    input.kind = Kind::impedance;
    circuit::NetlistFile file;
    file.netlist.nodes = {"a", "b"};
    circuit::Element target;
    target.id = "C1";
    target.kind = circuit::Element::Kind::capacitor;
    target.nodes = {0, 1};
    target.capacitance_F = input.capacitance->si();
    file.netlist.elements = {target};
    file.point.target = 0;
    file.point.probe = {0, 1};
    input.netlist = with_parallel(file, random);
    const double value = between(random, 0.1, 10.0);
    const Verdict alone = assessed(input, value).verdict;
    input.netlist = with_parallel(*input.netlist, random);
    const Verdict more = assessed(input, value).verdict;
    if (alone == Verdict::masked) {
      ++masked;
      EXPECT_NE(more, Verdict::within_limit) << "seed " << seed << " at " << value;
    }
  }
  EXPECT_GT(masked, 20) << "the property was hardly tried";
}

TEST(ReadingProperties, ProbabilitiesSumToOneAndLikelihoodsAreFinite) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    std::mt19937_64 random(seed);
    const Assessment a = assessed(random_input(random), between(random, 1e-3, 1e6));
    double total = 0.0;
    for (const double p : a.after) {
      EXPECT_GE(p, 0.0);
      total += p;
    }
    EXPECT_NEAR(total, 1.0, 1e-12) << "seed " << seed;
    for (const auto& row : a.likelihood) {
      for (const double l : row) {
        EXPECT_TRUE(std::isfinite(l) && l > 0.0) << "seed " << seed;
      }
    }
  }
}

}  // namespace
}  // namespace dryout::readings
