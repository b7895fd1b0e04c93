// Worked examples and theorems of decision-theoretic troubleshooting and half-splitting. Each names
// its source; where only the inputs are published, the expectation was enumerated by hand or by a
// script of our own and is marked "computed".
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <string>
#include <vector>

#include "planning/plan.h"
#include "planning/repair_order.h"
#include "planning/situation_space.h"

namespace dryout::planning {
namespace {

constexpr double never = 1e6;  // minutes of giving up where an example knows no giving up

double minutes_of(const TroubleshootingProblem& problem, Policy policy) {
  const auto planned = plan(problem, policy);
  EXPECT_TRUE(planned.ok());
  return planned->expected_minutes;
}

/// Repairs in a given order; what comes after the last is given up.
double minutes_in_order(const TroubleshootingProblem& problem, std::vector<std::size_t> order) {
  auto first = std::make_unique<Step>();
  std::reverse(order.begin(), order.end());
  for (const std::size_t repair : order) {
    auto step = std::make_unique<Step>();
    step->kind = Step::Kind::repair;
    step->index = repair;
    step->then.push_back(std::move(first));
    first = std::move(step);
  }
  return expected_minutes(problem, *first);
}

// Rule: order by probability over cost; Kadane and Simon, Annals of Statistics 5(2), 1977, and
// Heckerman, Breese and Rommelse, CACM 38(3), 1995 (recalled). Inputs our own, results computed.
TEST(ProbabilityOverCost, OrdersThreeSingleRepairs) {
  TroubleshootingProblem problem;
  problem.faults = {{"1", 0.5}, {"2", 0.3}, {"3", 0.2}};
  problem.repairs = {{"r1", {0}, 10.0, {}}, {"r2", {1}, 4.0, {}}, {"r3", {2}, 1.0, {}}};
  problem.give_up_minutes = never;
  EXPECT_NEAR(minutes_in_order(problem, {2, 1, 0}), 9.2, 1e-9);
  EXPECT_NEAR(minutes_in_order(problem, {0, 1, 2}), 12.2, 1e-9);
  std::vector<double> every_order;
  std::vector<std::size_t> order = {0, 1, 2};
  do {
    every_order.push_back(minutes_in_order(problem, order));
  } while (std::next_permutation(order.begin(), order.end()));
  std::sort(every_order.begin(), every_order.end());
  const std::vector<double> expected = {9.2, 9.7, 10.2, 11.2, 11.7, 12.2};
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_NEAR(every_order[i], expected[i], 1e-9);
  }
  for (const Policy policy : {Policy::ours, Policy::optimal, Policy::probability_over_cost}) {
    EXPECT_NEAR(minutes_of(problem, policy), 9.2, 1e-9);
  }
}

// The same theorem on problems of eight: no order of any independent perfect repairs beats p/C.
TEST(ProbabilityOverCost, EqualsTheOptimumForIndependentPerfectRepairs) {
  for (int n = 2; n <= 8; ++n) {
    TroubleshootingProblem problem;
    for (int i = 0; i < n; ++i) {
      const auto index = static_cast<std::size_t>(i);
      problem.faults.push_back({"f" + std::to_string(i), (1.0 + (i * 7) % 5) / 30.0});
      problem.repairs.push_back({"r" + std::to_string(i), {index}, 2.0 + (i * 11) % 13, {}});
    }
    problem.give_up_minutes = never;
    const double optimum = minutes_of(problem, Policy::optimal);
    EXPECT_NEAR(minutes_of(problem, Policy::probability_over_cost), optimum, 1e-9 * optimum);
    EXPECT_NEAR(minutes_of(problem, Policy::ours), optimum, 1e-9 * optimum);
  }
}

// Ross, Introduction to Stochastic Dynamic Programming, exercise (inputs read in a public copy):
// a failure has one of two causes; checking cause i costs C_i, and mending the true one R_i, always
// paid. Check 1 first if and only if p/C1 >= (1-p)/C2: the R drop out, and so each check with its
// mending is one repair of C_i minutes here.
TEST(ProbabilityOverCost, ChecksTheFirstOfTwoCausesWhereItsRatioIsLarger) {
  for (const double p : {0.05, 0.2, 0.5, 0.65, 0.9}) {
    for (const double c1 : {1.0, 3.0, 10.0}) {
      for (const double c2 : {0.7, 2.0, 25.0}) {
        TroubleshootingProblem problem;
        problem.faults = {{"1", p}, {"2", 1.0 - p}};
        problem.repairs = {{"r1", {0}, c1, {}}, {"r2", {1}, c2, {}}};
        problem.give_up_minutes = never;
        const bool first_is_one = p / c1 >= (1.0 - p) / c2;
        const auto planned = plan(problem, Policy::optimal);
        EXPECT_EQ(planned->first->index == 0, first_is_one) << p << ' ' << c1 << ' ' << c2;
      }
    }
  }
}

/// A fault split by which unreliable repairs would cure it: independent successes of chance p
/// become faults of their own, and every repair is then a sure one.
struct Unreliable {
  std::size_t repair;
  double success;
};

void add_split(TroubleshootingProblem& problem, const std::string& id, double prior,
               const std::vector<Unreliable>& cures, const std::vector<std::size_t>& sure) {
  for (std::size_t combination = 0; combination < (std::size_t{1} << cures.size()); ++combination) {
    const std::size_t fault = problem.faults.size();
    double p = prior;
    for (std::size_t k = 0; k < cures.size(); ++k) {
      const bool works = ((combination >> k) & 1U) != 0;
      p *= works ? cures[k].success : 1.0 - cures[k].success;
      if (works) {
        problem.repairs[cures[k].repair].fixes.push_back(fault);
      }
    }
    for (const std::size_t repair : sure) {
      problem.repairs[repair].fixes.push_back(fault);
    }
    problem.faults.push_back({id + std::to_string(combination), p});
  }
}

// "Computer irregularities": a textbook exercise on troubleshooting with unreliable actions (inputs
// read in a public copy that cites Example 9.2; by memory Jensen and Nielsen, Bayesian Networks and
// Decision Graphs). Costs of sequences computed.
TEST(UnreliableRepairs, ComputerIrregularitiesCostWhatEnumerationSays) {
  TroubleshootingProblem problem;
  enum : std::size_t { reboot, virus_tool, reformat, buy };
  problem.repairs = {{"reboot", {}, 1.0, {}},
                     {"virus-tool", {}, 2.0, {}},
                     {"reformat", {}, 25.0, {}},
                     {"buy", {}, 500.0, {}}};
  add_split(problem, "program", 0.8, {{reformat, 0.99}}, {reboot, buy});
  add_split(problem, "virus", 0.15, {{virus_tool, 0.95}, {reformat, 0.99}}, {buy});
  add_split(problem, "hardware", 0.05, {}, {buy});
  problem.give_up_minutes = never;
  EXPECT_NEAR(minutes_in_order(problem, {reboot, virus_tool, reformat, buy}), 27.875, 1e-6);
  EXPECT_NEAR(minutes_in_order(problem, {virus_tool, reboot, reformat, buy}), 29.3325, 1e-6);
  EXPECT_NEAR(minutes_in_order(problem, {reboot, virus_tool, buy}), 30.15, 1e-6);
  EXPECT_NEAR(minutes_in_order(problem, {reboot, reformat, buy}), 31.75, 1e-6);
  EXPECT_NEAR(minutes_in_order(problem, {buy}), 500.0, 1e-6);
  EXPECT_NEAR(minutes_of(problem, Policy::optimal), 27.875, 1e-6);
  EXPECT_NEAR(minutes_of(problem, Policy::ours), 27.875, 1e-6);
}

// "Light print": J. Vomlel, Decision-theoretic troubleshooting, lecture slides, 11 July 2007:
// causes, costs, P(A2 cures | C1, C2) = .9 and the question Q1. The tables of A1 and A3 are not in
// the text that we read, so only the beliefs are held (computed), not a whole plan.
TEST(LightPrint, AQuestionMovesTheCausesAndTheEfficiencyOfTheAction) {
  TroubleshootingProblem problem;
  problem.repairs = {{"A2", {}, 15.0, {}}};
  add_split(problem, "C1", 0.4, {{0, 0.9}}, {});
  add_split(problem, "C2", 0.3, {{0, 0.9}}, {});
  add_split(problem, "C3", 0.2, {}, {});
  add_split(problem, "C4", 0.1, {}, {});
  problem.checks = {
      {"Q1", 2.0, {}, {"yes", "no"}, {{1, 0}, {1, 0}, {1, 0}, {1, 0}, {0, 1}, {0, 1}}}};
  problem.give_up_minutes = never;
  const SituationSpace space(problem);
  const Situation start = space.start();
  EXPECT_NEAR(space.cures(start, 0), 0.63, 1e-12);
  EXPECT_NEAR(space.cures(start, 0) / 15.0, 0.042, 1e-12);
  const auto branches = space.follow(start, {Step::Kind::check, 0});
  ASSERT_EQ(branches.size(), 2U);
  EXPECT_NEAR(branches[0].probability, 0.7, 1e-12);
  const Situation& yes = branches[0].situation;
  EXPECT_NEAR(yes.weights[0] + yes.weights[1], 4.0 / 7.0, 1e-12);
  EXPECT_NEAR(space.cures(yes, 0), 0.9, 1e-12);
  EXPECT_NEAR(space.cures(yes, 0) / 15.0, 0.06, 1e-12);
}

// Repairs that overlap: p/C weighed again after each failure is not optimal. Instance our own,
// computed by enumeration of all 24 orders.
TEST(OverlappingRepairs, MisleadProbabilityOverCostButNotOurs) {
  TroubleshootingProblem problem;
  problem.faults = {{"a", 0.25}, {"b", 0.1}, {"c", 0.3}, {"d", 0.35}};
  problem.repairs = {{"W", {0, 2, 3}, 5.9, {}},
                     {"X", {0, 3}, 4.0, {}},
                     {"Y", {1, 2}, 3.0, {}},
                     {"Z", {0, 2}, 4.0, {}}};
  problem.give_up_minutes = never;
  EXPECT_NEAR(minutes_of(problem, Policy::probability_over_cost), 6.2, 1e-9);
  EXPECT_NEAR(minutes_of(problem, Policy::optimal), 5.2, 1e-9);
  EXPECT_NEAR(minutes_of(problem, Policy::ours), 5.2, 1e-9);
}

// A cluster that is opened once and need not be closed again: p/C bottom-up over the tree of
// clusters is optimal (Ottosen and Jensen, arXiv:1203.3502, abstract). Instance our own, computed.
TEST(AccessCluster, IsWeighedByItsBestPrefix) {
  TroubleshootingProblem problem;
  enum : std::size_t { A, B, C };
  problem.faults = {{"a", 0.3}, {"b", 0.4}, {"c", 0.3}};
  problem.access = {{"K", 4.0, {}}};
  problem.repairs = {{"A", {0}, 3.0, {}}, {"B", {1}, 2.0, {0}}, {"C", {2}, 2.0, {0}}};
  problem.give_up_minutes = never;
  EXPECT_NEAR(minutes_in_order(problem, {A, B, C}), 7.8, 1e-9);
  EXPECT_NEAR(minutes_in_order(problem, {A, C, B}), 8.0, 1e-9);
  EXPECT_NEAR(minutes_in_order(problem, {B, C, A}), 8.1, 1e-9);
  EXPECT_NEAR(minutes_in_order(problem, {C, B, A}), 8.3, 1e-9);
  EXPECT_NEAR(minutes_in_order(problem, {B, A, C}), 8.4, 1e-9);
  EXPECT_NEAR(minutes_in_order(problem, {C, A, B}), 8.9, 1e-9);
  const SituationSpace space(problem);
  EXPECT_NEAR(repairs_in_order(space, space.start(), OrderBy::clusters).minutes, 7.8, 1e-9);
  EXPECT_NEAR(minutes_of(problem, Policy::optimal), 7.8, 1e-9);
  EXPECT_NEAR(minutes_of(problem, Policy::ours), 7.8, 1e-9);
}

/// A chain of n stages with one fault; test k says whether it lies before stage k. A wrong repair
/// costs far more than all tests.
constexpr double repair_minutes = 1000.0;

TroubleshootingProblem chain(const std::vector<double>& priors) {
  TroubleshootingProblem problem;
  for (std::size_t i = 0; i < priors.size(); ++i) {
    problem.faults.push_back({"f" + std::to_string(i), priors[i]});
    problem.repairs.push_back({"r" + std::to_string(i), {i}, repair_minutes, {}});
  }
  for (std::size_t k = 1; k < priors.size(); ++k) {
    Check test{"t" + std::to_string(k), 1.0, {}, {"before", "behind"}, {}};
    for (std::size_t i = 0; i < priors.size(); ++i) {
      test.given.push_back(i < k ? std::vector<double>{1, 0} : std::vector<double>{0, 1});
    }
    problem.checks.push_back(test);
  }
  problem.give_up_minutes = never;
  return problem;
}

int most_checks(const Step& step) {
  int most = 0;
  for (const auto& then : step.then) {
    most = std::max(most, then == nullptr ? 0 : most_checks(*then));
  }
  return most + (step.kind == Step::Kind::check ? 1 : 0);
}

// Half-splitting: n equally likely stages need ceil(log2 n) tests at worst, and no fewer on average
// than log2 n (Shannon's noiseless coding bound); common practice in servicing since the valve era.
TEST(HalfSplit, NeedsTheLogarithmOfTheStages) {
  for (const int n : {2, 3, 5, 8, 10, 16, 20}) {
    const auto problem = chain(std::vector<double>(static_cast<std::size_t>(n), 1.0 / n));
    for (const Policy policy : {Policy::optimal, Policy::ours}) {
      const auto planned = plan(problem, policy);
      ASSERT_TRUE(planned.ok()) << n;
      EXPECT_EQ(most_checks(*planned->first), static_cast<int>(std::ceil(std::log2(n)))) << n;
      EXPECT_GE(planned->expected_minutes - repair_minutes, std::log2(n) - 1e-9) << n;
    }
  }
}

// Dyadic priors: the optimum is their entropy, 1.75 bits; halving by count would take 2 (computed).
TEST(HalfSplit, SplitsByProbabilityNotByCount) {
  const auto problem = chain({0.5, 0.25, 0.125, 0.125});
  EXPECT_NEAR(minutes_of(problem, Policy::optimal), repair_minutes + 1.75, 1e-9);
  EXPECT_NEAR(minutes_of(problem, Policy::ours), repair_minutes + 1.75, 1e-9);
}

}  // namespace
}  // namespace dryout::planning
