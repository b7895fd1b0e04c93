#include "readings/cohort.h"

#include <gtest/gtest.h>

#include <cmath>

#include "priors.h"
#include "readings/verdict.h"

namespace dryout::readings {
namespace {

ReadingInput with_brothers(std::vector<double> brothers, LimitSource source) {
  auto input = surface_mount_10u();
  input.limit_source = source;
  input.limit = 3.0 / rung_of(source).factor;
  input.brothers = std::move(brothers);
  return input;
}

double not_sound(const Assessment& a) { return 1.0 - a.after.front(); }

TEST(Cohort, GoodBrothersNameTheOneThatStandsOff) {
  const Assessment a = assessed(with_brothers({1.0, 1.1, 1.05}, LimitSource::general_table), 4.5);
  ASSERT_TRUE(a.cohort.has_value());
  EXPECT_TRUE(a.cohort->brothers[0].outlier);
  EXPECT_FALSE(a.cohort->brothers[1].outlier);
  EXPECT_NEAR(a.cohort->brothers[0].times_median, 4.5 / 1.05, 1e-9);
  // The general table alone left it open; the brothers settle it.
  EXPECT_LT(not_sound(assessed(with_brothers({}, LimitSource::general_table), 4.5)), 0.8);
  EXPECT_GT(not_sound(a), 0.95);
}

// For a case: what brothers alone say accuses who stands off them, upwards, and convicts nobody.
TEST(Cohort, AccusesWhoStandsOffItAndNeverConvictsByThatAlone) {
  const auto table = LimitSource::general_table;
  for (const double value : {2.2, 3.0, 4.5, 6.0}) {
    const Assessment alone = assessed(with_brothers({}, table), value);
    const Assessment a = assessed(with_brothers({1.0, 1.1, 1.05}, table), value);
    ASSERT_EQ(a.verdict, alone.verdict) << "brothers move no verdict";
    ASSERT_EQ(a.among_brothers.empty(), a.verdict != Verdict::not_proven) << value;
    if (!a.among_brothers.empty()) {
      const auto priors = wet_priors();
      const double suspicion = 1.0 - posterior_of(priors, a.among_brothers).front();
      EXPECT_GT(suspicion, 1.0 - posterior_of(priors, alone.likelihood).front()) << value;
      EXPECT_LT(suspicion, convicted_from) << value;
    }
  }
  EXPECT_TRUE(assessed(with_brothers({4.4, 4.6, 4.5}, table), 4.5).among_brothers.empty())
      << "all alike";
  EXPECT_TRUE(assessed(with_brothers({4.4, 4.6, 4.5}, table), 1.0).among_brothers.empty())
      << "the best of them";
}

TEST(Cohort, LeavesTheLevelToWhatEachReadingSaysAlone) {
  const auto priors = wet_priors();
  const Assessment a = assessed(with_brothers({1.0, 1.1}, LimitSource::general_table), 3.0);
  const Assessment alone = assessed(with_brothers({}, LimitSource::general_table), 3.0);
  ASSERT_EQ(a.cohort->likelihood.size(), priors.levels.size());
  std::vector<double> ratio;
  for (std::size_t level = 0; level < priors.levels.size(); ++level) {
    double together = 0.0;
    for (std::size_t s = 0; s < priors.states.size(); ++s) {
      together += priors.given_level[level][s] * a.cohort->likelihood[level][s];
    }
    double by_itself = 0.0;
    for (std::size_t s = 0; s < priors.states.size(); ++s) {
      by_itself += priors.given_level[level][s] * alone.likelihood[level][s];
    }
    ratio.push_back(together / by_itself);
  }
  for (const double each : ratio) {
    EXPECT_NEAR(each / ratio.front(), 1.0, 0.05);  // the two integrate on other grids
  }
}

TEST(Cohort, BrothersThatReadAlikeMoveTheBelievedLimit) {
  const auto table = LimitSource::general_table;
  const double alone = not_sound(assessed(with_brothers({}, table), 4.5));
  const Assessment together = assessed(with_brothers({4.2, 4.6, 4.4, 4.5}, table), 4.5);
  EXPECT_LT(not_sound(together), alone);
  EXPECT_GT(together.cohort->typical_factor, 1.5);
}

TEST(Cohort, ABadBrotherRaisesSuspicionAndAGoodOneLowersIt) {
  const auto sheet = LimitSource::datasheet;
  const double alone = not_sound(assessed(with_brothers({}, sheet), 2.0));
  const Assessment bad = assessed(with_brothers({20.0}, sheet), 2.0);
  const Assessment good = assessed(with_brothers({1.0}, sheet), 2.0);
  EXPECT_GT(bad.cohort->levels.back(), 0.3);  // the cohort is spent
  EXPECT_GT(not_sound(bad), alone * 0.9);
  EXPECT_LT(good.cohort->levels.back(), bad.cohort->levels.back());
  EXPECT_GT(good.cohort->brothers[1].weight_on_first, 0.0);  // twice its brother: suspicious
}

TEST(Cohort, WeightsAreTheLogOddsWithAndWithoutThatBrother) {
  const auto sheet = LimitSource::datasheet;
  const Assessment both = assessed(with_brothers({1.0, 6.0}, sheet), 2.0);
  const Assessment without = assessed(with_brothers({1.0}, sheet), 2.0);
  const auto odds = [](const Assessment& a) { return not_sound(a) / a.after.front(); };
  EXPECT_NEAR(both.cohort->brothers[2].weight_on_first,
              10.0 * std::log10(odds(both) / odds(without)), 1e-9);
}

TEST(Cohort, OneReadingAloneIsThePlainPosterior) {
  const auto input = with_brothers({}, LimitSource::look_alike);
  const Assessment a = assessed(input, 3.3);
  const CorrectedReading reading = correct(3.3, Kind::esr, quantities::ohms(0.0), Meter{});
  const Priors priors = wet_priors();
  const auto setting =
      Setting::with(Across::nothing, circuit::MeterShows::resistance, quantities::ohms(0.159),
                    quantities::hertz(100e3), quantities::ohms(1.0));
  const auto limit =
      esr_limit_under(*a.limit, {quantities::hertz(100e3), quantities::Celsius(23.0), {}, true});
  ASSERT_TRUE(limit.ok());
  const EsrEvidence evidence(setting, reading, *limit, priors);
  const auto cohort = assess_cohort({evidence}, {3.3}, priors);
  for (std::size_t s = 0; s < a.states.size(); ++s) {
    EXPECT_NEAR(cohort.brothers[0].posterior[s], a.after[s], 2e-3);
  }
}

}  // namespace
}  // namespace dryout::readings
