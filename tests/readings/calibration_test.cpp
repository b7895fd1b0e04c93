// Do stated probabilities come true? Twenty thousand parts are drawn from the world as the model
// says it is (this file draws and measures them with formulas of its own), each is read once and
// assessed, and P(not sound) is held against how often the part was not sound. Then the same with
// every stated limit wrong by a factor of 1.5, to show what a wrong limit costs.
#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <cstdio>
#include <random>

#include "circuit/capacitor_model.h"
#include "priors.h"

namespace dryout::readings {
namespace {

struct World {
  double limit_error = 1.0;  ///< stated over what the arithmetic takes it for
};

struct Drawn {
  ReadingInput input;
  bool sound = false;
};

std::size_t draw(std::mt19937_64& random, const std::vector<double>& weights) {
  return std::discrete_distribution<std::size_t>(weights.begin(), weights.end())(random);
}

double log_normal(std::mt19937_64& random, double median, double spread) {
  return median * std::exp(std::normal_distribution<double>(0.0, spread)(random));
}

/// The part's resistance by state, as states.cpp words it.
double draw_resistance(std::mt19937_64& random, const std::string& state, double age,
                       double own_limit) {
  const StateSpread spread = resistance_spread(state, age);
  if (is_absolute(state)) {
    return log_normal(random, spread.median, spread.log_spread);
  }
  // By what the words mean a sound part is within its own limit, a tired or dried one beyond it.
  for (;;) {
    const double times = log_normal(random, spread.median, spread.log_spread) *
                         log_normal(random, 1.0, type_log_spread);
    const Side side = side_of(state);
    if (side == Side::either || (times <= 1.0) == (side == Side::within)) {
      return times * own_limit;
    }
  }
}

Drawn draw_reading(std::mt19937_64& random, const World& world) {
  const Priors priors = wet_priors();
  Drawn drawn;
  ReadingInput& input = drawn.input;
  input.capacitance = quantities::microfarads(log_normal(random, 47.0, 1.0));
  input.kind = random() % 2 == 0 ? Kind::esr : Kind::impedance;
  input.limit_kind = Kind::esr;
  input.temperature = quantities::Celsius(20.0);
  input.lead_zero = quantities::ohms(0.1);
  const LimitSource sources[] = {LimitSource::datasheet, LimitSource::look_alike,
                                 LimitSource::general_table};
  input.limit_source = sources[random() % 3];
  const double own_limit = log_normal(random, 2.0, 0.7);
  const Rung& rung = rung_of(input.limit_source);
  input.limit = world.limit_error * log_normal(random, own_limit / rung.factor, rung.log_spread);
  const std::size_t level = draw(random, priors.levels);
  const std::string state = priors.states[draw(random, priors.given_level[level])];
  drawn.sound = state == "sound";
  const double r = draw_resistance(random, state, static_cast<double>(level) / 2.0, own_limit);
  const double kept = capacitance_kept(state);
  const double x =
      kept == 0.0 ? 0.0 : circuit::reactance(*input.capacitance, input.frequency).si() / kept;
  std::complex<double> y = 1.0 / std::complex<double>(r, -x);
  input.across = random() % 2 == 0 ? Across::nothing : Across::low_resistor;
  if (input.across == Across::low_resistor) {
    // A log-normal resistor as the model's grid has it: within two spreads.
    double z = 3.0;
    while (std::abs(z) > 2.2) {
      z = std::normal_distribution<double>()(random);
    }
    y += 1.0 / (10.0 * std::exp(z));
  }
  const std::complex<double> seen = 1.0 / y;
  const double shown = input.kind == Kind::esr ? seen.real() : std::abs(seen);
  const double spread = std::hypot(0.05, 0.02 / std::max(shown, 0.02));
  input.value = 0.1 + log_normal(random, std::max(shown, 1e-6), spread);
  return drawn;
}

struct Reliability {
  static constexpr int bins = 10;
  double stated[bins] = {};
  double happened[bins] = {};
  int count[bins] = {};

  void add(double probability, bool event) {
    const int bin = std::min(static_cast<int>(probability * bins), bins - 1);
    stated[bin] += probability;
    happened[bin] += event ? 1.0 : 0.0;
    ++count[bin];
  }
  /// Expected calibration error: mean |stated - happened| over all readings.
  [[nodiscard]] double error() const {
    double sum = 0.0;
    int total = 0;
    for (int b = 0; b < bins; ++b) {
      sum += std::abs(stated[b] - happened[b]);
      total += count[b];
    }
    return sum / total;
  }
  void print(const char* title) const {
    std::printf("%s\n  stated  happened  readings\n", title);
    for (int b = 0; b < bins; ++b) {
      if (count[b] > 0) {
        std::printf("  %.3f   %.3f     %d\n", stated[b] / count[b], happened[b] / count[b],
                    count[b]);
      }
    }
    std::printf("  expected calibration error %.4f\n", error());
  }
};

Reliability simulate(const World& world, int readings, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  const Priors priors = wet_priors();
  Reliability reliability;
  for (int i = 0; i < readings; ++i) {
    const Drawn drawn = draw_reading(random, world);
    const auto assessment = assess_reading(drawn.input, priors, ReadingKnowledge{});
    if (!assessment.ok()) {
      ADD_FAILURE() << "refused: " << describe(assessment.problems());
      return reliability;
    }
    reliability.add(1.0 - assessment->after.front(), !drawn.sound);
  }
  return reliability;
}

TEST(Calibration, StatedProbabilitiesComeTrueWhenTheWorldIsAsModelled) {
  const Reliability reliability = simulate({}, 20000, 20260304);
  reliability.print("P(not sound), world as modelled");
  EXPECT_LT(reliability.error(), 0.03);
}

TEST(Calibration, LimitsOffByHalfAgainAreReported) {
  const Reliability high = simulate({1.5}, 5000, 7);
  high.print("P(not sound), every stated limit 1.5 times too high");
  const Reliability low = simulate({1.0 / 1.5}, 5000, 8);
  low.print("P(not sound), every stated limit 1.5 times too low");
  RecordProperty("error_limits_high", std::to_string(high.error()));
  RecordProperty("error_limits_low", std::to_string(low.error()));
  // Wrong limits must cost something, or the simulation does not test what it says.
  EXPECT_GT(high.error() + low.error(), 0.02);
}

}  // namespace
}  // namespace dryout::readings
