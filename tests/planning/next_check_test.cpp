#include "planning/next_check.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "invented_sets.h"

namespace dryout::planning {
namespace {

using diagnosis::Evidence;
using quantities::in_minutes;
using quantities::minutes;

quantities::Result<diagnosis::Foresight> look(const InventedSet& set, const Evidence& evidence) {
  std::vector<std::size_t> findings;
  for (const auto& check : set.bench.checks) {
    findings.push_back(check.finding);
  }
  return diagnosis::infer_with_outlook(set.network, evidence, findings);
}

std::vector<RankedCheck> rank(const InventedSet& set, const Evidence& evidence) {
  const auto foresight = look(set, evidence);
  EXPECT_TRUE(foresight.ok());
  return rank_checks(set.network, *foresight, set.bench);
}

Evidence first_symptom(const InventedSet& set) {
  Evidence evidence;
  for (std::size_t f = 0; f < set.network.findings.size(); ++f) {
    if (set.network.findings[f].id == "b1-symptom") {
      evidence.present.push_back(f);
    }
  }
  return evidence;
}

/// Two equal suspects of one complaint, and a perfect check on the first.
InventedSet two_suspects() {
  InventedSet set;
  set.network.items = {{"A", {"sound", "bad"}, {}, {{0.9, 0.1}}},
                       {"B", {"sound", "bad"}, {}, {{0.9, 0.1}}}};
  set.network.findings = {{"hum", 0.0, {{0, 1, 1.0}, {1, 1, 1.0}}}, {"A-bad", 0.0, {{0, 1, 1.0}}}};
  set.bench.remedies = {{0, minutes(20), {}}, {1, minutes(30), {}}};
  set.bench.checks = {{"look-at-A", 1, minutes(2), {}, Danger::none}};
  set.bench.give_up = minutes(600);
  return set;
}

// By hand. Hum: P(A) = P(B) = .1 / .19 = 10/19. Now: A, B, give up:
// 20 + 9/19 * (30 + 9/19 * 600). After "A bad": blame A 1 -> 20. After "A sound": B is bad -> 30.
TEST(RankChecks, SavingIsTheExpectedDropOfTheMinutesThatRemain) {
  const auto ranked =
      rank(two_suspects(), {.present = {0}, .absent = {}, .soft = {}, .readings = {}});
  ASSERT_EQ(ranked.size(), 1U);
  const double now = 20.0 + 9.0 / 19.0 * (30.0 + 9.0 / 19.0 * 600.0);
  const double after = 10.0 / 19.0 * 20.0 + 9.0 / 19.0 * 30.0;
  EXPECT_NEAR(ranked[0].present, 10.0 / 19.0, 1e-9);
  EXPECT_NEAR(in_minutes(ranked[0].saving), now - after, 1e-6);
  EXPECT_NEAR(ranked[0].score, (now - after - 2.0) / 2.0, 1e-6);
  EXPECT_GT(ranked[0].gain_bits, 0.0);
}

TEST(RankChecks, AKnownOutcomeSavesNothing) {
  const auto ranked =
      rank(two_suspects(), {.present = {0, 1}, .absent = {}, .soft = {}, .readings = {}});
  EXPECT_EQ(ranked[0].present, 1.0);
  EXPECT_EQ(in_minutes(ranked[0].saving), 0.0);
  EXPECT_LE(ranked[0].score, 0.0);
}

TEST(RankChecks, OfTwoLikeChecksTheDeadOneStandsFirst) {
  for (const Danger danger : {Danger::stored_charge, Danger::mains, Danger::high_tension}) {
    InventedSet set = two_suspects();
    set.bench.checks[0].danger = danger;
    set.bench.checks.push_back({"look-dead", 1, minutes(2), {}, Danger::none});
    const auto ranked = rank(set, {.present = {0}, .absent = {}, .soft = {}, .readings = {}});
    EXPECT_EQ(ranked[0].check, 1U);
    EXPECT_EQ(ranked[1].check, 0U);
  }
}

TEST(RankChecks, WhatStandsOpenIsNotPaidForAgain) {
  InventedSet set = two_suspects();
  set.bench.access = {{"lid", minutes(5), {}}};
  set.bench.checks[0].access = {0};
  const Evidence hum{.present = {0}, .absent = {}, .soft = {}, .readings = {}};
  const auto closed = rank(set, hum);
  EXPECT_DOUBLE_EQ(in_minutes(closed[0].access_effort), 5.0);
  EXPECT_EQ(closed[0].opens, std::vector<std::size_t>{0});
  set.bench.open = {true};
  const auto open = rank(set, hum);
  EXPECT_DOUBLE_EQ(in_minutes(open[0].access_effort), 0.0);
  EXPECT_GT(open[0].score, closed[0].score);
}

double gain(const RankedCheck& ranked) {
  return in_minutes(ranked.saving - ranked.effort - ranked.access_effort);
}

TEST(RankChecks, NoCheckStandsAheadOfASaferOneThatGainsAsMuch) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const InventedSet set = SetInventor(seed).invent(6, 4);
    const auto ranked = rank(set, first_symptom(set));
    ASSERT_EQ(ranked.size(), set.bench.checks.size());
    for (std::size_t i = 0; i < ranked.size(); ++i) {
      for (std::size_t j = i + 1; j < ranked.size(); ++j) {
        const Danger ahead = set.bench.checks[ranked[i].check].danger;
        const Danger behind = set.bench.checks[ranked[j].check].danger;
        if (ahead == behind) {
          EXPECT_GE(ranked[i].score, ranked[j].score) << "seed " << seed;
        } else if (ahead > behind) {
          EXPECT_GT(gain(ranked[i]), gain(ranked[j])) << "seed " << seed;
        }
      }
    }
  }
}

TEST(RankChecks, LooksWhereTheComplaintIs) {
  const InventedSet set = SetInventor(3).invent(8, 4);
  const auto ranked = rank(set, first_symptom(set));
  EXPECT_GT(ranked.front().score, 0.0);
  EXPECT_EQ(set.bench.checks[ranked.front().check].id.substr(0, 2), "b1");
}

/// Walks the tree and asks rank_checks afresh at every node.
void expect_advice(const InventedSet& set, const TreeNode& node, const Evidence& evidence,
                   int depth) {
  std::vector<RankedCheck> ranked = rank(set, evidence);
  if (node.leaf) {
    EXPECT_TRUE(depth == 0 || ranked.empty() || ranked.front().score <= 0.0 ||
                node.probability < 0.005);
    return;
  }
  ASSERT_FALSE(ranked.empty());
  const CandidateCheck& check = set.bench.checks[ranked.front().check];
  EXPECT_GT(ranked.front().score, 0.0);
  ASSERT_EQ(node.then.size(), 2U);
  EXPECT_NEAR(node.then[0].probability + node.then[1].probability, node.probability, 1e-9);
  for (const bool present : {true, false}) {
    const TreeNode& then = node.then[present ? 0 : 1];
    if (then.probability <= 0.0) {
      continue;
    }
    InventedSet next = set;
    next.bench.open.resize(next.bench.access.size());
    for (const std::size_t step : ranked.front().opens) {
      next.bench.open[step] = true;
    }
    Evidence told = evidence;
    (present ? told.present : told.absent).push_back(check.finding);
    expect_advice(next, then, told, depth - 1);
  }
}

TEST(ContingencyTree, GivesTheAdviceThatIsGivenStepByStep) {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    const InventedSet set = SetInventor(seed).invent(4, 3);
    const Evidence evidence = first_symptom(set);
    constexpr int depth = 6;
    const auto tree = contingency_tree(set.network, evidence, set.bench, depth);
    ASSERT_TRUE(tree.ok());
    EXPECT_FALSE(tree->leaf);
    EXPECT_EQ(tree->check, rank(set, evidence).front().check);
    expect_advice(set, *tree, evidence, depth);
  }
}

TEST(ContingencyTree, OfDepthZeroIsALeafThatNamesTheSuspect) {
  const InventedSet set = two_suspects();
  const Evidence sure{.present = {0, 1}, .absent = {}, .soft = {}, .readings = {}};
  const auto tree = contingency_tree(set.network, sure, set.bench, 0);
  ASSERT_TRUE(tree.ok());
  EXPECT_TRUE(tree->leaf);
  EXPECT_EQ(tree->leading_item, 0U);
  EXPECT_NEAR(tree->leading, 1.0, 1e-12);
}

TEST(ContingencyTree, PassesOnWhatCannotBeTrue) {
  const InventedSet set = two_suspects();
  const Evidence absurd{.present = {1}, .absent = {0}, .soft = {}, .readings = {}};
  EXPECT_FALSE(contingency_tree(set.network, absurd, set.bench, 3).ok());
}

}  // namespace
}  // namespace dryout::planning
