#include "planning/plan.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "planning/look_ahead.h"
#include "planning/policy_tree.h"
#include "random_problems.h"
#include "worlds.h"

namespace dryout::planning {
namespace {

constexpr Policy every_policy[] = {Policy::ours,
                                   Policy::optimal,
                                   Policy::probability_over_cost,
                                   Policy::probability_first,
                                   Policy::information_gain,
                                   Policy::fixed_order};

TEST(Plan, OptimumEqualsTheBestOfEveryPolicyOnTinyProblems) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const auto problem =
        RandomProblem(seed).make({.faults_max = 3, .extra_repairs_max = 1, .checks_max = 2});
    const auto best = plan(problem, Policy::optimal);
    ASSERT_TRUE(best.ok()) << "seed " << seed;
    EXPECT_NEAR(best->expected_minutes, best_of_every_policy(problem), 1e-9) << "seed " << seed;
  }
}

TEST(Plan, ExpectedMinutesEqualTheMeanOverAllWorlds) {
  for (unsigned seed = 1; seed <= 100; ++seed) {
    const auto problem = RandomProblem(seed).make();
    for (const Policy policy : every_policy) {
      const auto planned = plan(problem, policy);
      ASSERT_TRUE(planned.ok()) << "seed " << seed;
      EXPECT_NEAR(planned->expected_minutes, minutes_over_all_worlds(problem, *planned->first),
                  1e-9 * problem.give_up_minutes)
          << "seed " << seed;
    }
  }
}

TEST(Plan, NoPolicyIsCheaperThanTheOptimum) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    const auto problem = RandomProblem(seed).make();
    const double least = plan(problem, Policy::optimal)->expected_minutes;
    for (const Policy policy : every_policy) {
      EXPECT_GE(plan(problem, policy)->expected_minutes, least - 1e-9) << "seed " << seed;
    }
  }
}

TEST(Plan, GivesUpAtOnceWhereNothingElsePays) {
  TroubleshootingProblem problem;
  problem.faults = {{"a", 1.0}};
  problem.repairs = {{"fix", {0}, 10.0, {}}};
  problem.give_up_minutes = 9.0;
  for (const Policy policy : every_policy) {
    const auto planned = plan(problem, policy);
    EXPECT_EQ(planned->first->kind, Step::Kind::give_up);
    EXPECT_DOUBLE_EQ(planned->expected_minutes, 9.0);
  }
}

TEST(Plan, ARepeatedCheckSaysTheSameAgain) {
  TroubleshootingProblem problem;
  problem.faults = {{"a", 0.5}, {"b", 0.5}};
  problem.checks = {{"c", 1.0, {}, {"x", "y"}, {{0.7, 0.3}, {0.2, 0.8}}}};
  problem.give_up_minutes = 10.0;
  Step twice{Step::Kind::check, 0, {}};
  for (int outcome = 0; outcome < 2; ++outcome) {
    auto again = std::make_unique<Step>();
    again->kind = Step::Kind::check;
    again->then.resize(2);
    again->then[static_cast<std::size_t>(outcome)] = std::make_unique<Step>();
    twice.then.push_back(std::move(again));
  }
  EXPECT_NEAR(expected_minutes(problem, twice), 12.0, 1e-12);
}

TEST(Plan, OursPlansProblemsFarBeyondTheExactOptimum) {
  const auto problem = RandomProblem(5).make({.faults_max = 40,
                                              .extra_repairs_max = 10,
                                              .checks_max = 30,
                                              .access_max = 12,
                                              .give_up_min = 1000.0,
                                              .give_up_max = 1001.0});
  const auto ours = plan(problem, Policy::ours);
  const auto repairs_only = plan(problem, Policy::probability_over_cost);
  ASSERT_TRUE(ours.ok());
  EXPECT_LE(ours->expected_minutes, repairs_only->expected_minutes);
}

TEST(Plan, EveryPolicyHasANameOfItsOwn) {
  std::set<std::string_view> names;
  for (const Policy policy : policies) {
    names.insert(name_of(policy));
  }
  EXPECT_EQ(names.size(), policies.size());
}

/// Ratios to the optimum of one way of planning.
struct Column {
  double sum = 0.0, worst = 0.0;
  int optimal = 0, count = 0;
  void add(double ratio) {
    sum += ratio;
    worst = std::max(worst, ratio);
    optimal += ratio < 1.0 + 1e-9 ? 1 : 0;
    ++count;
  }
  [[nodiscard]] double mean() const { return sum / count; }
};

TEST(Plan, OursStaysNearTheOptimumOnAThousandProblems) {
  const std::vector<std::pair<std::string, Policy>> policies = {
      {"ours", Policy::ours},
      {"ours, looking ahead only", Policy::look_ahead},
      {"probability over cost", Policy::probability_over_cost},
      {"probability first", Policy::probability_first},
      {"one-step information gain", Policy::information_gain},
      {"printed fixed order", Policy::fixed_order}};
  std::map<std::string, Column> table;
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    const auto problem = RandomProblem(seed).make();
    const double least = plan(problem, Policy::optimal)->expected_minutes;
    for (const auto& [name, policy] : policies) {
      table[name].add(plan(problem, policy)->expected_minutes / least);
    }
  }
  std::printf("| policy | mean ratio | worst ratio | optimal |\n|---|---|---|---|\n");
  for (const auto& [name, column] : table) {
    std::printf("| %s | %.4f | %.3f | %.1f %% |\n", name.c_str(), column.mean(), column.worst,
                100.0 * column.optimal / column.count);
  }
  for (const char* name : {"ours", "ours, looking ahead only"}) {
    EXPECT_LE(table[name].mean(), 1.03) << name;
    EXPECT_LE(table[name].worst, 1.25) << name;
  }
}

}  // namespace
}  // namespace dryout::planning
