// The fault network of the fixture's lantern amplifier (tests/knowledge/fixture.h), every number of
// it worked out by hand from the files.
#include "diagnosis/compile_network.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "diagnosis/part_ageing.h"
#include "diagnosis/unlisted_share.h"
#include "knowledge/fixture.h"

namespace dryout::diagnosis {
namespace {

using knowledge::Equipment;
using knowledge::KnowledgeBase;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::Pair;
using ::testing::UnorderedElementsAre;

constexpr double tolerance = 1e-12;

class CompiledLantern : public ::testing::Test {
 protected:
  [[nodiscard]] CompiledNetwork compile(std::vector<NamedPart> parts = {},
                                        std::optional<int> built = 1985, int now = 1995) const {
    auto compiled = compile_network(knowledge_, knowledge_.equipment[0], {built, now, parts});
    EXPECT_EQ(quantities::describe(check(compiled.network)), "");
    EXPECT_EQ(compiled.items.size(), compiled.network.items.size());
    EXPECT_EQ(compiled.findings.size(), compiled.network.findings.size());
    EXPECT_EQ(compiled.behind.size(), compiled.network.findings.size());
    return compiled;
  }
  [[nodiscard]] std::vector<double> cohort_weights(std::optional<int> built, int now) const {
    return compile({}, built, now).network.cohorts.at(0).levels;
  }
  Equipment& lantern() { return knowledge_.equipment[0]; }

  KnowledgeBase knowledge_ = tests::fixture_knowledge();
};

const Item& item(const CompiledNetwork& compiled, const std::string& id) {
  const auto* found = knowledge::find(compiled.network.items, id);
  EXPECT_NE(found, nullptr) << id;
  return *found;
}

/// "group:reservoirs dried" -> strength.
std::map<std::string, double> causes(const CompiledNetwork& compiled, const std::string& finding) {
  std::map<std::string, double> all;
  const auto* found = knowledge::find(compiled.network.findings, finding);
  EXPECT_NE(found, nullptr) << finding;
  for (const Cause& cause : found->causes) {
    const Item& of = compiled.network.items[cause.item];
    all[of.id + ' ' + of.states[cause.state]] = cause.strength;
  }
  return all;
}

auto near(const char* cause, double strength) {
  return Pair(cause, DoubleNear(strength, tolerance));
}

TEST_F(CompiledLantern, HasAnItemAGroupAndACauseABlock) {
  std::vector<std::string> ids;
  for (const Item& of : compile().network.items) ids.push_back(of.id);
  EXPECT_THAT(ids,
              UnorderedElementsAre("group:reservoirs", "group:coupling", "cause:open-diode@bridge",
                                   "cause:dirty-contact@bridge", "cause:dirty-contact@regulator",
                                   "cause:dirty-contact@preamp", "cause:dirty-contact@power",
                                   "cause:dirty-contact@socket"));
}

TEST_F(CompiledLantern, StressMultipliesOddsAndTheWorstOfTwoPartsCounts) {
  // Reservoirs: stress doubles the odds of dried. Fresh: dried 0.1 * 2, leaky 0.05, sound 0.85, sum
  // 1.1; both parts sound with (0.85 / 1.1)^2, the rest shared 0.2 : 0.05.
  const auto compiled = compile();
  const Item& reservoirs = item(compiled, "group:reservoirs");
  EXPECT_THAT(reservoirs.states, ElementsAre("sound", "dried", "leaky"));
  const double fresh = std::pow(0.85 / 1.1, 2);
  const double worn = std::pow(0.5 / 1.4, 2);  // dried 0.4 * 2, leaky 0.1, sound 0.5
  ASSERT_EQ(reservoirs.given_level.size(), 2U);
  EXPECT_THAT(reservoirs.given_level[0],
              ElementsAre(DoubleNear(fresh, tolerance), DoubleNear((1 - fresh) * 0.8, tolerance),
                          DoubleNear((1 - fresh) * 0.2, tolerance)));
  EXPECT_THAT(reservoirs.given_level[1],
              ElementsAre(DoubleNear(worn, tolerance), DoubleNear((1 - worn) * 8 / 9, tolerance),
                          DoubleNear((1 - worn) / 9, tolerance)));
}

TEST_F(CompiledLantern, ACauseHasItsPriorAndNoCohort) {
  const auto compiled = compile();
  const Item& diode = item(compiled, "cause:open-diode@bridge");
  EXPECT_FALSE(diode.cohort.has_value());
  EXPECT_THAT(diode.given_level, ElementsAre(ElementsAre(0.95, 0.05)));
}

TEST_F(CompiledLantern, ASetBuiltOutsideTheYearsOfACauseDoesNotHaveIt) {
  auto* diode = knowledge::find(knowledge_.causes, "open-diode");
  diode->year_to = 1984;  // some lanterns are younger
  EXPECT_EQ(compile().network.items.size(), 7U);
  diode->year_to = 1985;
  EXPECT_EQ(compile().network.items.size(), 8U);
  diode->year_from = 1986;
  diode->year_to = 2000;
  EXPECT_EQ(compile().network.items.size(), 7U);
}

TEST_F(CompiledLantern, WarmthAgesACohort) {
  // Hot counts double: ten years are twenty, the last of the first step; eleven are past it.
  EXPECT_THAT(cohort_weights(1985, 1995), ElementsAre(0.75, 0.25));
  EXPECT_THAT(cohort_weights(1985, 1996), ElementsAre(0.25, 0.75));
  lantern().groups[0].warmth = "cool";
  EXPECT_THAT(cohort_weights(1985, 2025), ElementsAre(0.75, 0.25));
}

TEST_F(CompiledLantern, ACohortIsAsWarmAsItsPartsOnAverage) {
  // Two hot parts (factor 2) and four cool ones (0.5) make 1: twenty years are twenty.
  knowledge::PartGroup cool = lantern().groups[0];
  cool.id = "cool";
  cool.warmth = "cool";
  cool.count = 4;
  for (const bool cool_first : {false, true}) {
    lantern().groups = {lantern().groups[0], cool};
    if (cool_first) std::swap(lantern().groups[0], lantern().groups[1]);
    const auto compiled = compile({}, 1980, 2000);
    EXPECT_EQ(compiled.network.cohorts.size(), 1U);
    EXPECT_THAT(compiled.network.cohorts[0].levels, ElementsAre(0.75, 0.25));
    EXPECT_THAT(cohort_weights(1980, 2001), ElementsAre(0.25, 0.75));
    if (cool_first) std::swap(lantern().groups[0], lantern().groups[1]);
  }
}

TEST_F(CompiledLantern, AnUnknownYearIsTheMiddleOfItsYears) {
  // Built 1980 to 1990: taken as 1985. A set from the future is new.
  EXPECT_EQ(cohort_weights(std::nullopt, 1995), cohort_weights(1985, 1995));
  EXPECT_EQ(cohort_weights(std::nullopt, 1996), cohort_weights(1985, 1996));
  EXPECT_THAT(cohort_weights(2030, 1995), ElementsAre(0.75, 0.25));
}

TEST_F(CompiledLantern, GroupsOfOneCohortNameShareItAndOthersStandAlone) {
  EXPECT_EQ(compile().network.cohorts.size(), 2U);
  lantern().groups[1].cohort = "cans";
  const auto compiled = compile();
  EXPECT_EQ(compiled.network.cohorts.size(), 1U);
  EXPECT_EQ(item(compiled, "group:coupling").cohort, item(compiled, "group:reservoirs").cohort);
}

TEST_F(CompiledLantern, AnEraMultipliesOddsInItsYearsAndTechnologiesOnly) {
  const auto leaky = [&](int built) {
    return item(compile({}, built), "group:coupling").given_level[0][1];
  };
  // Film, three parts: P(one leaky) = 0.02; before 1980 four times the odds: 0.08 / (0.98 + 0.08).
  EXPECT_NEAR(leaky(1980), 1 - std::pow(0.98, 3), tolerance);
  EXPECT_NEAR(leaky(1979), 1 - std::pow(0.98 / 1.06, 3), tolerance);
  EXPECT_EQ(item(compile({}, 1979), "group:reservoirs").given_level,
            item(compile({}, 1985), "group:reservoirs").given_level);
  lantern().eras.push_back(knowledge_.eras[0]);  // an equipment's own era comes on top
  EXPECT_NEAR(leaky(1979), 1 - std::pow(0.98 / (0.98 + 0.32), 3), tolerance);
}

TEST_F(CompiledLantern, ASymptomHearsTheStrongestWayOfEveryFault) {
  const auto compiled = compile();
  EXPECT_THAT(causes(compiled, "symptom:hums"),
              UnorderedElementsAre(near("group:reservoirs dried", 0.8 * 0.9 * 0.5),
                                   near("cause:open-diode@bridge faulty", 0.5 * 0.9 * 0.5)));
  // Of the sets that hum so many have a cause that is not in the lists: by definition of the share,
  // leak / P(present) with P(present) = 1 - (1 - leak) P(no cause shows).
  const Finding& hums = *knowledge::find(compiled.network.findings, "symptom:hums");
  double none = 1.0;
  const auto chances = state_chances(compiled.network);
  for (const Cause& cause : hums.causes)
    none *= 1.0 - chances[cause.item][cause.state] * cause.strength;
  EXPECT_NEAR(hums.leak / (1.0 - (1.0 - hums.leak) * none), 0.08, 1e-9);
  // Distortion shows fully, hum a tenth as well.
  EXPECT_THAT(causes(compiled, "symptom:distorts"),
              UnorderedElementsAre(near("group:reservoirs dried", 0.8 * 0.9 * 0.1),
                                   near("cause:open-diode@bridge faulty", 0.5 * 0.9 * 0.1),
                                   near("group:coupling leaky", 0.6 * 0.9),
                                   near("cause:dirty-contact@preamp faulty", 0.25 * 0.9)));
}

TEST_F(CompiledLantern, ACheckIsMadeOncePerPlaceWhereItCanSeeSomething) {
  const auto compiled = compile();
  std::vector<std::string> ids;
  for (const Finding& finding : compiled.network.findings) ids.push_back(finding.id);
  EXPECT_THAT(ids, UnorderedElementsAre("symptom:hums", "symptom:distorts",
                                        "check:ripple-on-rail@raw", "check:ripple-on-rail@stable",
                                        "check:listen@preamp", "check:listen@power", "check:look",
                                        "check:esr@reservoirs", "check:leakage@coupling"));
  EXPECT_THAT(causes(compiled, "check:ripple-on-rail@stable"),
              UnorderedElementsAre(near("group:reservoirs dried", 0.8 * 0.3 * 0.5 * 0.9),
                                   near("cause:open-diode@bridge faulty", 0.5 * 0.3 * 0.5 * 0.9)));
  EXPECT_DOUBLE_EQ(knowledge::find(compiled.network.findings, "check:listen@power")->leak, 0.04);
}

TEST_F(CompiledLantern, ACheckThatSeesTwoThingsAtOnePlaceTakesTheStronger) {
  EXPECT_THAT(causes(compile(), "check:listen@preamp"),
              UnorderedElementsAre(near("group:reservoirs dried", 0.108 * 0.8),
                                   near("cause:open-diode@bridge faulty", 0.0675 * 0.8),
                                   near("group:coupling leaky", 0.6 * 0.5),
                                   near("cause:dirty-contact@preamp faulty", 0.25 * 0.5)));
}

TEST_F(CompiledLantern, ACheckOfTheWholeSetLooksEverywhere) {
  EXPECT_THAT(causes(compile(), "check:look"),
              UnorderedElementsAre(near("group:reservoirs leaky", 0.5 * 0.6)));
  const auto compiled = compile();
  for (std::size_t f = 0; f < compiled.findings.size(); ++f) {
    const bool of_set = compiled.findings[f].check == "look";
    EXPECT_EQ(compiled.findings[f].place.empty(), of_set || !compiled.findings[f].symptom.empty());
  }
}

TEST_F(CompiledLantern, ACheckOfPartsDetectsTheirModes) {
  const auto compiled = compile();
  EXPECT_THAT(causes(compiled, "check:esr@reservoirs"),
              UnorderedElementsAre(near("group:reservoirs dried", 0.95)));
  EXPECT_THAT(causes(compiled, "check:leakage@coupling"),
              UnorderedElementsAre(near("group:coupling leaky", 0.9)));
}

TEST_F(CompiledLantern, ANamedPartStepsOutOfItsGroupAndKeepsItsCohort) {
  const auto compiled = compile({{"C12", "reservoirs"}});
  const Item& part = item(compiled, "part:C12");
  const Item& rest = item(compiled, "group:reservoirs");
  EXPECT_EQ(part.cohort, rest.cohort);
  EXPECT_NEAR(part.given_level[0][0], 0.85 / 1.1, tolerance);  // one part
  EXPECT_NEAR(rest.given_level[0][0], 0.85 / 1.1, tolerance);  // and one is left of two
  EXPECT_THAT(
      causes(compiled, "symptom:hums"),
      UnorderedElementsAre(near("group:reservoirs dried", 0.36), near("part:C12 dried", 0.36),
                           near("cause:open-diode@bridge faulty", 0.225)));
  EXPECT_THAT(causes(compiled, "check:esr@C12"),
              UnorderedElementsAre(near("part:C12 dried", 0.95)));
  EXPECT_THAT(causes(compiled, "check:esr@reservoirs"),
              UnorderedElementsAre(near("group:reservoirs dried", 0.95)));
  const auto described =
      std::find_if(compiled.items.begin(), compiled.items.end(),
                   [](const CompiledItem& of) { return of.kind == CompiledItem::Kind::part; });
  ASSERT_NE(described, compiled.items.end());
  EXPECT_EQ(described->title, "C12 (Reservoirs)");
  EXPECT_EQ(described->group, "reservoirs");
}

TEST_F(CompiledLantern, NothingIsLeftOfAGroupWhoseLastPartIsNamed) {
  for (const int more : {2, 3}) {  // three named of two: the architecture said too few
    std::vector<NamedPart> parts;
    for (int i = 0; i < more; ++i) parts.push_back({"C" + std::to_string(i), "reservoirs"});
    const auto compiled = compile(parts);
    EXPECT_EQ(knowledge::find(compiled.network.items, "group:reservoirs"), nullptr);
    EXPECT_EQ(causes(compiled, "symptom:hums").size(), static_cast<std::size_t>(more) + 1U);
  }
}

TEST_F(CompiledLantern, AnEquipmentMayListTheSymptomsItCanHave) {
  lantern().symptoms = {"distorts"};
  const auto compiled = compile();
  EXPECT_EQ(knowledge::find(compiled.network.findings, "symptom:hums"), nullptr);
  EXPECT_NE(knowledge::find(compiled.network.findings, "symptom:distorts"), nullptr);
}

TEST_F(CompiledLantern, EveryCauseCanBeTold) {
  const auto compiled = compile();
  for (std::size_t f = 0; f < compiled.findings.size(); ++f) {
    const Finding& finding = compiled.network.findings[f];
    ASSERT_EQ(compiled.behind[f].size(), finding.causes.size());
    for (std::size_t c = 0; c < finding.causes.size(); ++c) {
      const auto lines = tell(knowledge_, knowledge_.equipment[0], compiled, KnownFinding(f), c);
      EXPECT_FALSE(lines.empty()) << finding.id;
      if (finding.id != "symptom:hums") continue;
      EXPECT_EQ(lines.size(), 2U);
      EXPECT_THAT(lines[1], ::testing::StartsWith("hum in Power stage"));
    }
  }
}

TEST(WorstOf, EqualsAddingUpEveryWayThatPartsCanStand) {
  // P(all n sound) by enumeration of all 3^n outcomes; the rest in proportion to one part's modes.
  const std::vector<double> part{0.7, 0.2, 0.1};
  for (const int n : {1, 2, 3, 5, 8}) {
    double sound = 0.0;
    double total = 0.0;
    int outcomes = 1;
    for (int i = 0; i < n; ++i) outcomes *= 3;
    for (int code = 0; code < outcomes; ++code) {
      double p = 1.0;
      bool all_sound = true;
      for (int i = 0, digits = code; i < n; ++i, digits /= 3) {
        p *= part[static_cast<std::size_t>(digits % 3)];
        all_sound = all_sound && digits % 3 == 0;
      }
      total += p;
      sound += all_sound ? p : 0.0;
    }
    ASSERT_NEAR(total, 1.0, tolerance);
    const auto row = worst_of(part, n);
    EXPECT_NEAR(row[0], sound, tolerance);
    EXPECT_NEAR(row[1] / row[2], 2.0, 1e-9);
    EXPECT_NEAR(row[0] + row[1] + row[2], 1.0, tolerance);
  }
  EXPECT_THAT(worst_of({1.0, 0.0}, 4), ElementsAre(1.0, 0.0));  // parts that never fail
}

}  // namespace
}  // namespace dryout::diagnosis
