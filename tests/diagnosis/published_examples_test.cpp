// Numeric examples that others published, computed by this engine. "Computed" marks answers that
// follow from a publication's numbers by hand or enumeration; "from memory" marks numbers of a
// publication that was not at hand when the test was written.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "diagnosis/posterior.h"

namespace dryout::diagnosis {
namespace {

/// Strength that lifts a finding from its leak to p.
double strength_to_reach(double p, double leak) { return 1.0 - (1.0 - p) / (1.0 - leak); }

Posterior must_infer(const Network& network, const Evidence& evidence) {
  auto posterior = infer(network, evidence);
  EXPECT_TRUE(posterior);
  return posterior.value();
}

// Russell and Norvig, Artificial Intelligence: A Modern Approach, noisy-OR for fever; inhibitors
// cold 0.6, flu 0.2, malaria 0.1 and the printed column P(fever). From memory.
TEST(PublishedExamples, NoisyOrForFever) {
  Network network;
  for (const char* id : {"cold", "flu", "malaria"}) {
    network.items.push_back({id, {"no", "yes"}, {}, {{0.5, 0.5}}});
  }
  network.findings = {{"fever", 0.0, {{0, 1, 0.4}, {1, 1, 0.8}, {2, 1, 0.9}}}};
  const std::vector<double> printed{0.0, 0.4, 0.8, 0.88, 0.9, 0.94, 0.98, 0.988};
  for (std::size_t row = 0; row < printed.size(); ++row) {
    Evidence evidence;
    for (std::size_t i = 0; i < 3; ++i) {
      const bool ill = ((row >> i) & 1U) != 0;
      evidence.readings.push_back({i, {ill ? std::vector{0.0, 1.0} : std::vector{1.0, 0.0}}});
    }
    EXPECT_NEAR(must_infer(network, evidence).findings[0], printed[row], 1e-12) << row;
  }
}

// The sprinkler network as distributed with libDAI (example_sprinkler): wet grass is a noisy-OR of
// sprinkler 0.9 and rain 0.9; the cloudy sky is what both share. Murphy's tutorial prints 0.430 and
// 0.708 (from memory); more digits computed.
TEST(PublishedExamples, SprinklerAndRainExplainEachOtherAway) {
  Network network;
  network.cohorts = {{"cloudy", {0.5, 0.5}}};
  network.items = {{"sprinkler", {"off", "on"}, 0, {{0.5, 0.5}, {0.9, 0.1}}},
                   {"rain", {"no", "yes"}, 0, {{0.8, 0.2}, {0.2, 0.8}}}};
  network.findings = {{"wet", 0.0, {{0, 1, 0.9}, {1, 1, 0.9}}}};
  EXPECT_NEAR(must_infer(network, {}).findings[0], 0.6471, 1e-12);
  const Posterior wet = must_infer(network, {{0}, {}, {}, {}});
  EXPECT_NEAR(wet.log_evidence, std::log(0.6471), 1e-12);
  EXPECT_NEAR(wet.items[0][1], 0.429764, 5e-7);
  EXPECT_NEAR(wet.items[1][1], 0.707928, 5e-7);
  const Posterior rained = must_infer(network, {{0}, {}, {}, {{1, {{0.0, 1.0}}}}});
  EXPECT_NEAR(rained.items[0][1], 0.194499, 5e-7);
}

/// Burglary and earthquake as the four levels of a cohort, the alarm as its item.
Network burglary() {
  const double b = 0.001;
  const double e = 0.002;
  Network network;
  network.cohorts = {{"b,e", {b * e, b * (1 - e), (1 - b) * e, (1 - b) * (1 - e)}}};
  network.items = {{"alarm",
                    {"silent", "rings"},
                    0,
                    {{0.05, 0.95}, {0.06, 0.94}, {0.71, 0.29}, {0.999, 0.001}}}};
  network.findings = {{"john", 0.05, {{0, 1, strength_to_reach(0.9, 0.05)}}},
                      {"mary", 0.01, {{0, 1, strength_to_reach(0.7, 0.01)}}}};
  return network;
}

// Pearl's burglary network with the numbers of Russell and Norvig; tables from memory, answers
// computed (the book prints 0.284 for the burglary given both calls).
TEST(PublishedExamples, BurglaryGivenBothCalls) {
  const Posterior called = must_infer(burglary(), {{0, 1}, {}, {}, {}});
  EXPECT_NEAR(called.cohorts[0][0] + called.cohorts[0][1], 0.284172, 5e-7);
  EXPECT_NEAR(called.cohorts[0][0] + called.cohorts[0][2], 0.176067, 5e-7);
  EXPECT_NEAR(called.items[0][1], 0.760692, 5e-7);
  EXPECT_NEAR(std::exp(called.log_evidence), 0.00208410, 5e-9);
}

TEST(PublishedExamples, AnEarthquakeExplainsTheBurglaryAway) {
  const ItemReading rings{0, {{0.0, 1.0}}};
  const ItemReading quake{0, {{1.0, 1.0}, {0.0, 0.0}, {1.0, 1.0}, {0.0, 0.0}}};
  const Posterior alarm = must_infer(burglary(), {{}, {}, {}, {rings}});
  EXPECT_NEAR(alarm.cohorts[0][0] + alarm.cohorts[0][1], 0.373551, 5e-7);
  const Posterior both = must_infer(burglary(), {{}, {}, {}, {rings, quake}});
  EXPECT_NEAR(both.cohorts[0][0] + both.cohorts[0][1], 0.003268, 5e-7);
}

/// Lauritzen and Spiegelhalter's chest clinic. Its tables are no noisy-OR, so bronchitis,
/// tuberculosis and lung cancer stand together as one item of eight states (bits 1, 2, 4), and the
/// visit to Asia and smoking as the four levels of its cohort (bits 1, 2).
Network chest_clinic() {
  Network network;
  Cohort cohort{"asia,smoke", {}};
  Item item{"bronc,tub,lung", {}, 0, {}};
  for (unsigned level = 0; level < 4; ++level) {
    const bool asia = (level & 1U) != 0;
    const bool smoke = (level & 2U) != 0;
    cohort.levels.push_back((asia ? 0.01 : 0.99) * 0.5);
    std::vector<double>& row = item.given_level.emplace_back();
    for (unsigned state = 0; state < 8; ++state) {
      const auto chance = [state](unsigned bit, double p) {
        return (state & bit) != 0 ? p : 1 - p;
      };
      row.push_back(chance(1, smoke ? 0.6 : 0.3) * chance(2, asia ? 0.05 : 0.01) *
                    chance(4, smoke ? 0.1 : 0.01));
    }
  }
  Finding xray{"xray", 0.05, {}};
  Finding dyspnoea{"dysp", 0.1, {}};
  for (unsigned state = 0; state < 8; ++state) {
    item.states.push_back("s" + std::to_string(state));
    const bool bronchitis = (state & 1U) != 0;
    const bool either = (state & 6U) != 0;
    xray.causes.push_back({0, state, strength_to_reach(either ? 0.98 : 0.05, 0.05)});
    const double p = either ? (bronchitis ? 0.9 : 0.7) : (bronchitis ? 0.8 : 0.1);
    dyspnoea.causes.push_back({0, state, strength_to_reach(p, 0.1)});
  }
  network.cohorts = {cohort};
  network.items = {item};
  network.findings = {xray, dyspnoea};
  return network;
}

struct ClinicRow {
  bool asia, xray, dyspnoea;
  double tub, smoke, lung, bronc, either, p_xray, p_dysp, evidence;
};

// Lauritzen and Spiegelhalter, JRSS B 50 (1988): tables as distributed with general-purpose
// engines; answers computed with three of them (libDAI, aGrUM, Merlin).
TEST(PublishedExamples, ChestClinic) {
  const std::vector<ClinicRow> rows{
      {false, false, false, .0104, .5, .055, .45, .064828, .11029004, .4359706, 1.0},
      {true, false, true, .087750965, .625919858, .099525145, .811402072, .182299853, .219538863,
       1.0, 4.501375e-3},
      {true, true, false, .337715595, .637007426, .371487155, .491102228, .690628392, 1.0,
       .681101194, std::exp(-6.535553995)},
      {true, true, true, .391711720, .702025117, .444270508, .628821776, .813768702, 1.0, 1.0,
       9.882268e-4}};
  const Network network = chest_clinic();
  for (const ClinicRow& row : rows) {
    Evidence evidence;
    if (row.asia) {
      const std::vector<double> no(8, 0.0);
      const std::vector<double> yes(8, 1.0);
      evidence.readings.push_back({0, {no, yes, no, yes}});
    }
    if (row.xray) {
      evidence.present.push_back(0);
    }
    if (row.dyspnoea) {
      evidence.present.push_back(1);
    }
    const Posterior posterior = must_infer(network, evidence);
    const auto sum = [&posterior](unsigned bits) {
      double total = 0.0;
      for (unsigned state = 0; state < 8; ++state) {
        total += (state & bits) != 0 ? posterior.items[0][state] : 0.0;
      }
      return total;
    };
    EXPECT_NEAR(sum(1), row.bronc, 1e-9);
    EXPECT_NEAR(sum(2), row.tub, 1e-9);
    EXPECT_NEAR(sum(4), row.lung, 1e-9);
    EXPECT_NEAR(sum(6), row.either, 1e-9);
    EXPECT_NEAR(posterior.cohorts[0][2] + posterior.cohorts[0][3], row.smoke, 1e-9);
    EXPECT_NEAR(posterior.findings[0], row.p_xray, 1e-9);
    EXPECT_NEAR(posterior.findings[1], row.p_dysp, 1e-9);
    EXPECT_NEAR(std::exp(posterior.log_evidence), row.evidence, 1e-9);
  }
}

// Two causes, two findings in the form of Heckerman's "tractable inference for diagnosing multiple
// diseases" (UAI 1989); numbers of our own, answers computed by enumeration.
TEST(PublishedExamples, TwoCausesTwoFindings) {
  Network network;
  network.items = {{"d1", {"no", "yes"}, {}, {{0.9, 0.1}}},
                   {"d2", {"no", "yes"}, {}, {{0.8, 0.2}}}};
  network.findings = {{"f1", 0.01, {{0, 1, 0.8}, {1, 1, 0.0}}},
                      {"f2", 0.02, {{0, 1, 0.5}, {1, 1, 0.6}}}};
  const Posterior posterior = must_infer(network, {{0, 1}, {}, {}, {}});
  EXPECT_NEAR(std::exp(posterior.log_evidence), 0.04685616, 1e-12);
  EXPECT_NEAR(posterior.items[0][1], 0.9735701773256707, 1e-12);
  EXPECT_NEAR(posterior.items[1][1], 0.2985852873987113, 1e-12);
}

// Three multipliers and two adders that give 10 and 12 where 12 and 12 were due (de Kleer and
// Williams, "Diagnosing multiple faults", Artificial Intelligence 32, 1987; circuit, conflicts and
// minimal candidates from memory). Each conflict is a finding that any of its parts explains, and
// nothing else does; every part fails with 0.01. Answers computed by enumeration of the 32 sets.
TEST(PublishedExamples, MultipliersAndAdders) {
  Network network;
  for (const char* id : {"A1", "A2", "M1", "M2", "M3"}) {
    network.items.push_back({id, {"good", "bad"}, {}, {{0.99, 0.01}}});
  }
  network.findings = {{"A1 M1 M2", 0.0, {{0, 1, 1.0}, {2, 1, 1.0}, {3, 1, 1.0}}},
                      {"A1 A2 M1 M3", 0.0, {{0, 1, 1.0}, {1, 1, 1.0}, {2, 1, 1.0}, {4, 1, 1.0}}}};
  const Evidence conflicts{{0, 1}, {}, {}, {}};
  const Posterior posterior = must_infer(network, conflicts);
  const std::vector<double> bad{0.497635, 0.0147803, 0.497635, 0.0196088, 0.0147803};
  for (std::size_t part = 0; part < bad.size(); ++part) {
    EXPECT_NEAR(posterior.items[part][1], bad[part], 5e-7) << network.items[part].id;
  }
  // One candidate against all: the evidence with every part pinned, over the evidence.
  const auto candidate = [&](const std::set<std::size_t>& faulty) {
    Evidence pinned = conflicts;
    for (std::size_t part = 0; part < bad.size(); ++part) {
      const bool is_bad = faulty.contains(part);
      pinned.readings.push_back({part, {{is_bad ? 0.0 : 1.0, is_bad ? 1.0 : 0.0}}});
    }
    return std::exp(must_infer(network, pinned).log_evidence - posterior.log_evidence);
  };
  EXPECT_NEAR(candidate({0}), 0.478026, 5e-7);
  EXPECT_NEAR(candidate({2}), 0.478026, 5e-7);
  EXPECT_NEAR(candidate({1, 3}), 0.0048285, 5e-8);
  EXPECT_NEAR(candidate({3, 4}), 0.0048285, 5e-8);
}

// Vomlel, slides on decision-theoretic troubleshooting (11 July 2007), the light-print example:
// causes 0.4, 0.3, 0.2, 0.1; a question answered yes by the first two; an action that helps with
// 0.9 for the same two. Answers computed.
TEST(PublishedExamples, LightPrintQuestion) {
  Network network;
  network.items = {{"cause", {"c1", "c2", "c3", "c4"}, {}, {{0.4, 0.3, 0.2, 0.1}}}};
  network.findings = {{"question", 0.0, {{0, 0, 1.0}, {0, 1, 1.0}}},
                      {"action", 0.0, {{0, 0, 0.9}, {0, 1, 0.9}}}};
  const std::vector<std::size_t> question{0};
  const auto foresight = infer_with_outlook(network, {}, question);
  ASSERT_TRUE(foresight);
  EXPECT_NEAR(foresight->outlooks[0].present, 0.7, 1e-12);
  EXPECT_NEAR(foresight->outlooks[0].items_if_present[0][0], 4.0 / 7.0, 1e-12);
  EXPECT_NEAR(foresight->now.findings[1], 0.63, 1e-12);
  EXPECT_NEAR(must_infer(network, {{0}, {}, {}, {}}).findings[1], 0.9, 1e-12);
}

double odds_decibans(const Posterior& posterior) {
  return 10.0 * std::log10(posterior.items[0][1] / posterior.items[0][0]);
}

// Prior 1/11; a bad machine makes 1/3 bad parts, a good one 1/6 (after Jaynes, Probability Theory,
// ch. 4; inputs from a public rendering): -10 db, +3.0103 for a bad part, -0.9691 for a good one;
// three bad and one good leave 0.390244. Computed.
TEST(PublishedExamples, BadMachineWeighedInDecibans) {
  Network network;
  network.items = {{"machine", {"good", "bad"}, {}, {{10.0 / 11.0, 1.0 / 11.0}}}};
  const ItemReading bad{0, {{1.0 / 6.0, 1.0 / 3.0}}};
  const ItemReading good{0, {{5.0 / 6.0, 2.0 / 3.0}}};
  const Evidence evidence{{}, {}, {}, {bad, bad, bad, good}};
  EXPECT_NEAR(odds_decibans(must_infer(network, {})), -10.0, 1e-9);
  EXPECT_NEAR(must_infer(network, evidence).items[0][1], 0.390244, 5e-7);
  const auto weights = leave_one_out(network, evidence);
  ASSERT_TRUE(weights);
  EXPECT_NEAR(weights->weight[0][0].value, 3.0103, 5e-5);
  EXPECT_NEAR(weights->weight[3][0].value, -0.9691, 5e-5);
}

// Settings of odds 8 to 13 (printed as -2 db), then a run worth 15 db: printed "13 db, 20 to 1 on"
// (public transcription of a wartime report on weights of evidence).
TEST(PublishedExamples, TwentyToOneOn) {
  Network network;
  network.items = {{"setting", {"wrong", "right"}, {}, {{13.0 / 21.0, 8.0 / 21.0}}}};
  const Posterior posterior =
      must_infer(network, {{}, {}, {}, {{0, {{1.0, std::pow(10.0, 1.5)}}}}});
  EXPECT_NEAR(odds_decibans(posterior), 13.0, 0.15);
}

// Machine works with 0.9; good parts 0.95 if it works, 0.70 if not; 12 parts, 3 of them bad: the
// log-odds end at -0.4296 (inputs from a public lecture page; end computed).
TEST(PublishedExamples, TwelvePartsThreeOfThemBad) {
  Network network;
  network.items = {{"machine", {"works", "broken"}, {}, {{0.9, 0.1}}}};
  Evidence evidence;
  for (int part = 0; part < 12; ++part) {
    evidence.readings.push_back(
        {0, {part < 3 ? std::vector{0.05, 0.30} : std::vector{0.95, 0.70}}});
  }
  EXPECT_NEAR(must_infer(network, evidence).items[0][0], 0.394217, 1e-6);
}

}  // namespace
}  // namespace dryout::diagnosis
