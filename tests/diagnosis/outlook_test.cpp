// An outlook must be what a new inference with the outcome added would say: no more, no less.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "diagnosis/posterior.h"
#include "enumeration.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

void expect_same(double got, double expected, const std::string& what) {
  constexpr double relative = 1e-9;
  EXPECT_LE(std::abs(got - expected), relative * expected + 1e-290)
      << what << ": got " << got << ", expected " << expected;
}

std::vector<std::size_t> all_findings(const Network& network) {
  std::vector<std::size_t> all(network.findings.size());
  std::iota(all.begin(), all.end(), 0U);
  return all;
}

/// Infers again with the finding added.
quantities::Result<Posterior> infer_with(const Network& network, Evidence evidence,
                                         std::size_t finding, bool present) {
  std::vector<std::size_t>& list = present ? evidence.present : evidence.absent;
  if (std::find(list.begin(), list.end(), finding) == list.end()) {
    list.push_back(finding);
  }
  return infer(network, evidence);
}

void expect_outcome(const Network& network, const Evidence& evidence, std::size_t finding,
                    bool present, const ItemBeliefs& beliefs, const std::string& what) {
  const auto expected = infer_with(network, evidence, finding, present);
  ASSERT_EQ(beliefs.empty(), !expected.ok()) << what;
  if (!expected) {
    return;
  }
  ASSERT_EQ(beliefs.size(), network.items.size());
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    ASSERT_EQ(beliefs[i].size(), network.items[i].states.size());
    for (std::size_t s = 0; s < beliefs[i].size(); ++s) {
      expect_same(beliefs[i][s], expected->items[i][s],
                  what + " item " + std::to_string(i) + " state " + std::to_string(s));
    }
  }
}

void expect_foresight_equals_inference(const Network& network, const Evidence& evidence,
                                       const std::string& what) {
  const auto now = infer(network, evidence);
  const std::vector<std::size_t> candidates = all_findings(network);
  const auto foresight = infer_with_outlook(network, evidence, candidates);
  ASSERT_EQ(now.ok(), foresight.ok()) << what;
  if (!now) {
    return;
  }
  EXPECT_EQ(foresight->now.log_evidence, now->log_evidence);
  EXPECT_EQ(foresight->now.items, now->items);
  ASSERT_EQ(foresight->outlooks.size(), candidates.size());
  for (const Outlook& outlook : foresight->outlooks) {
    const std::size_t f = outlook.finding;
    const std::string which = what + " finding " + std::to_string(f);
    expect_same(outlook.present, now->findings[f], which);
    expect_same(foresight->now.findings[f], now->findings[f], which);
    expect_outcome(network, evidence, f, true, outlook.items_if_present, which + " present");
    expect_outcome(network, evidence, f, false, outlook.items_if_absent, which + " absent");
  }
}

TEST(InferWithOutlook, EqualsInferringAgainOnRandomNetworks) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    RandomNetwork random(seed + 10'000);
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    expect_foresight_equals_inference(network, evidence, "seed " + std::to_string(seed));
  }
}

TEST(InferWithOutlook, EqualsInferringAgainWhereCohortsAreCutIntoSteps) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    RandomNetwork random(seed + 20'000, {.cohorts_max = 3, .items_max = 14, .findings_max = 14});
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    expect_foresight_equals_inference(network, evidence, "seed " + std::to_string(seed));
  }
}

// Checks on one part, and on parts of one cohort, share a sweep in which that is held.
TEST(InferWithOutlook, EqualsInferringAgainForManyChecksOnThePartsThatAreTied) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    RandomNetwork random(seed + 50'000, {.cohorts_max = 3, .items_max = 10, .findings_max = 8});
    Network network = random.network();
    const Evidence evidence = random.evidence(network);
    for (std::size_t item = 0; item < network.items.size(); ++item) {
      for (std::size_t look = 0; look < 3; ++look) {
        Finding finding{"look" + std::to_string(3 * item + look), 0.1 * random.unit(), {}};
        for (std::size_t state = 1; state < network.items[item].states.size(); ++state) {
          finding.causes.push_back({item, state, random.unit()});
        }
        network.findings.push_back(std::move(finding));
      }
    }
    expect_foresight_equals_inference(network, evidence, "seed " + std::to_string(seed));
  }
}

TEST(InferWithOutlook, NamesTheItemsThatACheckCanMoveAndLeavesTheOthersAsTheyAre) {
  // Two separate pairs; a check on the first pair tells nothing about the second.
  Network network;
  for (std::size_t i = 0; i < 4; ++i) {
    network.items.push_back({"i" + std::to_string(i), {"sound", "failed"}, {}, {{0.8, 0.2}}});
  }
  network.findings = {{"a", 0.01, {{0, 1, 0.7}, {1, 1, 0.5}}},
                      {"b", 0.01, {{2, 1, 0.7}, {3, 1, 0.5}}},
                      {"look", 0.0, {{0, 1, 0.9}}}};
  const std::vector<std::size_t> candidates{2};
  const auto foresight = infer_with_outlook(network, {{0, 1}, {}, {}, {}}, candidates);
  ASSERT_TRUE(foresight);
  const Outlook& outlook = foresight->outlooks.front();
  EXPECT_EQ(outlook.moved(), (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(outlook.items_if_present[2][1], foresight->now.items[2][1]);
  EXPECT_EQ(outlook.items_if_present[0][1], 1.0);
}

TEST(InferWithOutlook, KeepsItsOutlooksValidWhenMoved) {
  RandomNetwork random(3);
  const Network network = random.network();
  const std::vector<std::size_t> candidates = all_findings(network);
  auto first = infer_with_outlook(network, {}, candidates);
  ASSERT_TRUE(first);
  const double before = first->outlooks.front().items_if_absent[0][0];
  const Foresight moved = std::move(*first);
  EXPECT_EQ(moved.outlooks.front().items_if_absent[0][0], before);
}

TEST(InferWithOutlook, OutcomesAverageToTheBeliefOfNow) {
  for (unsigned seed = 1; seed <= 100; ++seed) {
    RandomNetwork random(seed + 30'000);
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    const auto foresight = infer_with_outlook(network, evidence, all_findings(network));
    if (!foresight) {
      continue;
    }
    for (const Outlook& outlook : foresight->outlooks) {
      for (std::size_t i = 0; i < network.items.size(); ++i) {
        double mean = 0.0;
        if (!outlook.items_if_present.empty()) {
          mean += outlook.present * outlook.items_if_present[i][0];
        }
        if (!outlook.items_if_absent.empty()) {
          mean += (1.0 - outlook.present) * outlook.items_if_absent[i][0];
        }
        EXPECT_NEAR(mean, foresight->now.items[i][0], 1e-12);
      }
    }
  }
}

}  // namespace
}  // namespace dryout::diagnosis
