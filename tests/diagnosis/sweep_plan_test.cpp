#include "diagnosis/sweep_plan.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "diagnosis/posterior.h"
#include "diagnosis/random_network.h"
#include "enumeration.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

/// One cohort of three levels whose items show two neighbouring findings each, and two lone items
/// that touch them all: too wide for one kernel, narrow step by step.
Network ladder(std::size_t rungs, unsigned seed) {
  RandomNetwork random(seed);
  Network network;
  network.cohorts = {{"k", {0.5, 0.3, 0.2}}};
  for (std::size_t f = 0; f <= rungs; ++f) {
    network.findings.push_back({"f" + std::to_string(f), 0.01 * random.unit(), {}});
  }
  for (std::size_t i = 0; i < rungs; ++i) {
    Item item{"i" + std::to_string(i), {"sound", "failed"}, 0, {}};
    for (int level = 0; level < 3; ++level) {
      const double p = 0.3 * random.unit();
      item.given_level.push_back({1.0 - p, p});
    }
    network.items.push_back(std::move(item));
    network.findings[i].causes.push_back({i, 1, random.unit()});
    network.findings[i + 1].causes.push_back({i, 1, random.unit()});
  }
  network.items.push_back({"q", {"sound", "failed"}, {}, {{0.9, 0.1}}});
  for (Finding& finding : network.findings) {
    finding.causes.push_back({rungs, 1, random.unit()});
  }
  return network;
}

TEST(SweepPlan, CutsAWideCohortIntoStepsThatCarryItsLevels) {
  const Network network = ladder(10, 1);
  const FoldedEvidence folded = fold_evidence(network, all_present(network));
  const auto plan = plan_sweep(folded);
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->blocks.size(), 2U);
  EXPECT_GT(plan->steps.size(), 3U);
  EXPECT_TRUE(std::any_of(plan->steps.begin(), plan->steps.end(), [](const Step& step) {
    return step.lanes_in == 3 && step.lanes_out == 3;
  }));
}

TEST(SweepPlan, ACohortCutIntoStepsGivesTheSamePosteriorsAsEnumeration) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const Network network = ladder(10, seed);
    Evidence evidence = all_present(network);
    evidence.soft.push_back({evidence.present.back(), 0.7, 0.2});
    evidence.present.pop_back();
    const auto posterior = infer(network, evidence);
    ASSERT_TRUE(posterior);
    const Enumerated expected = enumerate(network, evidence);
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      const auto p = static_cast<double>(expected.items[i][1] / expected.evidence);
      EXPECT_NEAR(posterior->items[i][1], p, 1e-9 * p);
    }
    for (std::size_t level = 0; level < 3; ++level) {
      const auto p = static_cast<double>(expected.cohorts[0][level] / expected.evidence);
      EXPECT_NEAR(posterior->cohorts[0][level], p, 1e-9 * p);
    }
    const auto soft = static_cast<double>(expected.findings.back() / expected.evidence);
    EXPECT_NEAR(posterior->findings.back(), soft, 1e-9 * soft);
  }
}

TEST(SweepPlan, OutlooksHoldInACohortCutIntoSteps) {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    Network network = ladder(10, seed);
    network.findings.push_back({"look", 0.05, {{3, 1, 0.6}, {7, 1, 0.4}, {9, 0, 0.1}}});
    Evidence evidence = all_present(network);
    evidence.present.pop_back();
    const std::vector<std::size_t> look{network.findings.size() - 1};
    const auto foresight = infer_with_outlook(network, evidence, look);
    ASSERT_TRUE(foresight);
    evidence.present.push_back(look.front());
    const auto present = infer(network, evidence);
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      const double p = present->items[i][1];
      EXPECT_NEAR(foresight->outlooks[0].items_if_present[i][1], p, 1e-9 * p);
    }
  }
}

/// Every item touches every finding: no kernel can be small.
Network dense(std::size_t items, std::size_t findings, unsigned seed) {
  RandomNetwork random(seed);
  Network network;
  network.cohorts = {{"k", {0.7, 0.3}}};
  for (std::size_t i = 0; i < items; ++i) {
    const double p = 0.2 * random.unit();
    Item item{"i" + std::to_string(i), {"sound", "dried", "short"}, {}, {}};
    item.given_level = {{1.0 - p, 0.7 * p, 0.3 * p}};
    if (i % 2 == 0) {
      item.cohort = 0;
      item.given_level.push_back({1.0 - 2.0 * p, p, p});
    }
    network.items.push_back(std::move(item));
  }
  for (std::size_t f = 0; f < findings; ++f) {
    Finding finding{"f" + std::to_string(f), 0.01 * random.unit(), {}};
    for (std::size_t i = 0; i < items; ++i) {
      finding.causes.push_back({i, 1 + random.below(2), random.unit()});
    }
    network.findings.push_back(std::move(finding));
  }
  return network;
}

TEST(SweepPlan, TakesItemsThatTouchManyFindingsInWideSteps) {
  const Network network = dense(6, 12, 1);
  const FoldedEvidence folded = fold_evidence(network, all_present(network));
  const auto plan = plan_sweep(folded);
  ASSERT_TRUE(plan);
  EXPECT_EQ(std::count_if(plan->steps.begin(), plan->steps.end(),
                          [](const Step& step) { return step.wide; }),
            6);
}

TEST(SweepPlan, WideStepsGiveTheSamePosteriorsAsEnumeration) {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const Network network = dense(6, 12, seed);
    Evidence evidence = all_present(network);
    evidence.soft.push_back({evidence.present.back(), 0.7, 0.2});
    evidence.present.pop_back();
    const auto posterior = infer(network, evidence);
    ASSERT_TRUE(posterior);
    const Enumerated expected = enumerate(network, evidence);
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      for (std::size_t state = 0; state < 3; ++state) {
        const auto p = static_cast<double>(expected.items[i][state] / expected.evidence);
        EXPECT_NEAR(posterior->items[i][state], p, 1e-9 * p);
      }
    }
    const auto level = static_cast<double>(expected.cohorts[0][1] / expected.evidence);
    EXPECT_NEAR(posterior->cohorts[0][1], level, 1e-9 * level);
    const auto soft = static_cast<double>(expected.findings.back() / expected.evidence);
    EXPECT_NEAR(posterior->findings.back(), soft, 1e-9 * soft);
  }
}

/// What the outlook of a check says against inferring again with its outcome.
void expect_as_inferred(const Network& network, const Evidence& evidence, const Outlook& outlook) {
  for (const bool present : {true, false}) {
    Evidence then = evidence;
    (present ? then.present : then.absent).push_back(outlook.finding);
    const auto inferred = infer(network, then);
    ASSERT_TRUE(inferred);
    const ItemBeliefs& beliefs = present ? outlook.items_if_present : outlook.items_if_absent;
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      for (std::size_t state = 0; state < 3; ++state) {
        const double p = inferred->items[i][state];
        EXPECT_NEAR(beliefs[i][state], p, 1e-9 * p) << outlook.finding << ' ' << i << ' ' << state;
      }
    }
  }
}

/// Checks on the first items, one to all of them; on two items with another between them; and two
/// on one item, which share a sweep.
TEST(SweepPlan, OutlooksHoldAcrossWideSteps) {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    Network network = dense(6, 13, seed);
    Evidence evidence = all_present(network);
    std::vector<std::size_t> look{network.findings.size() - 1};
    evidence.present.pop_back();
    network.findings.back().causes.resize(1 + seed % 6);
    const std::vector<std::vector<Cause>> others{
        {{1, 1, 0.6}, {5, 2, 0.9}}, {{3, 1, 0.7}}, {{3, 1, 0.2}, {3, 2, 0.9}}};
    for (const std::vector<Cause>& causes : others) {
      look.push_back(network.findings.size());
      network.findings.push_back({"look" + std::to_string(look.back()), 0.01, causes});
    }
    const auto foresight = infer_with_outlook(network, evidence, look);
    ASSERT_TRUE(foresight);
    for (const Outlook& outlook : foresight->outlooks) {
      expect_as_inferred(network, evidence, outlook);
    }
  }
}

TEST(SweepPlan, ItemsThatTouchNoPositiveFindingTakeNoStep) {
  Network network = ladder(3, 1);
  const FoldedEvidence folded = fold_evidence(network, {{0, 1}, {}, {}, {}});
  const auto plan = plan_sweep(folded);
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->step_of_item[2], none);
  EXPECT_NE(plan->step_of_item[0], none);
}

TEST(SweepPlan, AFindingThatOneItemAloneCanExplainIsFolded) {
  Network network = ladder(3, 1);
  for (Finding& finding : network.findings) {
    finding.causes = {{0, 1, 0.5}};
  }
  EXPECT_TRUE(fold_evidence(network, all_present(network)).shared.empty());
}

}  // namespace
}  // namespace dryout::diagnosis
