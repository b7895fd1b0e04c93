#include "planning/leading_problem.h"

#include <gtest/gtest.h>

#include <numeric>

#include "invented_sets.h"
#include "planning/plan.h"

namespace dryout::planning {
namespace {

struct Posed {
  InventedSet set;
  diagnosis::Foresight foresight;
  LeadingProblem leading;
};

Posed pose(InventedSet set, const diagnosis::Evidence& evidence) {
  std::vector<std::size_t> findings;
  for (const CandidateCheck& check : set.bench.checks) {
    findings.push_back(check.finding);
  }
  auto foresight = diagnosis::infer_with_outlook(set.network, evidence, findings);
  EXPECT_TRUE(foresight.ok());
  LeadingProblem leading = leading_problem(set.network, *foresight, set.bench, 5.0);
  return {std::move(set), std::move(*foresight), std::move(leading)};
}

Posed invented(unsigned seed) {
  InventedSet set = SetInventor(seed).invent(4, 3);
  return pose(std::move(set), {.present = {0}, .absent = {}, .soft = {}, .readings = {}});
}

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

TEST(LeadingProblem, IsAProperProblem) {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const LeadingProblem leading = invented(seed).leading;
    double priors = 0.0;
    for (const Fault& fault : leading.problem.faults) {
      EXPECT_GT(fault.prior, 0.0);
      priors += fault.prior;
    }
    EXPECT_NEAR(priors, 1.0, 1e-12);
    ASSERT_EQ(leading.checks.size(), leading.problem.checks.size());
    ASSERT_EQ(leading.remedies.size(), leading.problem.repairs.size());
    for (const Check& check : leading.problem.checks) {
      ASSERT_EQ(check.given.size(), leading.problem.faults.size());
      for (const std::vector<double>& row : check.given) {
        EXPECT_NEAR(sum(row), 1.0, 1e-12);
        EXPECT_GE(row.front(), 0.0);
        EXPECT_LE(row.front(), 1.0);
      }
    }
    EXPECT_TRUE(plan(leading.problem, Policy::optimal).ok());
  }
}

// Two items that cannot both be wrong to any purpose: the complaint has one cause, and the bare
// problem is then the whole truth. By Bayes' rule on the definition of the network: blame .5 each,
// P(present | A) = 0.9, P(present | B) = 0.
TEST(LeadingProblem, OfTwoSuspectsIsTheWholeTruth) {
  InventedSet set;
  constexpr double rare = 1e-9;
  set.network.items = {{"A", {"sound", "bad"}, {}, {{1.0 - rare, rare}}},
                       {"B", {"sound", "bad"}, {}, {{1.0 - rare, rare}}}};
  set.network.findings = {{"hum", 0.0, {{0, 1, 1.0}, {1, 1, 1.0}}}, {"ripple", 0.0, {{0, 1, 0.9}}}};
  set.bench.access = {{"lid", quantities::minutes(3), {}}, {"board", quantities::minutes(7), {0}}};
  set.bench.checks = {{"ripple", 1, quantities::minutes(2), {1}, Danger::none}};
  set.bench.remedies = {{0, quantities::minutes(20), {1}}, {1, quantities::minutes(30), {0}}};
  set.bench.open = {true, false};
  const Posed posed =
      pose(std::move(set), {.present = {0}, .absent = {}, .soft = {}, .readings = {}});
  const TroubleshootingProblem& problem = posed.leading.problem;
  ASSERT_EQ(problem.faults.size(), 3U);
  EXPECT_EQ(problem.faults[0].id, "A");
  EXPECT_NEAR(problem.faults[0].prior, 0.5, 1e-5);
  EXPECT_NEAR(problem.checks[0].given[0][0], 0.9, 1e-5);
  EXPECT_NEAR(problem.checks[0].given[1][0], 0.0, 1e-5);
  EXPECT_NEAR(problem.repairs[0].minutes, 20 + 5, 1e-12);
  // The lid is off already; the board is not.
  ASSERT_EQ(problem.access.size(), 2U);
  EXPECT_NEAR(problem.access[0].minutes, 0.0, 1e-12);
  EXPECT_NEAR(problem.access[1].minutes, 7.0, 1e-12);
  EXPECT_EQ(problem.access[1].needs, std::vector<std::size_t>{0});
}

}  // namespace
}  // namespace dryout::planning
