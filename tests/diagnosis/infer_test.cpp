// Exactness of the posteriors: against enumeration of every joint state, and against networks whose
// answers two general-purpose engines and extended precision agree on.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/network_json.h"
#include "diagnosis/posterior.h"
#include "enumeration.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

/// |got - expected| <= 1e-9 * expected, and the same for the complement where that is what the
/// caller asked for by giving both.
void expect_same(double got, long double expected, const std::string& what) {
  constexpr long double relative = 1e-9L;
  EXPECT_LE(std::abs(static_cast<long double>(got) - expected), relative * expected + 1e-290L)
      << what << ": got " << got << ", expected " << static_cast<double>(expected);
}

void expect_equals_enumeration(const Network& network, const Evidence& evidence,
                               const Posterior& posterior, const std::string& what) {
  const Enumerated expected = enumerate(network, evidence);
  EXPECT_NEAR(posterior.log_evidence, static_cast<double>(std::log(expected.evidence)), 1e-9)
      << what;
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    for (std::size_t s = 0; s < network.items[i].states.size(); ++s) {
      expect_same(posterior.items[i][s], expected.items[i][s] / expected.evidence,
                  what + " item " + std::to_string(i) + " state " + std::to_string(s));
    }
  }
  for (std::size_t c = 0; c < network.cohorts.size(); ++c) {
    for (std::size_t l = 0; l < network.cohorts[c].levels.size(); ++l) {
      expect_same(posterior.cohorts[c][l], expected.cohorts[c][l] / expected.evidence,
                  what + " cohort " + std::to_string(c));
    }
  }
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    expect_same(posterior.findings[f], expected.findings[f] / expected.evidence,
                what + " finding " + std::to_string(f));
  }
}

TEST(Infer, EqualsEnumerationOnTwoThousandRandomNetworks) {
  int possible = 0;
  int impossible = 0;
  for (unsigned seed = 1; seed <= 2000; ++seed) {
    RandomNetwork random(seed);
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    ASSERT_TRUE(check(network).empty()) << describe(check(network));
    ASSERT_TRUE(check(network, evidence).empty());
    const auto posterior = infer(network, evidence);
    const Enumerated expected = enumerate(network, evidence);
    ASSERT_EQ(posterior.ok(), expected.evidence > 0.0L) << "seed " << seed;
    if (!posterior) {
      ++impossible;
      continue;
    }
    ++possible;
    expect_equals_enumeration(network, evidence, *posterior, "seed " + std::to_string(seed));
  }
  EXPECT_GE(possible, 500);
  EXPECT_GE(impossible, 50);
}

TEST(Infer, DoesNotDependOnTheOrderOfTheEvidence) {
  for (unsigned seed = 5000; seed < 5100; ++seed) {
    RandomNetwork random(seed);
    const Network network = random.network();
    Evidence evidence = random.evidence(network);
    const auto forward = infer(network, evidence);
    std::reverse(evidence.present.begin(), evidence.present.end());
    std::reverse(evidence.absent.begin(), evidence.absent.end());
    std::reverse(evidence.soft.begin(), evidence.soft.end());
    std::reverse(evidence.readings.begin(), evidence.readings.end());
    const auto backward = infer(network, evidence);
    ASSERT_EQ(forward.ok(), backward.ok());
    if (!forward) {
      continue;
    }
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      for (std::size_t s = 0; s < network.items[i].states.size(); ++s) {
        expect_same(forward->items[i][s], backward->items[i][s], "seed " + std::to_string(seed));
      }
    }
  }
}

class GeneratedNetwork : public testing::TestWithParam<const char*> {};

// Expected values: agree between libDAI 0.3.0 (junction tree), aGrUM (two algorithms) and
// inclusion-exclusion in extended precision. The weak one loses every digit to cancellation if
// inclusion-exclusion is done in double precision.
TEST_P(GeneratedNetwork, AgreesWithGeneralPurposeEngines) {
  const auto document =
      documents::read_file(std::string(DRYOUT_SOURCE_DIR) + "/tests/diagnosis/data/" + GetParam());
  ASSERT_TRUE(document) << describe(document.problems());
  const documents::Value* const expected = document->root.find("expected");
  const auto network = read_network({document->file, *document->root.find("network")});
  ASSERT_TRUE(network) << describe(network.problems());
  const auto posterior = infer(network->network, network->evidence);
  ASSERT_TRUE(posterior) << describe(posterior.problems());
  EXPECT_NEAR(posterior->log_evidence, *expected->find("log_evidence")->number(), 1e-9);
  const documents::Value* const failed = expected->find("failed");
  for (std::size_t i = 0; i < network->network.items.size(); ++i) {
    const std::string& id = network->network.items[i].id;
    const double reference = *failed->find(id)->number();
    EXPECT_NEAR(posterior->items[i][1], reference, 1e-9 * reference) << id;
  }
}
INSTANTIATE_TEST_SUITE_P(Infer, GeneratedNetwork,
                         testing::Values("bn2o_8.json", "bn2o_12weak.json"));

/// Items that fail once in a million, each a very weak cause of every finding; no leaks.
Network rare_and_weak(std::size_t findings, std::size_t items, double strength) {
  Network network;
  for (std::size_t i = 0; i < items; ++i) {
    network.items.push_back(
        {"i" + std::to_string(i), {"sound", "failed"}, {}, {{1.0 - 1e-6, 1e-6}}});
  }
  for (std::size_t f = 0; f < findings; ++f) {
    Finding finding{"f" + std::to_string(f), 0.0, {}};
    for (std::size_t i = 0; i < items; ++i) {
      finding.causes.push_back({i, 1, strength});
    }
    network.findings.push_back(std::move(finding));
  }
  return network;
}

TEST(Infer, KeepsEvidenceFarBelowTheSmallestDouble) {
  const Network network = rare_and_weak(40, 1, 1e-12);
  const auto posterior = infer(network, all_present(network));
  ASSERT_TRUE(posterior) << describe(posterior.problems());
  // P(e) = 1e-6 * 1e-12^40: only the item can explain anything.
  EXPECT_NEAR(posterior->log_evidence, std::log(10.0) * (-6.0 - 480.0), 1e-9);
  EXPECT_EQ(posterior->items[0][1], 1.0);
}

TEST(Infer, KeepsDigitsWhereDoubleUnderflowsInsideTheSweep) {
  // Two items share 14 findings of strength 1e-25 each: P(e | one failed) = 1e-350,
  // P(e | both) = (2e-25 - 1e-50)^14.
  const Network network = rare_and_weak(14, 2, 1e-25);
  const auto posterior = infer(network, all_present(network));
  ASSERT_TRUE(posterior) << describe(posterior.problems());
  const long double p = 1e-6L;
  const long double one = p * (1.0L - p);
  const long double both = p * p * std::pow(2.0L, 14.0L);
  const long double total = 2.0L * one + both;
  EXPECT_NEAR(posterior->log_evidence,
              static_cast<double>(std::log(total) - 350.0L * std::log(10.0L)), 1e-9);
  expect_same(posterior->items[0][1], (one + both) / total, "failed");
}

TEST(Infer, ManyFindingsInSeparateCornersCostLittle) {
  // 30 pairs of items, each with two findings of its own: 60 positives, two open at once.
  Network network;
  Evidence evidence;
  for (std::size_t pair = 0; pair < 30; ++pair) {
    for (std::size_t i = 0; i < 2; ++i) {
      network.items.push_back(
          {"i" + std::to_string(2 * pair + i), {"sound", "failed"}, {}, {{0.9, 0.1}}});
    }
    for (std::size_t f = 0; f < 2; ++f) {
      network.findings.push_back(
          {"f" + std::to_string(2 * pair + f), 0.01, {{2 * pair, 1, 0.5}, {2 * pair + 1, 1, 0.8}}});
      evidence.present.push_back(2 * pair + f);
    }
  }
  const auto posterior = infer(network, evidence);
  ASSERT_TRUE(posterior) << describe(posterior.problems());
  Network one_pair;
  one_pair.items = {network.items[0], network.items[1]};
  one_pair.findings = {network.findings[0], network.findings[1]};
  const auto alone = infer(one_pair, {{0, 1}, {}, {}, {}});
  ASSERT_TRUE(alone);
  EXPECT_NEAR(posterior->log_evidence, 30.0 * alone->log_evidence, 1e-9);
  EXPECT_NEAR(posterior->items[58][1], alone->items[0][1], 1e-12);
}

TEST(Infer, RefusesFindingsThatHangTogetherTooCloselyAndSaysHowMany) {
  Network network;
  Evidence evidence;
  for (std::size_t i = 0; i < 60; ++i) {
    network.items.push_back({"i" + std::to_string(i), {"sound", "failed"}, {}, {{0.9, 0.1}}});
  }
  RandomNetwork random(7);
  for (std::size_t f = 0; f < 50; ++f) {
    Finding finding{"f" + std::to_string(f), 0.01, {}};
    for (std::size_t i = 0; i < 60; ++i) {
      if (random.below(3) == 0) {
        finding.causes.push_back({i, 1, 0.5});
      }
    }
    network.findings.push_back(std::move(finding));
    evidence.present.push_back(f);
  }
  const auto posterior = infer(network, evidence);
  ASSERT_FALSE(posterior);
  EXPECT_NE(describe(posterior.problems()).find("50 positive or soft findings"), std::string::npos)
      << describe(posterior.problems());
}

}  // namespace
}  // namespace dryout::diagnosis
