// What may be bought, against standards and published figures named beside each.
#include "decision/substitution.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "decision/sold_parts.h"

namespace dryout::decision {
namespace {

using quantities::microfarads;
using quantities::volts;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;

const SubstitutionRules& rules() {
  static const SubstitutionRules loaded = *load_substitution_rules({DRYOUT_SOURCE_DIR});
  return loaded;
}

PartNeed part(const char* role, const char* technology, double uf, double v) {
  PartNeed need;
  need.reference = "C1";
  need.role = role;
  need.technology = technology;
  need.capacitance = microfarads(uf);
  need.rated = volts(v);
  return need;
}

PartNeed on_rail(PartNeed need, const char* kind, double v) {
  need.rail_kind = kind;
  need.rail_volts = volts(v);
  return need;
}

double uf(const Substitute& fit) { return quantities::in_microfarads(fit.capacitance); }

TEST(MainsParts, AreNeverLikeForLike) {
  // IEC 60384-14 (from memory): X from line to line, Y from line to earth or to what is touched;
  // Y1 across double insulation, Y2 across basic insulation; ratings in volts a.c.
  for (const char* technology : {"paper", "oil-paper", "mains-film", "film", "ceramic", "mica"}) {
    for (const double marked : {0.0, 250.0, 275.0, 400.0, 600.0, 1000.0}) {
      for (const char* role : {"mains-x", "mains-y"}) {
        const Substitute fit =
            substitute_for(on_rail(part(role, technology, 0.01, marked), "mains", 230), rules());
        EXPECT_TRUE(fit.certified);
        EXPECT_EQ(fit.safety_class[0], role[6] == 'x' ? 'X' : 'Y') << technology;
        EXPECT_GE(fit.rated.si(), 253.0) << "230 V and a tenth";
        EXPECT_LE(fit.rated.si(), 500.0) << "no class is rated above 500 V a.c. (from memory)";
        EXPECT_THAT(fit.advice, Contains(HasSubstr("local code")));
      }
    }
  }
}

TEST(MainsParts, ADirectCurrentMarkIsNoRatingForTheMains) {
  const Substitute fit =
      substitute_for(on_rail(part("mains-x", "paper", 0.05, 600), "mains", 230), rules());
  EXPECT_DOUBLE_EQ(fit.rated.si(), 275.0);
  EXPECT_EQ(fit.safety_class, "X2");
  EXPECT_EQ(fit.technology, "mains-film");
  EXPECT_NEAR(uf(fit), 0.047, 1e-9);
  EXPECT_THAT(fit.why, Contains(AllOf(HasSubstr("600 V"), HasSubstr("direct current"))));
}

TEST(MainsParts, FromLineToTouchedMetalTheValueIsLimitedByTouchCurrent) {
  // 0.25 mA: IEC 60950:1999, table 5A, as quoted in IEEE emc-pstc message 22769. I = 2 pi f C U by
  // hand: 10 nF at 253 V 50 Hz let 0.795 mA through, 3.3 nF 0.262 mA, 2.2 nF 0.175 mA.
  const Substitute fit =
      substitute_for(on_rail(part("mains-y", "paper", 0.01, 600), "mains", 230), rules());
  EXPECT_EQ(fit.safety_class, "Y1");
  EXPECT_NEAR(uf(fit), 0.0022, 1e-9);
  EXPECT_THAT(fit.why, Contains(AllOf(HasSubstr("2.2 nF"), HasSubstr("0.17"), HasSubstr("10 nF"))));
  EXPECT_THAT(fit.advice, Contains(AllOf(HasSubstr("three-wire lead"), HasSubstr("licensed"))));
  for (const double old_uf : {0.001, 0.002, 0.0047, 0.01, 0.05, 0.1}) {
    for (const double mains : {120.0, 230.0}) {
      PartNeed need = on_rail(part("mains-y", "paper", old_uf, 400), "mains", mains);
      need.mains.volts = volts(mains);
      const Substitute each = substitute_for(need, rules());
      const double hertz = mains < 150 ? 60.0 : 50.0;
      EXPECT_LE(2 * std::numbers::pi * hertz * each.capacitance.si() * 1.1 * mains, 0.25e-3);
      EXPECT_LE(uf(each), old_uf * 1.1 + 1e-12);
      EXPECT_TRUE(quantities::is_preferred(each.capacitance, quantities::Series::e6));
    }
  }
}

TEST(MainsParts, ACertifiedPartToEarthedMetalKeepsItsValueUnderTheEarthedLimit) {
  // 4.7 nF at 253 V 50 Hz: 0.374 mA, under 0.75 mA (in-service limit, from memory).
  PartNeed earthed = on_rail(part("mains-y", "ceramic", 0.0047, 250), "mains", 230);
  earthed.earthed = true;
  const Substitute fit = substitute_for(earthed, rules());
  EXPECT_NEAR(uf(fit), 0.0047, 1e-9);
  EXPECT_EQ(fit.safety_class, "Y2");
  EXPECT_DOUBLE_EQ(fit.rated.si(), 300.0);
  const Substitute across =
      substitute_for(on_rail(part("mains-y", "ceramic", 0.0022, 250), "primary", 325), rules());
  EXPECT_EQ(across.safety_class, "Y1") << "from the mains side to the output";
}

TEST(MainsParts, ThePlaceDecidesTheClassWhateverTheOldPartWasMadeOf) {
  // Y1 across double insulation, Y2 across basic insulation (IEC 60384-14, from memory): which of
  // them it is follows from the earth wire, not from the material somebody soldered in.
  for (const bool earthed : {false, true}) {
    for (const char* technology :
         {"", "paper", "oil-paper", "mains-film", "film", "ceramic", "mica", "polystyrene"}) {
      for (const double old_uf : {0.001, 0.0022, 0.0047, 0.01, 0.047}) {
        PartNeed need = on_rail(part("mains-y", technology, old_uf, 1000), "mains", 230);
        need.earthed = earthed;
        const Substitute fit = substitute_for(need, rules());
        EXPECT_EQ(fit.safety_class, earthed ? "Y2" : "Y1") << technology;
        EXPECT_LE(touch_current(fit.capacitance, need.mains).si(), earthed ? 0.75e-3 : 0.25e-3);
        EXPECT_EQ(fit.technology, "ceramic");
      }
    }
  }
}

TEST(TouchCurrent, IsSharedOutAmongAllThatBridge) {
  // By hand, 253 V 50 Hz: 0.25 mA are 3.145 nF. 10 nF beside twice 1 nF: an even share is 1.05 nF,
  // so the two keep theirs and 1.15 nF are left.
  const Mains mains;
  const auto shares = share_out(capacitance_for(touch_limit_unearthed, mains),
                                {microfarads(0.01), microfarads(0.001), microfarads(0.001)});
  EXPECT_NEAR(shares[0].si(), 1.145e-9, 0.01e-9);
  EXPECT_DOUBLE_EQ(shares[1].si(), 1e-9);
  EXPECT_DOUBLE_EQ(shares[2].si(), 1e-9);
  for (const quantities::Farad allowed : {microfarads(0.0001), microfarads(0.003)}) {
    for (const std::vector<quantities::Farad>& wanted :
         {std::vector{microfarads(0.0)}, std::vector{microfarads(0.0), microfarads(0.002)},
          std::vector{microfarads(0.01), microfarads(0.01), microfarads(0.0005)}}) {
      quantities::Farad sum(0.0);
      for (const quantities::Farad each : share_out(allowed, wanted)) {
        sum += each;
        EXPECT_GT(each.si(), 0.0);
      }
      EXPECT_LE(sum.si(), allowed.si() * (1 + 1e-12));
    }
  }
  PartNeed need = on_rail(part("mains-y", "paper", 0.01, 600), "mains", 230);
  need.bridging_beside = {microfarads(0.001), microfarads(0.001)};
  const Substitute fit = substitute_for(need, rules());
  EXPECT_NEAR(uf(fit), 0.001, 1e-12);
  EXPECT_THAT(fit.why, Contains(AllOf(HasSubstr("2 other parts"), HasSubstr("0.24 mA in all"))));
}

TEST(MainsParts, AnUnknownValueIsToldItsBound) {
  const Substitute fit =
      substitute_for(on_rail(part("mains-y", "paper", 0, 0), "mains", 230), rules());
  EXPECT_EQ(fit.capacitance, quantities::Farad(0));
  EXPECT_THAT(fit.why, Contains(HasSubstr("At most 2.2 nF")));
}

TEST(MainsParts, WhateverTaskAPartOnTheMainsHasItIsASuppressor) {
  const Substitute fit =
      substitute_for(on_rail(part("rf-decoupling", "paper", 0.01, 1000), "mains", 230), rules());
  EXPECT_TRUE(fit.certified);
  EXPECT_EQ(fit.safety_class, "X2");
  EXPECT_DOUBLE_EQ(fit.rated.si(), 275.0);
}

TEST(MainsParts, AcrossARectifierOnTheMainsTheRailsNameDoesNotMatter) {
  // Peak across a half-wave rectifier into a capacitor: twice that of the mains (textbook). 253 V
  // a.c.: 716 V, the peak of 506 V a.c.
  for (const char* rail : {"", "mains", "high-tension", "raw", "primary", "my-own-word"}) {
    for (const char* technology :
         {"", "paper", "oil-paper", "film", "mains-film", "mica", "polystyrene", "ceramic"}) {
      for (const double marked : {0.0, 400.0, 600.0, 1000.0}) {
        PartNeed need = on_rail(part("rectifier-suppressor", technology, 0.05, marked), rail, 220);
        need.on_the_mains = true;
        const Substitute fit = substitute_for(need, rules());
        EXPECT_EQ(fit.safety_class, "X1") << rail << ' ' << technology;
        EXPECT_GE(fit.rated.si(), 506.0) << rail << ' ' << technology;
        EXPECT_EQ(fit.technology, "mains-film") << rail << ' ' << technology;
        EXPECT_NEAR(uf(fit), 0.047, 1e-9);
      }
    }
  }
}

TEST(MainsParts, EveryTechnologyFromTheMainsToMetalHasAClass) {
  for (const char* technology :
       {"", "paper", "oil-paper", "film", "mains-film", "mica", "polystyrene", "ceramic",
        "wet-aluminium", "bipolar-aluminium", "solid-tantalum", "trimmer"}) {
    PartNeed need = on_rail(part("mains-y", technology, 0.01, 0), "", 0);
    EXPECT_TRUE(substitute_for(need, rules()).safety_class.starts_with('Y')) << technology;
    need.live_chassis = true;
    const Substitute fit = substitute_for(need, rules());
    EXPECT_EQ(fit.safety_class, "Y1") << technology << ": nothing else stands between";
    EXPECT_LE(uf(fit), 0.0031) << "0.25 mA at 253 V 50 Hz: 3.1 nF";
  }
}

TEST(AlternatingVolts, AreInTheLineThatIsBought) {
  // Behind a transformer: a centre-tapped winding of the rail's volts a half has twice that across.
  const Substitute fit = substitute_for(
      on_rail(part("rectifier-suppressor", "paper", 0.01, 1000), "high-tension", 280), rules());
  EXPECT_TRUE(fit.pulse_rated);
  EXPECT_GE(fit.ac_min.si(), 560.0);
  EXPECT_GE(fit.rated.si(), 1000.0);
  EXPECT_EQ(fit.technology, "film");
  const Substitute low =
      substitute_for(on_rail(part("rectifier-suppressor", "ceramic", 0.1, 50), "raw", 38), rules());
  EXPECT_GE(low.rated.si(), 2 * 38.0) << "each diode of a centre-tapped rectifier blocks twice";
  const Substitute buffer = substitute_for(
      on_rail(part("vibrator-buffer", "oil-paper", 0.007, 0), "secondary", 230), rules());
  EXPECT_TRUE(buffer.pulse_rated);
  EXPECT_GE(buffer.ac_min.si(), 460.0);
  EXPECT_GE(buffer.rated.si(), 1600.0) << "what the trade fits (common practice, no source)";
}

TEST(AlternatingVolts, AMotorsPartStandsTheMainsAtTheirHighest) {
  const Substitute fit = substitute_for(part("motor-run", "oil-paper", 2, 250), rules());
  EXPECT_TRUE(fit.certified);
  EXPECT_GE(fit.rated.si(), 253.0) << "230 V and a tenth";
  // Rated volts of motor capacitors: 250, 400, 450, 475, 500 V a.c. (IEC 60252-1, from memory).
  for (const double marked : {0.0, 200.0, 250.0, 330.0, 370.0, 440.0, 480.0}) {
    const double sold =
        substitute_for(part("motor-run", "oil-paper", 2, marked), rules()).rated.si();
    EXPECT_TRUE(marked == 0.0 || sold == 400.0 || sold == 450.0 || sold == 475.0 || sold == 500.0)
        << marked << ": " << sold;
    EXPECT_GE(sold, marked);
  }
}

TEST(AlternatingVolts, ASuppressorIsRatedAsItsRuleSays) {
  // Twice the reservoir's volts and half as much again, as the rule's title and because have it.
  for (const double rail : {12.0, 24.0, 38.0, 50.0, 90.0}) {
    const Substitute fit = substitute_for(
        on_rail(part("rectifier-suppressor", "ceramic", 0.01, 100), "raw", rail), rules());
    EXPECT_GE(fit.rated.si(), 3.0 * rail) << rail;
  }
}

TEST(Tantalum, IsRatedAgainstItsRail) {
  // Half the rating or less on the rail: KEMET, how much do you derate tantalum capacitors (as the
  // rule's source says); ratings by the derating table of a tantalum series (AVX TPS: 2.5 4 6.3 10
  // 16 20 25 35 50 V).
  const auto rated = [](double marked, double rail) {
    return substitute_for(
               on_rail(part("tantalum-rail", "solid-tantalum", 10, marked), "regulated", rail),
               rules())
        .rated.si();
  };
  EXPECT_DOUBLE_EQ(rated(35, 15), 35.0) << "right as it is: not 80";
  EXPECT_DOUBLE_EQ(rated(16, 5), 16.0);
  EXPECT_DOUBLE_EQ(rated(16, 12), 25.0) << "the old one was too near its rail";
  EXPECT_DOUBLE_EQ(rated(25, 12), 25.0);
  EXPECT_DOUBLE_EQ(rated(0, 15), 35.0) << "no mark: the rail says it";
  for (const double marked : {4.0, 6.3, 10.0, 16.0, 20.0, 25.0, 35.0, 50.0}) {
    EXPECT_DOUBLE_EQ(
        substitute_for(part("tantalum-rail", "solid-tantalum", 10, marked), rules()).rated.si(),
        marked)
        << "without a rail nothing is doubled";
  }
}

TEST(ValveRectifier, LimitsTheReservoirToo) {
  // A 5Y3 takes at most 20 uF as first capacitor (tubeofile.com, page 5Y3): an old 16 may become
  // 15, never 33; an old 8 may become 10.
  for (const char* role : {"reservoir", "multi-section-can", "smoothing"}) {
    for (const double old_uf : {4.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 30.0, 32.0, 40.0, 50.0}) {
      PartNeed need = on_rail(part(role, "wet-aluminium", old_uf, 450), "high-tension", 280);
      need.behind_valve_rectifier = true;
      const Substitute fit = substitute_for(need, rules());
      EXPECT_LE(uf(fit), old_uf * 1.25 + 1e-9) << role << ' ' << old_uf;
      EXPECT_GE(uf(fit), old_uf * 0.9 - 1e-9) << role << ' ' << old_uf;
      EXPECT_TRUE(quantities::is_preferred(fit.capacitance, quantities::Series::e6));
      EXPECT_THAT(fit.advice, Contains(HasSubstr("first capacitor")));
    }
  }
  // Silicon behind a transformer of 40 V: nothing of that.
  const Substitute solid =
      substitute_for(on_rail(part("reservoir", "wet-aluminium", 4000, 40), "raw", 38), rules());
  EXPECT_NEAR(uf(solid), 4700, 1e-6);
  for (const std::string& advice : solid.advice) {
    EXPECT_EQ(advice.find("rectifier valve"), std::string::npos);
  }
}

TEST(HighTension, HasHeadroomInEveryRoleThatStandsOnIt) {
  for (const char* role : {"reservoir", "smoothing", "multi-section-can", "screen-bypass"}) {
    const Substitute fit =
        substitute_for(on_rail(part(role, "wet-aluminium", 16, 300), "high-tension", 280), rules());
    EXPECT_GE(fit.rated.si(), 1.25 * 280) << role;
    EXPECT_THAT(fit.advice, Contains(HasSubstr("warming up"))) << role;
  }
}

TEST(HighTension, IsRatedForTheUnloadedPeakAndTheBias) {
  // By hand: 330 V x 1.414 x 1.1 = 513 V; 50 V of bias on top 563 V.
  PartNeed coupling = part("grid-coupling", "film", 0.1, 400);
  coupling.unloaded_peak = volts(513.0);
  coupling.bias_volts = volts(50.0);
  const Substitute fit = substitute_for(coupling, rules());
  EXPECT_DOUBLE_EQ(fit.rated.si(), 630.0);
  EXPECT_THAT(fit.why, Contains(AllOf(HasSubstr("513 V"), HasSubstr("50 V of bias"),
                                      HasSubstr("more than the 400 V"))));
  PartNeed low = part("audio-coupling", "film", 0.1, 63);
  for (const std::string& rule : substitute_for(low, rules()).rules) {
    EXPECT_NE(rule, "grid-coupling-headroom") << "no high tension, no word of it";
  }
}

TEST(FlybackTuning, IsBoughtByItsVeryValueForKilovoltPulses) {
  // 1.6 to 2 kV polypropylene, value exact, extra-high tension measured after: common practice, no
  // source.
  for (const double marked : {0.0, 400.0, 1600.0, 2000.0}) {
    const Substitute fit = substitute_for(
        on_rail(part("flyback-tuning", "film", 0.0073, marked), "regulated", 120), rules());
    EXPECT_DOUBLE_EQ(uf(fit), 0.0073);
    EXPECT_TRUE(fit.pulse_rated);
    EXPECT_GE(fit.rated.si(), std::max(1560.0, marked));
    EXPECT_THAT(fit.advice, Contains(AllOf(HasSubstr("X-rays"),
                                           HasSubstr("measure the extra-high tension after"))));
  }
}

TEST(HighTension, OneOfAStringStandsAtItsShare) {
  // Eight cans of 450 V across 2.8 kV: each is bought for 450 V, not for the whole rail.
  const Substitute fit = substitute_for(
      on_rail(part("reservoir", "wet-aluminium", 100, 450), "high-tension", 2800), rules());
  EXPECT_DOUBLE_EQ(fit.rated.si(), 450.0);
}

TEST(Sold, EveryValueStandsInItsSeries) {
  // IEC 60063 (E6, E12, E24; from memory). What old sets hold: 50, 25, 20, 16, 8, 5, 2 and so on.
  using quantities::is_preferred;
  using quantities::Series;
  for (const double old_uf :
       {0.0001, 0.00025, 0.0005, 0.001,  0.002,  0.005,  0.01,   0.02,   0.03,   0.05,
        0.1,    0.25,    0.5,    1.0,    2.0,    4.0,    5.0,    8.0,    16.0,   25.0,
        32.0,   40.0,    50.0,   60.0,   80.0,   150.0,  200.0,  250.0,  400.0,  500.0,
        640.0,  800.0,   1250.0, 1600.0, 2000.0, 2500.0, 3000.0, 4000.0, 5000.0, 8000.0}) {
    EXPECT_TRUE(is_preferred(
        substitute_for(part("smoothing", "wet-aluminium", old_uf, 25), rules()).capacitance,
        Series::e6))
        << old_uf;
    EXPECT_TRUE(is_preferred(
        substitute_for(part("agc-timing", "paper", old_uf, 200), rules()).capacitance, Series::e12))
        << old_uf;
    EXPECT_TRUE(is_preferred(substitute_for(part("tank", "mica", old_uf, 500), rules()).capacitance,
                             Series::e24))
        << old_uf;
    const double timing = uf(substitute_for(part("agc-timing", "paper", old_uf, 200), rules()));
    EXPECT_LT(std::abs(timing / old_uf - 1.0), 0.101)
        << old_uf << ": a timing part keeps its value";
  }
  EXPECT_NEAR(uf(substitute_for(part("agc-timing", "paper", 0.05, 200), rules())), 0.047, 1e-9);
  EXPECT_NEAR(uf(substitute_for(part("tone-network", "film", 0.027, 100), rules())), 0.027, 1e-9)
      << "an E12 value of a film part is sold as it is";
}

TEST(Sold, RatingsAreThoseOfTheTechnology) {
  EXPECT_DOUBLE_EQ(substitute_for(part("grid-coupling", "paper", 0.02, 600), rules()).rated.si(),
                   630.0);
  EXPECT_DOUBLE_EQ(substitute_for(part("backup", "supercap", 100'000, 5), rules()).rated.si(), 5.5);
  EXPECT_DOUBLE_EQ(substitute_for(part("smoothing", "wet-aluminium", 47, 40), rules()).rated.si(),
                   50.0);
  const Substitute high = substitute_for(part("smoothing", "wet-aluminium", 16, 700), rules());
  EXPECT_THAT(high.advice, Contains(HasSubstr("No single part")));
}

TEST(Sold, AMotorsPartIsSoldByItsMark) {
  const Substitute fit = substitute_for(part("motor-run", "film", 4, 400), rules());
  EXPECT_NEAR(uf(fit), 4.0, 1e-9);
  EXPECT_DOUBLE_EQ(fit.rated.si(), 400.0);
}

TEST(OldBody, IsReadAsItIsWrittenDown) {
  const auto body = parse_old_body("10x16, pitch 5 radial 105C 0.6A");
  ASSERT_TRUE(body.ok());
  EXPECT_EQ(body->diameter_mm, 10.0);
  EXPECT_EQ(body->height_mm, 16.0);
  EXPECT_EQ(body->pitch_mm, 5.0);
  EXPECT_EQ(body->leads, "radial");
  EXPECT_EQ(body->grade->degrees(), 105.0);
  EXPECT_DOUBLE_EQ(body->ripple->si(), 0.6);
  EXPECT_EQ(parse_old_body("12,5\u00d720 mm 85\u00b0C 650mA")->diameter_mm, 12.5);
  EXPECT_DOUBLE_EQ(parse_old_body("650mA")->ripple->si(), 0.65);
  EXPECT_TRUE(parse_old_body("")->said_nothing());
  for (const char* wrong : {"10", "ten", "0x5", "10x", "x", "10x16x3", "999C", "pitch", "-5x3",
                            "1e9x1", "A", "mA", "5..5x3"}) {
    EXPECT_FALSE(parse_old_body(wrong).ok()) << wrong;
  }
}

TEST(OldBody, WhatIsBoughtFitsInItsPlace) {
  PartNeed need = part("smoothing", "wet-aluminium", 47, 63);
  need.body = *parse_old_body("8x12 radial 125C 0.3A");
  const Substitute fit = substitute_for(need, rules());
  // Pitch by diameter: makers' drawings (KEMET ESY, A4007: 5 mm body, 2.0 mm pitch; 8 mm, 3.5 mm
  // from memory).
  EXPECT_EQ(fit.body, "radial, pitch 3.5 mm, at most 8 x 12 mm");
  EXPECT_EQ(fit.temperature_min->degrees(), 125.0);
  EXPECT_DOUBLE_EQ(fit.ripple_min->si(), 0.3);
  EXPECT_EQ(fits_in_place_of(*parse_old_body("5x11 radial")),
            "radial, pitch 2 mm, at most 5 x 11 mm");
}

TEST(AcrossARectifier, AWindingIsSpokenOfOnlyWhereThereIsOne) {
  PartNeed need = on_rail(part("rectifier-suppressor", "paper", 0.01, 600), "high-tension", 250);
  EXPECT_THAT(substitute_for(need, rules()).advice, Contains(HasSubstr("both halves")));
  need.on_the_mains = true;
  for (const std::string& advice : substitute_for(need, rules()).advice) {
    EXPECT_EQ(advice.find("both halves"), std::string::npos) << advice;
    EXPECT_EQ(advice.find("the winding's"), std::string::npos) << advice;
  }
}

}  // namespace
}  // namespace dryout::decision
