#include "readings/caveats.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>

#include "priors.h"
#include "temporary_folder.h"

namespace dryout::readings {
namespace {

std::set<std::string> fired(const CaveatFacts& facts) {
  std::set<std::string> ids;
  for (const Caveat* caveat : caveats_on(shipped_knowledge().caveats, facts)) {
    ids.insert(caveat->id);
  }
  return ids;
}

CaveatFacts with(void (*set)(CaveatFacts&)) {
  CaveatFacts facts;
  set(facts);
  return facts;
}

TEST(Caveats, AtLeastTwentyAreShippedAndEachSaysWhatItDoesAndWhy) {
  EXPECT_GE(shipped_knowledge().caveats.size(), 20U);
  for (const Caveat& caveat : shipped_knowledge().caveats) {
    EXPECT_FALSE(caveat.effect.empty()) << caveat.id;
    EXPECT_FALSE(caveat.because.empty()) << caveat.id;
  }
}

TEST(Caveats, FireByWhatIsKnownOfTheReading) {
  const struct {
    const char* caveat;
    CaveatFacts facts;
  } cases[] = {
      {"ceramic-across", with([](CaveatFacts& f) { f.across = Across::ceramic; })},
      {"another-electrolytic-across",
       with([](CaveatFacts& f) { f.across = Across::electrolytic; })},
      {"winding-across", with([](CaveatFacts& f) { f.across = Across::winding; })},
      {"regulator-across", with([](CaveatFacts& f) { f.across = Across::regulator; })},
      {"low-resistor-across", with([](CaveatFacts& f) { f.across = Across::low_resistor; })},
      {"nobody-looked", with([](CaveatFacts& f) { f.across = Across::unknown; })},
      {"charged-part", with([](CaveatFacts& f) { f.rated_V = 400.0; })},
      {"zero-the-leads", with([](CaveatFacts& f) { f.value = 0.3; })},
      {"near-lead-zero", with([](CaveatFacts& f) {
         f.lead_zero_ohm = 0.1;
         f.value = 0.12;
       })},
      {"junctions-turn-on", with([](CaveatFacts& f) { f.value = 3.0; })},
      {"cold-part", with([](CaveatFacts& f) {
         f.technology = "wet-aluminium";
         f.temperature_C = 8.0;
       })},
      {"corroded-pad", with([](CaveatFacts& f) {
         f.technology = "surface-mount-aluminium";
         f.verdict = Verdict::over_limit;
       })},
      {"multi-section-can", with([](CaveatFacts& f) { f.body = Body::can; })},
      {"bipolar-part", with([](CaveatFacts& f) { f.technology = "bipolar-aluminium"; })},
      {"short-reads-good", with([](CaveatFacts& f) { f.verdict = Verdict::suspect_short; })},
      {"small-value", with([](CaveatFacts& f) {
         f.kind = Kind::impedance;
         f.capacitance_F = 1e-6;
       })},
      {"under-one-microfarad", with([](CaveatFacts& f) { f.capacitance_F = 0.47e-6; })},
      {"tantalum-fails-short", with([](CaveatFacts& f) {
         f.technology = "solid-tantalum";
         f.verdict = Verdict::within_limit;
       })},
      {"film-is-not-esr", with([](CaveatFacts& f) { f.technology = "film"; })},
      {"stored-part", with([](CaveatFacts& f) {
         f.kind = Kind::leakage_current;
         f.technology = "wet-aluminium";
         f.verdict = Verdict::over_limit;
       })},
      {"general-table-only",
       with([](CaveatFacts& f) { f.limit_source = LimitSource::general_table; })},
      {"brothers-age-together", with([](CaveatFacts& f) { f.brothers = 2; })},
  };
  for (const auto& c : cases) {
    EXPECT_EQ(fired(c.facts).count(c.caveat), 1U) << c.caveat;
  }
}

TEST(Caveats, DoNotFireWhereTheConditionDoesNotHold) {
  CaveatFacts lifted;
  lifted.in_circuit = false;
  lifted.across = Across::ceramic;
  lifted.technology = "wet-aluminium";
  lifted.value = 3.0;
  lifted.lead_zero_ohm = 0.1;
  lifted.test_volts = 0.1;
  lifted.brothers = 0;
  lifted.limit_source = LimitSource::datasheet;
  EXPECT_EQ(fired(lifted), std::set<std::string>{});
}

TEST(Caveats, AWordThatTheConditionsDoNotKnowIsNamed) {
  const tests::TemporaryFolder own;
  std::filesystem::create_directories(own.path() / "rules/caveats");
  std::ofstream(own.file("rules/caveats/own.json"))
      << R"({"schema":1,"caveats":[{"id":"mine","title":"T","effect":"doubt","because":"B",
      "source":"hearsay",
      "when":{"verdicts":["guilty"],"across":["chewing-gum"]}},
      {"id":"other","title":"T","effect":"doubt","because":"B","when":{}}]})";
  const auto loaded = load_caveats({own.path().string()});
  ASSERT_FALSE(loaded.ok());
  const std::string said = describe(loaded.problems());
  for (const char* part :
       {"own.json:2", "guilty", "chewing-gum", "no such source", "an entry names its source"}) {
    EXPECT_THAT(said, ::testing::HasSubstr(part));
  }
}

TEST(Caveats, AnUnknownFigureMeetsNoBound) {
  CaveatCondition when;
  when.capacitance_below_F = 1e-6;
  EXPECT_FALSE(holds(when, CaveatFacts{}));
}

}  // namespace
}  // namespace dryout::readings
