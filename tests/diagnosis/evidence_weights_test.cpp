#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "diagnosis/posterior.h"

namespace dryout::diagnosis {
namespace {

double decibans(double p) { return 10.0 * std::log10(p / (1.0 - p)); }

Network two_causes() {
  Network network;
  network.items = {{"C1", {"sound", "dried"}, {}, {{0.9, 0.1}}},
                   {"C2", {"sound", "dried"}, {}, {{0.8, 0.2}}}};
  network.findings = {{"hum", 0.02, {{0, 1, 0.9}, {1, 1, 0.5}}},
                      {"ripple", 0.01, {{0, 1, 0.7}}},
                      {"noise", 0.1, {{1, 1, 0.6}}}};
  return network;
}

TEST(LeaveOneOut, IsTheDifferenceThatEachPieceMakes) {
  const Evidence evidence{{0}, {2}, {{1, 0.8, 0.3}}, {{0, {{0.2, 0.9}}}}};
  const auto weights = leave_one_out(two_causes(), evidence);
  ASSERT_TRUE(weights);
  EXPECT_EQ(weights->pieces, (std::vector<std::string>{"hum present", "noise absent",
                                                       "ripple observed", "reading of C1"}));
  const auto with_all = infer(two_causes(), evidence);
  const std::vector<Evidence> without{{{}, {2}, evidence.soft, evidence.readings},
                                      {{0}, {}, evidence.soft, evidence.readings},
                                      {{0}, {2}, {}, evidence.readings},
                                      {{0}, {2}, evidence.soft, {}}};
  for (std::size_t piece = 0; piece < without.size(); ++piece) {
    const auto rest = infer(two_causes(), without[piece]);
    for (std::size_t item = 0; item < 2; ++item) {
      EXPECT_NEAR(weights->weight[piece][item].value,
                  decibans(with_all->items[item][1]) - decibans(rest->items[item][1]), 1e-9);
    }
  }
}

TEST(LeaveOneOut, AReadingOfAnItemWeighsItsLikelihoodRatio) {
  const auto weights = leave_one_out(two_causes(), {{}, {}, {}, {{0, {{0.1, 0.5}}}}});
  ASSERT_TRUE(weights);
  EXPECT_NEAR(weights->weight[0][0].value, 10.0 * std::log10(5.0), 1e-9);
  EXPECT_NEAR(weights->weight[0][1].value, 0.0, 1e-9);
}

TEST(LeaveOneOut, ProofWeighsWithoutLimitAndASecondProofAddsNothing) {
  const ItemReading proof{0, {{0.0, 1.0}}};
  const auto once = leave_one_out(two_causes(), {{}, {}, {}, {proof}});
  ASSERT_TRUE(once);
  EXPECT_EQ(once->weight[0][0].value, std::numeric_limits<double>::infinity());
  const auto twice = leave_one_out(two_causes(), {{}, {}, {}, {proof, proof}});
  ASSERT_TRUE(twice);
  EXPECT_EQ(twice->weight[0][0].value, 0.0);
}

TEST(LeaveOneOut, RefusesContradictoryEvidence) {
  const Evidence evidence{{}, {}, {}, {{0, {{0.0, 1.0}}}, {0, {{1.0, 0.0}}}}};
  EXPECT_FALSE(leave_one_out(two_causes(), evidence));
}

}  // namespace
}  // namespace dryout::diagnosis
