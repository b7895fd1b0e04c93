#include "readings/assess_reading.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "priors.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using namespace quantities;  // NOLINT: makers of quantities, in a test

bool fired(const Assessment& a, const std::string& caveat) {
  for (const FiredCaveat& f : a.caveats) {
    if (f.id == caveat) {
      return true;
    }
  }
  return false;
}

// The four facts below are common practice, no source: a 10 uF 16 V surface-mount part whose maker
// allows 3 ohm; 4.5 ohm in circuit convicts, 1.7 ohm is within, a new part shows 0.9 ohm; two
// general tables say 16 and 8 ohm and settle none of these.
TEST(AssessReading, OverTheDataSheetInCircuitConvicts) {
  const Assessment a = assessed(surface_mount_10u(), 4.5);
  EXPECT_EQ(a.verdict, Verdict::over_limit);
  EXPECT_LT(share(a, "sound"), 0.05);
  EXPECT_THAT(a.sentence, HasSubstr("4.5"));
  EXPECT_THAT(a.sentence, HasSubstr("own data sheet"));
}

TEST(AssessReading, AHighReadingConvictsWhateverMaySitAcross) {
  for (const Across across : {Across::unknown, Across::ceramic, Across::electrolytic,
                              Across::winding, Across::regulator, Across::low_resistor}) {
    auto input = surface_mount_10u();
    input.across = across;
    const Assessment a = assessed(input, 4.5);
    EXPECT_EQ(a.verdict, Verdict::over_limit) << word_of(across);
    EXPECT_LT(share(a, "sound"), 0.2) << word_of(across);
  }
}

TEST(AssessReading, WithinTheDataSheetWithNothingAcrossAcquits) {
  for (const double value : {1.7, 0.9}) {
    const Assessment a = assessed(surface_mount_10u(), value);
    EXPECT_EQ(a.verdict, Verdict::within_limit) << value;
    EXPECT_GT(share(a, "sound"), 0.9);
    EXPECT_LT(share(a, "dried"), 0.01);
  }
}

TEST(AssessReading, AGeneralTableAloneProvesNothing) {
  for (const double table : {16.0, 8.0}) {
    for (const double value : {4.5, 1.7, 0.9}) {
      auto input = surface_mount_10u();
      input.limit = table;
      input.limit_source = LimitSource::general_table;
      const Assessment a = assessed(input, value);
      EXPECT_EQ(a.verdict, Verdict::not_proven) << value << " against " << table;
      EXPECT_TRUE(fired(a, "general-table-only"));
    }
  }
}

TEST(AssessReading, AnUnlookedAtCircuitDoesNotAcquitAndAsks) {
  auto input = surface_mount_10u();
  input.across = Across::unknown;
  const Assessment a = assessed(input, 1.7);
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_THAT(a.sentence, HasSubstr("what else is across"));
  EXPECT_TRUE(fired(a, "nobody-looked"));
}

TEST(AssessReading, ABrotherAcrossMasks) {
  auto input = surface_mount_10u();
  input.across = Across::electrolytic;
  const Assessment a = assessed(input, 1.2);
  EXPECT_EQ(a.verdict, Verdict::masked);
  EXPECT_GT(a.masking, 0.9);
  EXPECT_THAT(a.sentence, HasSubstr("another electrolytic"));
  // A masked pass leaves the suspicion of an open part about where it was.
  EXPECT_GT(share(a, "open"), 0.2 * a.before[5]);
}

TEST(AssessReading, LiftedThereIsNothingToHideBehind) {
  auto input = surface_mount_10u();
  input.across = Across::unknown;
  input.in_circuit = false;
  EXPECT_EQ(assessed(input, 1.7).verdict, Verdict::within_limit);
}

TEST(AssessReading, FarTooLowAsksForTheDirectCurrentResistance) {
  const Assessment a = assessed(surface_mount_10u(), 0.05);
  EXPECT_EQ(a.verdict, Verdict::suspect_short);
  EXPECT_THAT(a.sentence, HasSubstr("d.c. resistance"));
  EXPECT_GT(share(a, "shorted"), 0.3);
  EXPECT_TRUE(fired(a, "short-reads-good"));
}

TEST(AssessReading, AMeterThatShowsNothingReadsAsAShort) {
  EXPECT_EQ(assessed(surface_mount_10u(), 0.0).verdict, Verdict::suspect_short);
}

TEST(AssessReading, AColdPartIsRefusedWithTheReason) {
  auto input = surface_mount_10u();
  input.temperature = Celsius(-5.0);
  const Assessment a = assessed(input, 4.5);
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_THAT(a.limit_refusal, HasSubstr("-5"));
  EXPECT_EQ(a.before, a.after);
  EXPECT_TRUE(fired(a, "cold-part"));
}

TEST(AssessReading, AReadingAtAnotherFrequencyIsRefusedWithTheReason) {
  auto input = surface_mount_10u();
  input.frequency = hertz(120.0);
  input.limit_frequency = hertz(100e3);
  const Assessment a = assessed(input, 4.5);
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_THAT(a.limit_refusal, HasSubstr("120"));
}

TEST(AssessReading, UnknownLeadsSpoilALowLimitAndAreAskedFor) {
  auto input = surface_mount_10u();
  input.limit = 0.3;
  input.lead_zero.reset();
  const Assessment a = assessed(input, 0.35);
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_TRUE(fired(a, "zero-the-leads"));
  input.lead_zero = ohms(0.2);
  EXPECT_EQ(assessed(input, 0.35).verdict, Verdict::within_limit);
}

TEST(AssessReading, WithoutALimitTheLibraryOffersOne) {
  auto input = surface_mount_10u();
  input.limit.reset();
  const Assessment a = assessed(input, 4.5);
  ASSERT_TRUE(a.limit.has_value());
  EXPECT_NE(a.limit->source, LimitSource::datasheet);
  EXPECT_FALSE(a.limit->document.empty());
  EXPECT_THAT(a.limit_told, HasSubstr(a.limit->document));
}

TEST(AssessReading, WithoutALimitAndWithoutAValueNothingIsClaimed) {
  auto input = surface_mount_10u();
  input.limit.reset();
  input.capacitance.reset();
  const Assessment a = assessed(input, 4.5);
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_EQ(a.before, a.after);
  EXPECT_THAT(a.sentence, HasSubstr("no limit"));
}

TEST(AssessReading, ANetlistTakesThePlaceOfGuessing) {
  const auto document = documents::parse(
      R"({"frequency_Hz":100000,"probe":["a","b"],"meter":"resistance","target":"C1","limit_ohm":3,
          "elements":[
            {"id":"C1","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-5,"esr_ohm":1},
            {"id":"C2","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-6,
             "esr_ohm":0.02}]})",
      "n.json");
  ASSERT_TRUE(document.ok());
  const auto file = circuit::read_netlist(*document);
  ASSERT_TRUE(file.ok());
  auto input = surface_mount_10u();
  input.kind = Kind::impedance;
  input.limit_kind = Kind::esr;
  input.across = Across::unknown;
  input.netlist = *file;
  const Assessment masked = assessed(input, 1.5);
  EXPECT_EQ(masked.verdict, Verdict::masked);
  EXPECT_NEAR(*masked.reading_if_open, 1.59, 0.01);
  EXPECT_FALSE(masked.advice.empty());
  EXPECT_EQ(
      std::count(masked.advice.begin(), masked.advice.end(), "It would be seen with C2 lifted."),
      1);
  const documents::Value json = to_json(masked, input.kind);
  EXPECT_EQ(json.find("advice")->array_elements()->size(), masked.advice.size());
  // The netlist knows what the part is marked with; who typed it as well is told no other thing.
  input.capacitance.reset();
  EXPECT_EQ(assessed(input, 1.5).over_probability, masked.over_probability);
}

TEST(AssessReading, LikelihoodHasOneRowALevel) {
  const Assessment a = assessed(surface_mount_10u(), 1.7);
  ASSERT_EQ(a.likelihood.size(), 3U);
  ASSERT_EQ(a.likelihood.front().size(), a.states.size());
}

TEST(AssessReading, RefusesWhatIsNoReading) {
  const auto refusal = [](ReadingInput input) {
    const auto a = assess_reading(input, wet_priors(), shipped_knowledge());
    return a.ok() ? std::string("accepted") : describe(a.problems());
  };
  auto input = surface_mount_10u();
  input.value = -1.0;
  EXPECT_THAT(refusal(input), HasSubstr("the reading"));
  input = surface_mount_10u();
  input.value = 1.0;
  input.limit = 0.0;
  EXPECT_THAT(refusal(input), HasSubstr("the limit"));
  input = ReadingInput{};
  input.value = 1e-5;
  input.kind = Kind::capacitance;
  EXPECT_THAT(refusal(input), HasSubstr("marked value"));
  input.kind = Kind::ripple;
  EXPECT_THAT(refusal(input), HasSubstr("held against"));
  input = surface_mount_10u();
  input.value = std::numeric_limits<double>::infinity();
  EXPECT_THAT(refusal(input), HasSubstr("not a number"));
  input.value = 1.0;
  input.netlist = circuit::NetlistFile{};
  EXPECT_THAT(refusal(input), HasSubstr("the id of the capacitor that was measured"));
}

TEST(AssessReading, ATechnologyOfWhichNothingIsKnownIsRefusedByName) {
  auto input = surface_mount_10u();
  input.value = 1.0;
  input.technology = "paper";
  const auto a = assess_reading(input, Priors{}, shipped_knowledge());
  ASSERT_FALSE(a.ok());
  EXPECT_THAT(describe(a.problems()), HasSubstr("paper"));
}

// --- the other kinds ---------------------------------------------------------------------------

ReadingInput of_kind(Kind kind, double value) {
  auto input = surface_mount_10u();
  input.limit.reset();
  input.kind = kind;
  input.value = value;
  return input;
}

TEST(AssessReading, CapacitanceBelowFourFifthsConvictsAndInCircuitAGoodOneIsMasked) {
  EXPECT_EQ(assessed(of_kind(Kind::capacitance, 4e-6)).verdict, Verdict::over_limit);
  EXPECT_EQ(assessed(of_kind(Kind::capacitance, 9.8e-6)).verdict, Verdict::within_limit);
  auto input = of_kind(Kind::capacitance, 9.8e-6);
  input.across = Across::electrolytic;
  EXPECT_EQ(assessed(input).verdict, Verdict::masked);
  EXPECT_GT(share(assessed(of_kind(Kind::capacitance, 4e-6)), "dried"), 0.3);
}

TEST(AssessReading, LeakageIsHeldAgainstTheMakersRule) {
  auto input = of_kind(Kind::leakage_current, 50e-6);
  input.in_circuit = false;
  const Assessment leaks = assessed(input);
  EXPECT_EQ(leaks.verdict, Verdict::over_limit);
  EXPECT_GT(share(leaks, "leaky"), 0.5);
  EXPECT_TRUE(fired(leaks, "stored-part"));
  input.value = 0.2e-6;
  EXPECT_EQ(assessed(input).verdict, Verdict::within_limit);
  input.in_circuit = true;
  input.across = Across::unknown;
  input.value = 1e-3;
  EXPECT_EQ(assessed(input).verdict, Verdict::not_proven);
}

TEST(AssessReading, NextToNoResistanceIsAShortUnlessAWindingExplainsIt) {
  const Assessment shorted = assessed(of_kind(Kind::dc_resistance, 0.8));
  EXPECT_EQ(shorted.verdict, Verdict::suspect_short);
  EXPECT_GT(share(shorted, "shorted"), 0.7);
  auto input = of_kind(Kind::dc_resistance, 4.0);
  input.across = Across::winding;
  EXPECT_EQ(assessed(input).verdict, Verdict::masked);
  EXPECT_EQ(assessed(of_kind(Kind::dc_resistance, 2e5)).verdict, Verdict::within_limit);
}

TEST(AssessReading, RippleAndVoltsSpeakOfWhatTheyAreHeldAgainst) {
  auto input = of_kind(Kind::ripple, 9.0);
  input.limit = 2.0;
  EXPECT_EQ(assessed(input).verdict, Verdict::over_limit);
  EXPECT_GT(share(assessed(input), "dried") + share(assessed(input), "open"), 0.2);
  input.value = 0.8;
  EXPECT_EQ(assessed(input).verdict, Verdict::within_limit);
  input.kind = Kind::dc_volts;
  input.limit = 12.0;
  input.value = 3.0;
  EXPECT_EQ(assessed(input).verdict, Verdict::over_limit);
  input.value = 12.1;
  EXPECT_EQ(assessed(input).verdict, Verdict::within_limit);
}

// A reading that stands where its limit stands is called neither way, whatever is read. The edges:
// four fifths of the marked capacitance, the leakage limit as typed, the ripple that is allowed, a
// tenth beside the rail's volts.
TEST(AssessReading, AtTheEdgeNothingIsCalledEitherWay) {
  struct Edge {
    Kind kind;
    double value;
    std::optional<double> limit;
    const char* said;
  };
  for (const Edge& edge : {Edge{Kind::capacitance, 8e-6, {}, "80 % of the marked"},
                           Edge{Kind::leakage_current, 5e-6, 5e-6, "5 µA against a limit of 5 µA"},
                           Edge{Kind::ripple, 2.0, 2.0, "2 V of ripple against 2 V"},
                           Edge{Kind::dc_volts, 10.8, 12.0, "10.8 V where 12 V should be"}}) {
    auto input = of_kind(edge.kind, edge.value);
    input.in_circuit = false;
    input.limit = edge.limit;
    const Assessment a = assessed(input);
    EXPECT_EQ(a.verdict, Verdict::not_proven) << word_of(edge.kind);
    EXPECT_THAT(a.sentence, HasSubstr(edge.said));
    EXPECT_THAT(a.sentence, HasSubstr("either way"));
    EXPECT_NEAR(a.over_probability, 0.5, 0.45) << word_of(edge.kind);
  }
}

TEST(AssessReading, TheLimitTypedForLeakageTakesThePlaceOfTheRule) {
  auto input = of_kind(Kind::leakage_current, 50e-6);
  input.in_circuit = false;
  ASSERT_EQ(assessed(input).verdict, Verdict::over_limit);
  input.limit = 500e-6;
  input.limit_document = "sheet in hand";
  const Assessment within = assessed(input);
  EXPECT_EQ(within.verdict, Verdict::within_limit);
  EXPECT_EQ(within.limit_told, "500 µA (sheet in hand)");
}

TEST(AssessReading, ALowCapacitanceInCircuitConvictsAllTheSame) {
  auto input = of_kind(Kind::capacitance, 4e-6);
  input.across = Across::electrolytic;  // what is across can only add
  EXPECT_EQ(assessed(input).verdict, Verdict::over_limit);
}

TEST(AssessReading, ResistanceBetweenAShortAndNoneIsAPath) {
  const Assessment a = assessed(of_kind(Kind::dc_resistance, 800.0));
  EXPECT_EQ(a.verdict, Verdict::not_proven);
  EXPECT_THAT(a.sentence, HasSubstr("a path is there"));
}

// A path of the circuit's own explains a low resistance, so that the part is suspected less.
TEST(AssessReading, WhatIsKnownToConductAcrossTakesSuspicionOffThePart) {
  const auto shorted = [](Across across, double ohm) {
    auto input = of_kind(Kind::dc_resistance, ohm);
    input.across = across;
    return share(assessed(input), "shorted");
  };
  EXPECT_LT(shorted(Across::low_resistor, 9.0), shorted(Across::nothing, 9.0));
  EXPECT_LT(shorted(Across::winding, 4.0), shorted(Across::nothing, 4.0));
  const auto leaky = [](Across across) {
    auto input = of_kind(Kind::dc_resistance, 1.8e3);
    input.across = across;
    return share(assessed(input), "leaky");
  };
  EXPECT_LT(leaky(Across::regulator), leaky(Across::nothing));
  EXPECT_DOUBLE_EQ(leaky(Across::unknown), leaky(Across::regulator));
}

TEST(AssessReading, ATestSignalThatMakesJunctionsConductIsSaid) {
  auto input = surface_mount_10u();
  input.meter = Meter{};
  input.meter->test_volts = volts(1.0);
  EXPECT_TRUE(fired(assessed(input, 1.7), "junctions-turn-on"));
  input.meter->test_volts = volts(0.1);
  EXPECT_FALSE(fired(assessed(input, 1.7), "junctions-turn-on"));
}

TEST(AssessReading, TheJsonHasVerdictLimitStatesNumbersAndCaveatIds) {
  auto input = surface_mount_10u();
  input.brothers = {1.6, 1.5};
  const documents::Value json = to_json(assessed(input, 4.5), input.kind);
  EXPECT_EQ(*json.find("verdict")->text(), "over-limit");
  EXPECT_EQ(*json.find("limit")->find("source")->text(), "datasheet");
  EXPECT_NE(json.find("states")->find("dried"), nullptr);
  EXPECT_TRUE(json.find("numbers")->find("ceiling")->is_null());
  EXPECT_EQ(json.find("cohort")->find("brothers")->array_elements()->size(), 3U);
  EXPECT_EQ(*json.find("kind")->text(), "esr");
  // The limit in the terms of the reading, which is what it is judged by.
  EXPECT_DOUBLE_EQ(*json.find("limit")->find("temperature_C")->number(), 23.0);
  ASSERT_FALSE(json.find("caveats")->array_elements()->empty());
  EXPECT_NE(json.find("caveats")->array_elements()->front().find("id"), nullptr);
}

}  // namespace
}  // namespace dryout::readings
