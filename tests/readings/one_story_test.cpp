// A sentence and its table of states say one thing; what another cause explains as well convicts
// nobody; what is left unsaid convicts no more than what is said. Where no source is named: common
// practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "readings/verdict.h"
#include "shipped_bench.h"

namespace dryout::readings {
namespace {

using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

ReadingInput lifted(const char* technology, Kind kind, double microfarad, double volts) {
  return lifted_and_zeroed(kind, {microfarad, volts, technology, Body::unknown});
}

const std::vector<ListedPart>& one_of_each() {
  static const std::vector<ListedPart> parts{{47, 25, "wet-aluminium", Body::radial},
                                             {10000, 63, "wet-aluminium", Body::can},
                                             {22, 450, "wet-aluminium", Body::axial},
                                             {10, 16, "surface-mount-aluminium", Body::smd},
                                             {10, 50, "bipolar-aluminium", Body::radial},
                                             {10, 35, "solid-tantalum", Body::radial},
                                             {330, 16, "polymer", Body::smd},
                                             {0.1, 400, "film", Body::unknown},
                                             {0.1, 275, "mains-film", Body::unknown},
                                             {0.022, 400, "paper", Body::unknown},
                                             {0.0003, 500, "mica", Body::unknown},
                                             {0.1, 50, "ceramic", Body::unknown},
                                             {0.001, 160, "polystyrene", Body::unknown},
                                             {0.5, 600, "oil-paper", Body::unknown},
                                             {1e5, 5.5, "supercap", Body::unknown}};
  return parts;
}

// --- a rail tells of all that hangs on it --------------------------------------------------------

// A diode, an overload, the regulator make the same ripple and the same volts.
TEST(OneStory, RippleAndVoltsNeverConvictAPartByThemselves) {
  for (const ListedPart& part : one_of_each()) {
    for (const Kind kind : {Kind::ripple, Kind::dc_volts}) {
      for (const double years : {5.0, 30.0, 60.0}) {
        ReadingInput input = lifted_and_zeroed(kind, part);
        input.in_circuit = true;
        input.across = Across::nothing;
        input.years = years;
        input.limit = 0.4 * part.volts;
        double least = 1.0;
        for (double times = 1.05; times < 300.0; times *= 1.3) {
          const double reading = kind == Kind::ripple ? times : 1.0 / times;
          const Assessment a = read_as_shipped(input, reading * *input.limit);
          EXPECT_GT(a.after.front(), 1.0 - convicted_from)
              << name_of_part(part) << ' ' << word_of(kind) << ' ' << reading << a.sentence;
          EXPECT_LE(a.after.front(), least + 1e-3)
              << name_of_part(part) << ' ' << word_of(kind) << ' ' << reading;
          least = std::min(least, a.after.front());
        }
      }
    }
  }
}

TEST(OneStory, TooHighARailAccusesNoCapacitor) {
  for (const ListedPart& part : one_of_each()) {
    ReadingInput input = lifted_and_zeroed(Kind::dc_volts, part);
    input.limit = 0.2 * part.volts;
    for (const double times : {1.2, 1.5, 2.0, 4.0}) {
      const Assessment a = read_as_shipped(input, times * *input.limit);
      EXPECT_EQ(a.after, a.before) << name_of_part(part) << ' ' << times << a.sentence;
    }
  }
}

TEST(OneStory, VoltsAboveTheRatingAreADangerBeforeTheyAreAReading) {
  for (const ListedPart& part : one_of_each()) {
    ReadingInput input = lifted_and_zeroed(Kind::dc_volts, part);
    for (const double times : {2.1, 4.0}) {
      for (const double due : {0.5, 1.0}) {
        input.limit = due * times * part.volts;
        const Assessment a = read_as_shipped(input, times * part.volts);
        EXPECT_THAT(a.sentence, StartsWith("STOP")) << name_of_part(part);
        EXPECT_NE(a.verdict, Verdict::within_limit);
        EXPECT_EQ(a.after, a.before);
        EXPECT_THAT(a.advice.front(), StartsWith("Stop"));
      }
    }
  }
  ReadingInput input = lifted("wet-aluminium", Kind::dc_volts, 1000, 50);
  input.limit = 62.0;
  EXPECT_THAT(read_as_shipped(input, 62.0).sentence, StartsWith("STOP: 62"));
  input.limit = 48.0;
  EXPECT_THAT(read_as_shipped(input, 48.0).sentence, Not(HasSubstr("STOP")));
}

// KEMET Engineering Center, how much do you derate tantalum capacitors: half for MnO2 types.
TEST(OneStory, ATantalumPartAboveHalfItsRatingIsTold) {
  ReadingInput input = lifted("solid-tantalum", Kind::dc_volts, 10, 35);
  input.limit = 33.0;
  EXPECT_THAT(read_as_shipped(input, 33.0).sentence, HasSubstr("above half"));
  input.limit = 15.0;  // 35 V on a 15 V rail is right
  EXPECT_THAT(read_as_shipped(input, 15.0).sentence, Not(HasSubstr("half")));
}

// --- a sentence and its figures ------------------------------------------------------------------

/// What the words accuse a part of, the figures do as well.
void expect_one_story(const Assessment& a, const std::string& name) {
  const std::string told = name + ": " + a.sentence;
  const double sound = a.after.front();
  if (a.sentence.find("the part is shorted") != std::string::npos) {
    EXPECT_GE(share(a, "shorted"), 0.5) << told;
  }
  if (a.sentence.find(": it leaks") != std::string::npos) {
    EXPECT_GE(share(a, "leaky") + std::max(share(a, "seeped"), 0.0), 0.3) << told;
    EXPECT_GE(share(a, "leaky"), share(a, "tired")) << told;
  }
  if (a.sentence.find("convicted") != std::string::npos ||
      a.sentence.find("loses too much") != std::string::npos ||
      a.sentence.find("is left: below") != std::string::npos) {
    EXPECT_LE(sound, 0.1 + 1e-9) << told;
  }
  if (a.sentence.find("more than any tolerance") != std::string::npos ||
      a.sentence.find("a path is there: a leak") != std::string::npos) {
    EXPECT_LE(sound, 0.5 + 1e-9) << told;
  }
  // Where a kind has no state for a leak (polystyrene), a leak goes by the name of a short.
  const double shorted = share(a, "leaky") < 0.0 ? 0.0 : share(a, "shorted");
  if (shorted > 0.7) {
    EXPECT_THAT(a.sentence, HasSubstr("short")) << name;
  }
}

TEST(OneStory, WordsAndFiguresOfEveryKindAgree) {
  for (const ListedPart& part : one_of_each()) {
    for (const double times : {1e-3, 0.1, 0.5, 0.7, 1.4, 2.5, 10.0, 100.0}) {
      expect_one_story(read_as_shipped(lifted_and_zeroed(Kind::capacitance, part),
                                       times * part.microfarad * 1e-6),
                       name_of_part(part) + " capacitance times " + std::to_string(times));
    }
    for (double ohms = 0.1; ohms < 1e9; ohms *= 3.0) {
      expect_one_story(read_as_shipped(lifted_and_zeroed(Kind::dc_resistance, part), ohms),
                       name_of_part(part) + " d.c. ohms " + std::to_string(ohms));
      ReadingInput input = lifted_and_zeroed(Kind::insulation, part);
      expect_one_story(read_as_shipped(input, ohms),
                       name_of_part(part) + " unsaid volts, ohms " + std::to_string(ohms));
      input.test_volts = input.rated;
      expect_one_story(read_as_shipped(input, ohms),
                       name_of_part(part) + " insulation " + std::to_string(ohms));
      input.kind = Kind::leakage_current;
      expect_one_story(read_as_shipped(input, part.volts / ohms),
                       name_of_part(part) + " leakage, ohms " + std::to_string(ohms));
    }
  }
}

// X = 1 / (2 pi 100 kHz 100 nF) = 15.9 ohm.
TEST(OneStory, NothingAtAllWhereReactanceShouldBeIsAShort) {
  for (const ListedPart& part : one_of_each()) {
    if (!has_dry_dielectric(part.technology)) {
      continue;
    }
    const Assessment whole = read_as_shipped(lifted_and_zeroed(Kind::impedance, part), 0.0);
    EXPECT_EQ(whole.verdict, Verdict::suspect_short) << name_of_part(part) << whole.sentence;
    EXPECT_GT(share(whole, "shorted"), 0.9) << name_of_part(part);
    const Assessment in_phase = read_as_shipped(lifted_and_zeroed(Kind::esr, part), 0.0);
    EXPECT_EQ(in_phase.verdict, Verdict::suspect_short) << in_phase.sentence;
    EXPECT_LT(in_phase.after.front(), in_phase.before.front());
    EXPECT_THAT(in_phase.sentence, HasSubstr("d.c. resistance"));
  }
}

// 1 uF of 0.4 ohm with 3.3 uH across reads 4.27 ohm at 100 kHz: Y = 1/(0.4 - j 1.592) +
// 1/(j 2.073).
TEST(OneStory, WhatAWindingExplainsConvictsNobodyAndIsNotCalledBelow) {
  for (const Across across : {Across::winding, Across::unknown}) {
    for (const Kind kind : {Kind::esr, Kind::impedance}) {
      ReadingInput input = lifted("wet-aluminium", kind, 1.0, 50);
      input.in_circuit = true;
      input.across = across;
      input.limit = 1.0;
      input.limit_kind = Kind::esr;
      const Assessment a = read_as_shipped(input, 4.27);
      EXPECT_NE(a.verdict, Verdict::over_limit) << a.sentence;
      EXPECT_GT(a.after.front(), 0.1) << a.sentence;
    }
  }
  ReadingInput input = lifted("wet-aluminium", Kind::esr, 2.2, 50);
  input.in_circuit = true;
  input.across = Across::winding;
  input.limit = 1.5;
  EXPECT_THAT(read_as_shipped(input, 2.4).sentence, Not(HasSubstr("is below")));
}

// --- what is not said ----------------------------------------------------------------------------

TEST(OneStory, InsulationAtUnknownVoltsConvictsNoMoreThanAtAnyThatTell) {
  for (const ListedPart& part : one_of_each()) {
    for (double ohms = 1e3; ohms < 1e13; ohms *= 3.0) {
      ReadingInput input = lifted_and_zeroed(Kind::insulation, part);
      const Assessment unsaid = read_as_shipped(input, ohms);
      EXPECT_NE(unsaid.verdict, Verdict::over_limit) << name_of_part(part) << ' ' << ohms;
      for (const double share_of_rating : {0.5, 0.75, 1.0}) {
        input.test_volts = quantities::volts(share_of_rating * part.volts);
        const Assessment said = read_as_shipped(input, ohms);
        EXPECT_GE(unsaid.after.front(), std::min(said.after.front(), unsaid.before.front()) - 1e-3)
            << name_of_part(part) << ' ' << ohms << " at " << share_of_rating << unsaid.sentence;
      }
    }
  }
}

// A library sheet of a double-layer series states its leakage after 30 minutes.
TEST(OneStory, ADoubleLayerPartIsNotCondemnedByWhatItTakesAtFirst) {
  ReadingInput input = lifted("supercap", Kind::leakage_current, 1e5, 5.5);
  input.test_volts = quantities::volts(5.0);
  const Assessment a = read_as_shipped(input, 1.5e-3);
  EXPECT_NE(a.verdict, Verdict::over_limit);
  EXPECT_THAT(a.sentence, HasSubstr("30 minutes"));
  EXPECT_GT(a.after.front(), 0.1);
}

// --- leakage of old parts, and what is too hot to be formed --------------------------------------

// JAN-C-62 (from memory): k C + 0.3 mA, k 0.01 mA/uF to 100 V, 0.04 above 350 V.
TEST(OneStory, OldPartsAreHeldToTheRuleOfTheirDay) {
  const auto limit_of = [](double microfarad, double volts, double years) {
    ReadingInput input = lifted("wet-aluminium", Kind::leakage_current, microfarad, volts);
    input.body = Body::axial;
    input.test_volts = quantities::volts(volts);
    input.years = years;
    return read_as_shipped(input, 1e-3).limit->value;
  };
  EXPECT_NEAR(limit_of(25, 25, 80), 550e-6, 1e-6);
  EXPECT_NEAR(limit_of(8, 450, 70), 620e-6, 1e-6);
  EXPECT_NEAR(limit_of(20, 450, 70), 1.1e-3, 1e-6);
  double before = 0.0;
  for (double years = 10; years < 90; years += 5) {
    const double now = limit_of(16, 450, years);
    EXPECT_GE(now, before) << years;
    before = now;
  }
  ReadingInput input = lifted("wet-aluminium", Kind::leakage_current, 16, 450);
  input.body = Body::axial;
  input.test_volts = quantities::volts(450);
  input.years = 50;
  EXPECT_NE(read_as_shipped(input, 472e-6).verdict, Verdict::over_limit);
  input.years = 80;
  EXPECT_THAT(read_as_shipped(input, 5e-3).limit_told, Not(HasSubstr("second-hand")));
}

// KEMET PEH169 (A4035): re-age at no more than twice the leakage limit or 5 mA.
TEST(OneStory, NobodyIsToldToFormAPartThatBoils) {
  for (const double amperes : {28e-3, 0.1875}) {
    ReadingInput input = lifted("wet-aluminium", Kind::leakage_current, 22, 450);
    input.body = Body::can;
    input.years = 60;
    input.test_volts = quantities::volts(450);
    const Assessment a = read_as_shipped(input, amperes);
    EXPECT_THAT(a.sentence, AnyOf(HasSubstr("Take the volts off"), HasSubstr("shorted")));
    EXPECT_THAT(a.sentence, Not(HasSubstr("before condemning")));
  }
  ReadingInput input = lifted("wet-aluminium", Kind::leakage_current, 10, 50);
  input.test_volts = quantities::volts(50);
  EXPECT_THAT(read_as_shipped(input, 1e-3).sentence, HasSubstr("through a resistor"));
}

// --- limits, prefixes, and what a check calls good -----------------------------------------------

// Loss falls with the rated volts up to 100 V in every maker's table (LIMITS 1b); a sheet of
// another grade must not make a pit in between.
TEST(OneStory, ALimitHasNoPitBetweenNeighbouringVolts) {
  for (const double microfarad : {100.0, 470.0, 1000.0, 2200.0}) {
    for (const Body body : {Body::axial, Body::radial, Body::can}) {
      double before = 0.0;
      for (const double volts : {10.0, 16.0, 25.0, 40.0, 63.0}) {
        const Assessment a = read_as_shipped(
            lifted_and_zeroed(Kind::esr, {microfarad, volts, "wet-aluminium", body}), 1.0);
        ASSERT_TRUE(a.limit);
        EXPECT_LE(a.limit->value, 1.6 * (before > 0.0 ? before : 1e9))
            << microfarad << " uF " << volts << " V " << word_of(body) << a.limit_told;
        before = a.limit->value;
      }
    }
  }
}

TEST(OneStory, AReadingAThousandTimesTheMarkIsALostPrefix) {
  ReadingInput input = lifted("film", Kind::capacitance, 4.7, 63);
  input.value = 0.47;
  const auto refused =
      assess_reading(input, {{"sound", "open"}, {1.0}, {{0.99, 0.01}}}, shipped_knowledge());
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(describe(refused.problems()), HasSubstr("4.7u"));
  input.value = 47e-6;
  EXPECT_TRUE(
      assess_reading(input, {{"sound", "open"}, {1.0}, {{0.99, 0.01}}}, shipped_knowledge()).ok());
}

TEST(OneStory, ANegativeRailIsReadAsItsSize) {
  ReadingInput input = lifted("wet-aluminium", Kind::dc_volts, 100, 25);
  input.limit = -12.0;
  EXPECT_EQ(read_as_shipped(input, -12.1).verdict, Verdict::within_limit);
  input.value = 12.0;
  const auto refused =
      assess_reading(input, {{"sound", "open"}, {1.0}, {{0.99, 0.01}}}, shipped_knowledge());
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(describe(refused.problems()), HasSubstr("other sign"));
}

TEST(OneStory, ASmallResistanceIsNoShortInADoubleLayerPart) {
  const ReadingInput input = lifted("supercap", Kind::esr, 1e6, 5.5);
  EXPECT_NE(read_as_shipped(input, 0.3).verdict, Verdict::suspect_short);
}

// What is held against a limit that goes by value and volts names no figure of its own.
TEST(OneStory, WhatAChecksTextCallsGoodIsTheLimitItself) {
  int asked = 0;
  for (const knowledge::CheckRule& check : rules_as_shipped().checks) {
    const bool by_limit = check.good.find("loss") != std::string::npos ||
                          check.good.find("nsulation") != std::string::npos ||
                          check.quantity == "esr" ||
                          (check.quantity == "leakage" && check.id.starts_with("lifted"));
    if (by_limit && check.id != "can-sections") {
      ++asked;
      EXPECT_THAT(check.good, AnyOf(HasSubstr("limit that is shown"), Not(HasSubstr("elow"))))
          << check.id;
    }
  }
  EXPECT_GT(asked, 4);
}

}  // namespace
}  // namespace dryout::readings
