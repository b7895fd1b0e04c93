// Each kind of part by its own quantities. Sources stand beside the figures.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "knowledge/load.h"
#include "priors.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using namespace quantities;  // NOLINT: makers of quantities, in a test

const knowledge::KnowledgeBase& shipped_rules() {
  static const knowledge::KnowledgeBase rules = *knowledge::load({DRYOUT_SOURCE_DIR});
  return rules;
}

Assessment assessed_of(ReadingInput input, double value, double years = 30.0) {
  input.value = value;
  input.years = years;
  const auto* technology = find(shipped_rules().technologies, input.technology);
  const auto a = assess_reading(input, priors_of(*technology, shipped_rules().ageing, years),
                                shipped_knowledge());
  return a.ok() ? *a : Assessment{};
}

ReadingInput lifted(const char* technology, double farads, double rated) {
  ReadingInput input;
  input.technology = technology;
  input.capacitance = Farad(farads);
  input.rated = Volt(rated);
  input.in_circuit = false;
  input.lead_zero = ohms(0.0);
  return input;
}

// A coupling to a valve grid matters from about 0.1 uA (common practice, no source); a polyester
// sheet asks at least 10 gigohm below 0.33 uF, which is 0.04 uA at 400 V.
TEST(Families, AMicroampereThroughACouplingPartIsLeakage) {
  for (const char* technology : {"film", "paper"}) {
    ReadingInput input = lifted(technology, 22e-9, 400.0);
    input.kind = Kind::leakage_current;
    input.test_volts = volts(400.0);
    const Assessment a = assessed_of(input, 1e-6);
    EXPECT_EQ(a.verdict, Verdict::over_limit) << technology << ": " << a.sentence;
    EXPECT_THAT(a.sentence, Not(HasSubstr("re-form")));
    EXPECT_EQ(assessed_of(input, 5e-9).verdict, Verdict::within_limit) << technology;
  }
}

TEST(Families, LeakageReadAtAFractionOfTheWorkingVoltsClearsNobody) {
  ReadingInput input = lifted("film", 22e-9, 400.0);
  input.kind = Kind::leakage_current;
  input.test_volts = volts(9.0);
  const Assessment a = assessed_of(input, 1e-9);
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_THAT(a.sentence, HasSubstr("200 V or more"));
  input.test_volts.reset();
  EXPECT_EQ(assessed_of(input, 1e-9).verdict, Verdict::not_proven);
}

TEST(Families, InsulationIsHeldAgainstWhatTheDielectricPromises) {
  ReadingInput input = lifted("film", 100e-9, 400.0);
  input.kind = Kind::insulation;
  input.test_volts = volts(250.0);
  EXPECT_EQ(assessed_of(input, 100e9).verdict, Verdict::within_limit);
  EXPECT_EQ(assessed_of(input, 2e6).verdict, Verdict::over_limit);
  input.over_range = true;
  EXPECT_EQ(assessed_of(input, 0.0).verdict, Verdict::within_limit);
}

// Re-forming is for aluminium with an electrolyte alone.
TEST(Families, OnlyAluminiumElectrolyticsAreReFormed) {
  for (const auto& technology : shipped_rules().technologies) {
    ReadingInput input = lifted(technology.id.c_str(), 1e-6, 100.0);
    input.kind = Kind::leakage_current;
    input.test_volts = volts(100.0);
    const Assessment a = assessed_of(input, 0.05);
    if (is_aluminium_electrolytic(technology.id)) {
      EXPECT_THAT(a.sentence, HasSubstr("re-form")) << technology.id;
    } else {
      EXPECT_THAT(a.sentence, Not(HasSubstr("re-form"))) << technology.id;
    }
  }
}

// 1 / (2 pi 100 kHz 0.1 uF) = 15.9 ohm.
TEST(Families, AnEsrTesterShowsTheReactanceOfASmallDryPart) {
  for (const char* technology : {"film", "paper", "mica", "ceramic", "polystyrene", "mains-film"}) {
    const Assessment a = assessed_of(lifted(technology, 100e-9, 100.0), 16.0);
    EXPECT_EQ(a.verdict, Verdict::not_proven) << technology;
    EXPECT_THAT(a.sentence, HasSubstr("15.9")) << technology;
    EXPECT_EQ(a.after, a.before);
  }
}

// Double-layer cells of 0.1 F 5.5 V: tens of ohms when new (from memory, and rows of the library).
TEST(Families, TensOfOhmsAreSoundInADoubleLayerPart) {
  const Assessment a = assessed_of(lifted("supercap", 0.1, 5.5), 45.0);
  EXPECT_NE(a.verdict, Verdict::over_limit) << a.sentence;
  EXPECT_GE(a.after.front(), a.before.front() - 1e-9);
  ReadingInput hold = lifted("supercap", 0.1, 5.5);
  hold.kind = Kind::hold_up;
  hold.limit = 3600.0 * 24.0;
  EXPECT_EQ(assessed_of(hold, 3600.0 * 20.0).verdict, Verdict::within_limit);
  EXPECT_EQ(assessed_of(hold, 600.0).verdict, Verdict::over_limit);
}

TEST(Families, FarAboveTheMarkIsAVerdictOfItsOwn) {
  ReadingInput input = lifted("wet-aluminium", 47e-6, 25.0);
  input.kind = Kind::capacitance;
  const Assessment a = assessed_of(input, 2.5 * 47e-6);
  EXPECT_EQ(a.verdict, Verdict::above_mark);
  EXPECT_THAT(a.sentence, Not(HasSubstr("has its capacitance")));
  EXPECT_EQ(assessed_of(input, 47e-6).verdict, Verdict::within_limit);
  EXPECT_EQ(assessed_of(input, 20e-6).verdict, Verdict::over_limit);
  // Old cans were made to -20/+80 % (common practice, no source).
  input.body = Body::can;
  EXPECT_EQ(assessed_of(input, 1.6 * 47e-6, 60.0).verdict, Verdict::within_limit);
}

TEST(Families, NothingAtAllAsksForTheDirectCurrentResistance) {
  for (const double microfarad : {10.0, 470.0, 10000.0}) {
    const Assessment a = assessed_of(lifted("wet-aluminium", microfarad * 1e-6, 50.0), 0.0);
    EXPECT_EQ(a.verdict, Verdict::suspect_short) << microfarad;
  }
  ReadingInput input = lifted("wet-aluminium", 47e-6, 25.0);
  input.kind = Kind::capacitance;
  EXPECT_EQ(assessed_of(input, 0.0).verdict, Verdict::over_limit);
}

TEST(Families, OverRangeIsAnAnswerOnlyWhereNoEndOfOhmsIsOne) {
  ReadingInput input = lifted("wet-aluminium", 47e-6, 25.0);
  input.over_range = true;
  EXPECT_EQ(assessed_of(input, 0.0, 40.0).verdict, Verdict::over_limit);
  input.kind = Kind::dc_resistance;
  EXPECT_EQ(assessed_of(input, 0.0).verdict, Verdict::within_limit);
  for (const Kind kind : {Kind::capacitance, Kind::leakage_current, Kind::dissipation, Kind::ripple,
                          Kind::dc_volts, Kind::hold_up}) {
    input.kind = kind;
    const Assessment a = assessed_of(input, 0.0);
    EXPECT_EQ(a.verdict, Verdict::no_reading) << word_of(kind);
    EXPECT_EQ(a.after, a.before) << word_of(kind);
  }
  ReadingInput small = lifted("wet-aluminium", 100e-9, 50.0);
  small.over_range = true;
  EXPECT_EQ(assessed_of(small, 0.0).verdict, Verdict::no_reading);
}

// tan delta = 2 pi f C R (definition): D 0.5 at 120 Hz of 100 uF is 6.63 ohm.
TEST(Families, LossIsHeldAgainstTheSheetsOwnFrequency) {
  ReadingInput input = lifted("wet-aluminium", 100e-6, 25.0);
  input.kind = Kind::dissipation;
  input.frequency = hertz(120.0);
  const Assessment bad = assessed_of(input, 0.9);
  EXPECT_EQ(bad.verdict, Verdict::over_limit) << bad.sentence;
  EXPECT_THAT(assessed_of(input, 0.5).sentence, HasSubstr("6.63"));
  EXPECT_EQ(assessed_of(input, 0.03).verdict, Verdict::within_limit);
}

// JAN-C-62 (second-hand): about 1.1 mA for 20 uF 450 V.
TEST(Families, ACanOfThe1950sMayLeakAsItsTimeAllowed) {
  ReadingInput input = lifted("wet-aluminium", 20e-6, 450.0);
  input.kind = Kind::leakage_current;
  input.body = Body::can;
  input.test_volts = volts(450.0);
  const Assessment old = assessed_of(input, 0.6e-3, 70.0);
  EXPECT_NE(old.verdict, Verdict::over_limit) << old.sentence;
  ASSERT_TRUE(old.limit);
  EXPECT_NEAR(old.limit->value, 1.1e-3, 0.05e-3);
}

// A class 2 ceramic loses at most 2.5 % (KEMET C0805C474K5R, second-hand): 100 nF across an open
// part still reads 0.025 x 15.9 = 0.40 ohm in phase at 100 kHz.
TEST(Families, ACeramicAcrossAnOpenPartHasItsOwnLoss) {
  ReadingInput input = lifted("wet-aluminium", 10e-6, 16.0);
  input.in_circuit = true;
  input.across = Across::ceramic;
  const Assessment a = assessed_of(input, 0.4);
  ASSERT_TRUE(a.reading_if_open);
  EXPECT_NEAR(*a.reading_if_open, 0.40, 0.05);
}

// 1 uF with 0.4 ohm and 3.3 uH across at 100 kHz: Y = 1/(0.4 - j 1.592) + 1/(j 2.073), |Z| = 4.27
// ohm by hand: in resonance with a winding a good part reads many times its own resistance.
TEST(Families, AWindingAcrossCanRaiseAReadingAndConvictsNobody) {
  ReadingInput input = lifted("wet-aluminium", 1e-6, 50.0);
  input.in_circuit = true;
  input.across = Across::winding;
  input.kind = Kind::impedance;
  input.limit = 2.0;
  input.limit_kind = Kind::esr;
  const Assessment a = assessed_of(input, 4.27);
  EXPECT_NE(a.verdict, Verdict::over_limit) << a.sentence;
}

// Ohm's law: 400 V over 4 GOhm are 0.1 uA. What is one current has one verdict and one posterior.
TEST(Families, LeakageAndInsulationOfOneCurrentAgree) {
  int passed = 0;
  int convicted = 0;
  for (const char* technology : {"paper", "oil-paper", "film", "mains-film", "mica", "ceramic",
                                 "polystyrene", "wet-aluminium", "solid-tantalum"}) {
    for (const double rated : {25.0, 160.0, 400.0}) {
      for (const double share : {0.2, 0.6, 1.0}) {
        for (const double uf : {0.001, 0.022, 0.47, 22.0}) {
          for (double amperes = 1e-12; amperes < 1.0; amperes *= 2.7) {
            for (const bool in_circuit : {false, true}) {
              ReadingInput input;
              input.kind = Kind::leakage_current;
              input.technology = technology;
              input.capacitance = quantities::microfarads(uf);
              input.rated = quantities::volts(rated);
              input.test_volts = quantities::volts(share * rated);
              input.in_circuit = in_circuit;
              const Assessment leak = assessed(input, amperes);
              input.kind = Kind::insulation;
              const Assessment ohms = assessed(input, share * rated / amperes);
              EXPECT_EQ(leak.verdict, ohms.verdict)
                  << technology << ' ' << rated << " V, tested at " << share * rated << " V, "
                  << amperes << " A: " << leak.sentence << " / " << ohms.sentence;
              EXPECT_NEAR(leak.after.front(), ohms.after.front(), 1e-9);
              passed += leak.verdict == Verdict::within_limit ? 1 : 0;
              convicted += leak.verdict == Verdict::over_limit ? 1 : 0;
            }
          }
        }
      }
    }
  }
  EXPECT_GT(passed, 100);
  EXPECT_GT(convicted, 100);
}

// No sheet was asked: the figure is the mark's, the tolerance what is usual (letter M of IEC
// 60062).
TEST(Families, AVerdictOnCapacitanceCitesMarkAndToleranceAndNoSheet) {
  for (const char* technology : {"wet-aluminium", "mica", "film", "paper", "ceramic"}) {
    for (const double share : {0.3, 0.79, 0.95, 1.0, 2.5}) {
      ReadingInput input;
      input.kind = Kind::capacitance;
      input.technology = technology;
      input.capacitance = quantities::microfarads(1.0);
      input.in_circuit = false;
      const Assessment a = assessed(input, share * 1e-6);
      EXPECT_EQ(a.limit_told.find("data sheet"), std::string::npos) << a.limit_told;
      EXPECT_NE(a.limit_told.find("the mark"), std::string::npos) << a.limit_told;
      EXPECT_NE(a.limit->source, LimitSource::datasheet);
    }
  }
}

TEST(Families, WhatShouldBeOnARailIsNoPartsDataSheet) {
  for (const Kind kind : {Kind::ripple, Kind::dc_volts, Kind::hold_up}) {
    ReadingInput input;
    input.kind = kind;
    input.limit = 12.0;
    EXPECT_EQ(assessed(input, 11.0).limit_told.find("data sheet"), std::string::npos);
    input.limit_document = "service manual, page 12";
    EXPECT_NE(assessed(input, 11.0).limit_told.find("page 12"), std::string::npos);
  }
}

}  // namespace
}  // namespace dryout::readings
