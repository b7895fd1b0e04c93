// Life and wear-out against published figures.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "decision/life.h"
#include "decision/sampling.h"
#include "decision/wear_out.h"

namespace dryout::decision {
namespace {

using quantities::Celsius;
using quantities::hours;
using quantities::in_hours;
using quantities::Second;

TEST(Life, DoublesWithEveryTenDegreesLess) {
  // 2000 h at 105 degrees, used at 65: 32 000 h. Makers' rule (Chemi-Con life page).
  EXPECT_NEAR(in_hours(life_at({hours(2000), Celsius(105)}, Celsius(65))), 32000.0, 1e-6);
}

TEST(Life, AddsUpOverADailyCycle) {
  // Cosel Q&A a0057: part of 1000 h at 105 degrees; 8 h each at 45, 55, 65 degrees is like 57.2.
  const Endurance part{hours(1000), Celsius(105)};
  const std::array<Spell, 3> day{
      {{hours(8), Celsius(45)}, {hours(8), Celsius(55)}, {hours(8), Celsius(65)}}};
  EXPECT_NEAR(in_hours(life_in_cycle(part, day)), 27428.6, 0.1);
  EXPECT_NEAR(equivalent_temperature(part, day).degrees(), 57.2, 0.05);
}

TEST(Life, GrowsWithVoltageInHand) {
  // Lb 2000 h, Va/Vr 0.5, 105 -> 75 degrees: 2000 * 2.65 * 8 h. Formula from memory (Cornell
  // Dubilier application guide), figure computed from it.
  EXPECT_NEAR(in_hours(life_at({hours(2000), Celsius(105)}, Celsius(75), 0.5)), 42400.0, 1e-6);
}

TEST(WearOut, CheapestAgeMatchesThePublishedExample) {
  // ReliaWiki, "Optimum Replacement Time Example": Weibull beta 2.5, eta 1000 h, planned 1, failure
  // 5. The Python package `reliability` documents 493.19 h and 0.0035 an hour for the same data.
  const Weibull wear{2.5, hours(1000)};
  const auto age = cheapest_age(wear, 1.0, 5.0);
  ASSERT_TRUE(age.has_value());
  EXPECT_NEAR(in_hours(*age), 493.19, 1.0);
  EXPECT_NEAR(cost_rate(wear, 1.0, 5.0, *age) * 3600.0, 0.0035, 0.00005);
}

TEST(WearOut, HasNoPreventiveAgeWithoutWear) {
  // ReliaWiki: with beta <= 1 preventive replacement never pays.
  EXPECT_FALSE(cheapest_age({1.0, hours(1000)}, 1.0, 5.0).has_value());
  EXPECT_FALSE(cheapest_age({2.5, hours(1000)}, 5.0, 5.0).has_value());
}

TEST(WearOut, SurvivalAndConditionalFailureAgree) {
  const Weibull wear{2.5, hours(1000)};
  EXPECT_NEAR(survival(wear, hours(1000)), std::exp(-1.0), 1e-15);  // definition of eta
  EXPECT_NEAR(failure_within(wear, hours(400), hours(300)),
              1.0 - survival(wear, hours(700)) / survival(wear, hours(400)), 1e-12);
  EXPECT_NEAR(in_hours(mean_life(wear)), 1000.0 * std::tgamma(1.4), 1e-9);
}

TEST(Sampling, FollowsWaldsBounds) {
  // Wald, Sequential Analysis (1947): accept at log(beta/(1-alpha)), reject at log((1-beta)/alpha).
  // p0 .05, p1 .40, alpha .05, beta .10: bad step ln 8, good step ln(.6/.95); computed by hand:
  // clear after ceil(2.2513/0.4595) = 5 good, recap after ceil(2.8904/2.0794) = 2 bad.
  const SamplingPlan plan;
  EXPECT_EQ(good_to_clear(plan), 5U);
  EXPECT_EQ(bad_to_recap(plan), 2U);
  EXPECT_EQ(advise(plan, 1, 1, 8), Advice::measure_another);
  EXPECT_EQ(advise(plan, 2, 2, 8), Advice::recap);
  EXPECT_EQ(advise(plan, 5, 0, 8), Advice::clear);
  EXPECT_EQ(advise(plan, 4, 0, 4), Advice::clear);
}

TEST(Sampling, GivesTheHandbooksPlan) {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 6.2.6 (from memory): p1 .01, p2 .10, alpha
  // .05, beta .10 gives lines -0.939 + 0.0397 n and 1.205 + 0.0397 n: nothing is accepted before
  // the 24th good one, and two bad ones at the start reject.
  const SamplingPlan plan{0.01, 0.10, 0.05, 0.10};
  EXPECT_EQ(good_to_clear(plan), 24U);
  EXPECT_EQ(bad_to_recap(plan), 2U);
  EXPECT_EQ(advise(plan, 23, 0, 1000), Advice::measure_another);
  EXPECT_EQ(advise(plan, 24, 0, 1000), Advice::clear);
  EXPECT_EQ(advise(plan, 45, 2, 1000), Advice::measure_another);
  EXPECT_EQ(advise(plan, 19, 2, 1000), Advice::recap);  // 2 > 1.205 + 0.754
  EXPECT_EQ(advise(plan, 21, 2, 1000), Advice::measure_another);
}

TEST(Sampling, MeasuresAsManyAsTheWalkTakes) {
  // Enumerated independently in Python (a dictionary of bad counts over 2000 steps). Wald's own
  // approximation (1947), which leaves out the overshoot, gives 6.0 and 4.3 at the two shares.
  const SamplingPlan plan;
  EXPECT_NEAR(expected_measured(plan, 0.05, 300), 6.6146072, 1e-6);
  EXPECT_NEAR(expected_measured(plan, 0.20, 300), 9.1456726, 1e-6);
  EXPECT_NEAR(expected_measured(plan, 0.40, 300), 5.8162925, 1e-6);
  EXPECT_LE(expected_measured(plan, 0.20, 4), 4.0);
}

/// Probability of ending in "recap" when each part is bad with that share, by exact enumeration of
/// the walk (an independent road to the test's error rates).
double recap_probability(const SamplingPlan& plan, double share, std::size_t size) {
  std::array<double, 64> bad{};
  bad[0] = 1.0;
  double recapped = 0.0;
  for (std::size_t n = 1; n <= size; ++n) {
    std::array<double, 64> after{};
    for (std::size_t b = 0; b < n; ++b) {
      after[b] += bad[b] * (1.0 - share);
      after[b + 1] += bad[b] * share;
    }
    for (std::size_t b = 0; b <= n; ++b) {
      const Advice advice = advise(plan, n, b, size);
      if (advice == Advice::recap) recapped += after[b];
      if (advice != Advice::measure_another) after[b] = 0.0;
    }
    bad = after;
  }
  return recapped;
}

TEST(Sampling, KeepsItsStatedErrors) {
  const SamplingPlan plan;
  constexpr std::size_t large = 60;
  EXPECT_LE(recap_probability(plan, plan.bad_share_sound, large), plan.false_recap * 1.05);
  EXPECT_LE(1.0 - recap_probability(plan, plan.bad_share_gone, large), plan.false_clear * 1.05);
  EXPECT_GT(expected_measured(plan, 0.2, large), expected_measured(plan, 0.9, large));
}

}  // namespace
}  // namespace dryout::decision
