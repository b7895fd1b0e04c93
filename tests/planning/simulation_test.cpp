#include "planning/simulation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <set>
#include <string>

#include "documents/parse.h"
#include "invented_sets.h"
#include "planning/hidden_set.h"

namespace dryout::planning {
namespace {

using quantities::in_minutes;
using quantities::minutes;

// Predictions .1, .4, .6, .9 of outcomes 0, 0, 1, 1: Brier score .085, logarithmic score .308093
// nat (inputs of a public scoring tutorial; results computed).
TEST(Calibration, GivesTheBrierAndLogScoreOfFourPredictions) {
  Calibration calibration;
  calibration.add(0.1, false);
  calibration.add(0.4, false);
  calibration.add(0.6, true);
  calibration.add(0.9, true);
  EXPECT_NEAR(calibration.brier(), 0.085, 1e-12);
  EXPECT_NEAR(calibration.log_score(), 0.308093, 1e-6);
  EXPECT_EQ(calibration.bins()[4].count, 1U);
  EXPECT_EQ(calibration.bins()[9].came_true, 1U);
}

TEST(Calibration, TakesCertaintiesWithoutInfinity) {
  Calibration calibration;
  calibration.add(1.0, true);
  calibration.add(0.0, true);
  EXPECT_TRUE(std::isfinite(calibration.log_score()));
  EXPECT_NEAR(calibration.brier(), 0.5, 1e-12);
}

TEST(HiddenSet, ShowsFindingsAsOftenAsTheNetworkSays) {
  const InventedSet set = SetInventor(1).invent(3, 3);
  const auto believed = diagnosis::infer(set.network, {});
  ASSERT_TRUE(believed.ok());
  constexpr int draws = 20'000;
  std::vector<int> shown(set.network.findings.size(), 0);
  std::vector<int> sound(set.network.items.size(), 0);
  Dice dice(7);
  for (int draw = 0; draw < draws; ++draw) {
    const HiddenSet hidden(set.network, dice);
    for (std::size_t f = 0; f < shown.size(); ++f) {
      shown[f] += hidden.shows(f) ? 1 : 0;
    }
    for (std::size_t i = 0; i < sound.size(); ++i) {
      sound[i] += hidden.sound(i) ? 1 : 0;
    }
  }
  const double tolerance = 5.0 * 0.5 / std::sqrt(draws);  // five standard errors at most
  for (std::size_t f = 0; f < shown.size(); ++f) {
    EXPECT_NEAR(shown[f] / static_cast<double>(draws), believed->findings[f], tolerance);
  }
  for (std::size_t i = 0; i < sound.size(); ++i) {
    EXPECT_NEAR(sound[i] / static_cast<double>(draws), believed->items[i][0], tolerance);
  }
}

TEST(Perturb, MultipliesOrDividesTheOdds) {
  const InventedSet set = SetInventor(2).invent(2, 3);
  Dice dice(3);
  const auto world = perturb(set.network, 3.0, dice);
  const auto odds = [](double p) { return p / (1.0 - p); };
  int up = 0;
  int down = 0;
  for (std::size_t f = 0; f < world.findings.size(); ++f) {
    const auto& causes = world.findings[f].causes;
    for (std::size_t c = 0; c < causes.size(); ++c) {
      const double ratio =
          odds(causes[c].strength) / odds(set.network.findings[f].causes[c].strength);
      (ratio > 1.0 ? up : down) += 1;
      EXPECT_NEAR(std::abs(std::log(ratio)), std::log(3.0), 1e-9);
    }
  }
  EXPECT_GT(up, 0);
  EXPECT_GT(down, 0);
  EXPECT_TRUE(diagnosis::check(world).empty());
}

/// One certain complaint with one certain cause; the check is perfect.
InventedSet one_fault() {
  InventedSet set;
  set.network.items = {{"A", {"sound", "bad"}, {}, {{0.5, 0.5}}},
                       {"B", {"sound", "bad"}, {}, {{1.0, 0.0}}}};
  set.network.findings = {{"hum", 0.0, {{0, 1, 1.0}, {1, 1, 1.0}}}};
  set.bench.access = {{"lid", minutes(3), {}}};
  set.bench.remedies = {{0, minutes(20), {0}}, {1, minutes(30), {0}}};
  return set;
}

TEST(Simulate, CountsTheMinutesOfAJobOfWhichNothingIsUncertain) {
  const InventedSet set = one_fault();
  const SimulationSettings settings{.jobs = 20, .symptoms = {0}, .replaced = {}};
  const auto ours = simulate(set.network, set.bench, Habit::ours, settings);
  ASSERT_TRUE(ours.ok());
  EXPECT_NEAR(in_minutes(ours->mean_time), 3 + 20 + 5, 1e-9);
  EXPECT_NEAR(ours->needless_replacements, 0.0, 1e-12);
  EXPECT_NEAR(ours->misses, 0.0, 1e-12);
  EXPECT_NEAR(ours->verdicts.brier(), 0.0, 1e-12);
  const auto all = simulate(set.network, set.bench, Habit::replace_all, settings);
  EXPECT_NEAR(in_minutes(all->mean_time), 3 + 20 + 30 + 5, 1e-9);
  EXPECT_NEAR(all->needless_replacements, 1.0, 1e-12);
}

TEST(Simulate, AComplaintThatNoRemedyCuresIsAMiss) {
  InventedSet set = one_fault();
  set.bench.remedies = {{1, minutes(30), {0}}};
  for (const Habit habit : {Habit::ours, Habit::fixed_order, Habit::probability_first}) {
    const auto report =
        simulate(set.network, set.bench, habit, {.jobs = 5, .symptoms = {0}, .replaced = {}});
    ASSERT_TRUE(report.ok());
    EXPECT_NEAR(report->misses, 1.0, 1e-12);
    EXPECT_GE(report->mean_time, set.bench.give_up);
  }
}

std::vector<std::size_t> symptoms_of(const InventedSet& set) {
  std::vector<std::size_t> symptoms;
  for (std::size_t f = 0; f < set.network.findings.size(); ++f) {
    if (set.network.findings[f].id.ends_with("-symptom")) {
      symptoms.push_back(f);
    }
  }
  return symptoms;
}

TEST(Simulate, EveryHabitEndsEveryJobOfASimpleSet) {
  const InventedSet set = one_fault();
  for (const Habit habit : habits) {
    const auto report =
        simulate(set.network, set.bench, habit, {.jobs = 5, .symptoms = {0}, .replaced = {}});
    ASSERT_TRUE(report.ok()) << name_of(habit);
    EXPECT_NEAR(report->misses, 0.0, 1e-12) << name_of(habit);
    EXPECT_GE(in_minutes(report->mean_time), 3 + 20 + 5 - 1e-9) << name_of(habit);
  }
}

// Either of two parts, or both, hum; one perfect check tells of the first. Whoever checks before
// mending knows after that one check which to take, so that no sound part is ever replaced; whoever
// only mends takes the cheaper one first, needlessly where the other hums alone (a third of the
// sets that hum: each part is bad in half of all).
TEST(Simulate, OnePerfectCheckSparesEveryNeedlessReplacement) {
  InventedSet set = one_fault();
  set.network.items[1].given_level = {{0.5, 0.5}};
  set.network.findings.push_back({"A-measures-bad", 0.0, {{0, 1, 1.0}}});
  set.bench.checks = {{"measure-A", 1, minutes(2), {0}, Danger::none}};
  const SimulationSettings settings{.jobs = 300, .symptoms = {0}, .replaced = {}};
  for (const Habit habit : {Habit::information_gain, Habit::believing_order}) {
    const auto report = simulate(set.network, set.bench, habit, settings);
    ASSERT_TRUE(report.ok()) << name_of(habit);
    EXPECT_NEAR(report->checks, 1.0, 1e-12) << name_of(habit);
    EXPECT_NEAR(report->needless_replacements, 0.0, 1e-12) << name_of(habit);
    EXPECT_NEAR(report->misses, 0.0, 1e-12) << name_of(habit);
  }
  const auto mends = simulate(set.network, set.bench, Habit::probability_over_cost, settings);
  EXPECT_NEAR(mends->checks, 0.0, 1e-12);
  // Four standard deviations of a share of a third in 300.
  EXPECT_NEAR(mends->needless_replacements, 1.0 / 3.0, 4 * std::sqrt(2.0 / 9.0 / 300.0));
}

// As printed, taken at its face value: lid 3, check 2, the part that the check points at 20, proof
// run 5 minutes.
TEST(Simulate, TheFixedOrderMendsWhatItsCheckPointsAt) {
  InventedSet set = one_fault();
  set.network.items[0].given_level = {{0.0, 1.0}};
  set.network.findings.push_back({"A-measures-bad", 0.0, {{1, 1, 0.2}, {0, 1, 1.0}}});
  set.bench.checks = {{"measure-A", 1, minutes(2), {0}, Danger::none}};
  set.bench.remedies = {{1, minutes(30), {0}}, {0, minutes(20), {0}}};
  const auto report = simulate(set.network, set.bench, Habit::fixed_order,
                               {.jobs = 3, .symptoms = {0}, .replaced = {}});
  ASSERT_TRUE(report.ok());
  EXPECT_NEAR(in_minutes(report->mean_time), 3 + 2 + 20 + 5, 1e-9);
  EXPECT_NEAR(report->needless_replacements, 0.0, 1e-12);
}

// Read wrongly, the perfect check acquits the first part where it is bad: the other is mended, the
// hum stays, and what was noted cannot be true. The technician counts that, forgets the check and
// mends the first. It is bad in two of three sets that hum; three standard deviations either way.
TEST(Simulate, WhatCannotBeTrueIsCountedAndForgotten) {
  InventedSet set = one_fault();
  set.network.items[1].given_level = {{0.5, 0.5}};
  set.network.findings.push_back({"A-measures-bad", 0.0, {{0, 1, 1.0}}});
  set.bench.checks = {{"measure-A", 1, minutes(2), {0}, Danger::none}};
  const auto report = simulate(set.network, set.bench, Habit::believing_order,
                               {.jobs = 200, .misread = 0.999, .symptoms = {0}, .replaced = {}});
  ASSERT_TRUE(report.ok());
  EXPECT_NEAR(report->contradictions, 2.0 / 3.0, 3 * std::sqrt(2.0 / 9.0 / 200.0));
  EXPECT_NEAR(report->misses, 0.0, 1e-12);
}

TEST(Simulate, TellsItsReportAsJsonUnderTheHabitsName) {
  const InventedSet set = SetInventor(4).invent(4, 3);
  std::set<std::string> names;
  for (const Habit habit : habits) {
    const auto report = simulate(set.network, set.bench, habit,
                                 {.jobs = 2, .symptoms = symptoms_of(set), .replaced = {}});
    ASSERT_TRUE(report.ok()) << name_of(habit);
    const documents::Value json = to_json(*report);
    EXPECT_EQ(*json.find("policy")->text(), name_of(habit));
    EXPECT_DOUBLE_EQ(*json.find("minutes")->number(), in_minutes(report->mean_time));
    names.emplace(name_of(habit));
  }
  EXPECT_EQ(names.size(), habits.size());
}

TEST(Simulate, WhoPersistsMissesNoMoreThanWhoReplacesEverything) {
  InventedSet set = SetInventor(11).invent(4, 3);
  set.bench.give_up = minutes(20.0);  // so cheap that ours gives up early
  SimulationSettings settings{.jobs = 40, .symptoms = symptoms_of(set), .replaced = {}};
  const double all = simulate(set.network, set.bench, Habit::replace_all, settings)->misses;
  const double early = simulate(set.network, set.bench, Habit::ours, settings)->misses;
  settings.persist = true;
  const double late = simulate(set.network, set.bench, Habit::ours, settings)->misses;
  EXPECT_GT(early, all);
  EXPECT_NEAR(late, all, 1e-12);
}

TEST(Simulate, IsReproducibleFromItsSeed) {
  const InventedSet set = SetInventor(4).invent(4, 3);
  SimulationSettings settings{.jobs = 50, .symptoms = symptoms_of(set), .replaced = {}};
  const auto text = [&] {
    return documents::to_line(to_json(*simulate(set.network, set.bench, Habit::ours, settings)));
  };
  const std::string first = text();
  EXPECT_EQ(first, text());
  settings.seed = 2;
  EXPECT_NE(first, text());
}

TEST(Simulate, RefusesSettingsOutOfRange) {
  const InventedSet set = one_fault();
  const auto refusal = [&](const SimulationSettings& settings) {
    const auto report = simulate(set.network, set.bench, Habit::ours, settings);
    return report.ok() ? "accepted" : quantities::describe(report.problems());
  };
  using ::testing::HasSubstr;
  EXPECT_THAT(refusal({.jobs = 0, .symptoms = {0}, .replaced = {}}), HasSubstr("jobs"));
  EXPECT_THAT(refusal({.odds_factor = 0.5, .symptoms = {0}, .replaced = {}}), HasSubstr("odds"));
  EXPECT_THAT(refusal({.misread = 1.0, .symptoms = {0}, .replaced = {}}), HasSubstr("misread"));
  EXPECT_THAT(refusal({.symptoms = {9}, .replaced = {}}), HasSubstr("symptom"));
  EXPECT_THAT(refusal({.symptoms = {0}, .replaced = {7}}), HasSubstr("remedy"));
  InventedSet sound = set;
  sound.network.items[0].given_level = {{1.0, 0.0}};
  const auto never = simulate(sound.network, sound.bench, Habit::ours,
                              {.jobs = 1, .symptoms = {0}, .replaced = {}});
  EXPECT_FALSE(never.ok());
}

SimulationReport run(const InventedSet& set, Habit habit, double odds_factor, double misread) {
  const auto report = simulate(set.network, set.bench, habit,
                               {.jobs = 120,
                                .odds_factor = odds_factor,
                                .misread = misread,
                                .symptoms = symptoms_of(set),
                                .replaced = {}});
  EXPECT_TRUE(report.ok());
  std::printf("| x%.0f | %.2f | %s | %.0f | %.1f | %.1f | %.2f | %.3f | %.3f | %.3f |\n",
              odds_factor, misread, std::string(name_of(habit)).c_str(),
              in_minutes(report->mean_time), report->checks, report->dangerous_checks,
              report->needless_replacements, report->misses, report->verdicts.brier(),
              report->verdicts.log_score());
  return *report;
}

// The aims of the project on an invented set: at least 35 % fewer minutes and 60 % fewer needless
// replacements than the fixed order and than replacing everything, at no more misses than two in a
// hundred; also with a technician who misreads, and where the world's odds differ by a factor of 3.
TEST(Simulate, OursSavesMinutesAndNeedlessReplacements) {
  InventedSet set = SetInventor(11).invent(6, 4);
  set.bench.give_up = quantities::hours(10.0);
  std::printf(
      "| world | misread | policy | minutes | checks | dangerous | needless | misses | "
      "Brier | log |\n|---|---|---|---|---|---|---|---|---|---|\n");
  for (const auto& [odds_factor, misread] : {std::pair(1.0, 0.0), {1.0, 0.05}, {3.0, 0.05}}) {
    const auto ours = run(set, Habit::ours, odds_factor, misread);
    const auto fixed = run(set, Habit::fixed_order, odds_factor, misread);
    const auto all = run(set, Habit::replace_all, odds_factor, misread);
    run(set, Habit::believing_order, odds_factor, misread);
    run(set, Habit::probability_first, odds_factor, misread);
    for (const auto& other : {fixed, all}) {
      EXPECT_LE(ours.mean_time, 0.65 * other.mean_time) << name_of(other.habit);
      EXPECT_LE(ours.needless_replacements, 0.4 * other.needless_replacements)
          << name_of(other.habit);
      EXPECT_LE(ours.misses, other.misses + 0.02) << name_of(other.habit);
    }
    EXPECT_LE(ours.verdicts.brier(), 0.2);
  }
}

struct Worth {
  double minutes = 0.0, needless = 0.0, misses = 0.0;
};

/// Means over three invented sets.
Worth worth_of(Habit habit, double odds_factor, double misread) {
  Worth worth;
  for (const unsigned seed : {21U, 22U, 23U}) {
    InventedSet set = SetInventor(seed).invent(6, 4);
    set.bench.give_up = quantities::hours(10.0);
    const auto report = simulate(set.network, set.bench, habit,
                                 {.jobs = 60,
                                  .odds_factor = odds_factor,
                                  .misread = misread,
                                  .symptoms = symptoms_of(set),
                                  .replaced = {}});
    EXPECT_TRUE(report.ok());
    worth.minutes += in_minutes(report->mean_time) / 3.0;
    worth.needless += report->needless_replacements / 3.0;
    worth.misses += report->misses / 3.0;
  }
  return worth;
}

// Guards what was reached: 130.5 minutes with 0.356 needless replacements and 0.106 misses a job as
// modelled, 159.0 with 0.600 and 0.139 where the odds differ by 3 and one reading in twenty is
// misread. The seeds are fixed, so a change of the advice moves these figures and chance does not;
// what is allowed on top is 4 % of the minutes and 10 % of the replacements.
TEST(Simulate, OursIsNoWorseThanItOnceWas) {
  const Worth modelled = worth_of(Habit::ours, 1.0, 0.0);
  EXPECT_LE(modelled.minutes, 1.04 * 130.5);
  EXPECT_LE(modelled.needless, 1.1 * 0.356);
  EXPECT_LE(modelled.misses, 0.107);
  const Worth other_world = worth_of(Habit::ours, 3.0, 0.05);
  EXPECT_LE(other_world.minutes, 1.04 * 159.0);
  EXPECT_LE(other_world.needless, 1.1 * 0.600);
  EXPECT_LE(other_world.misses, 0.140);
}

}  // namespace
}  // namespace dryout::planning
