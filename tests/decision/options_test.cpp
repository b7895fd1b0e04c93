#include "decision/options.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "decision/wear_out.h"

namespace dryout::decision {
namespace {

/// The shipped prices, with a wear that is quick enough to move within a few years.
ShopSettings shop() {
  auto loaded = load_shop_settings({DRYOUT_SOURCE_DIR});
  EXPECT_TRUE(loaded.ok());
  ShopSettings settings = *loaded;
  settings.wear_scale_years.value = 45.0;
  settings.level_life = {{"fresh", 1.5}, {"worn", 0.9}, {"spent", 0.5}};
  settings.latent_shows.value = 1.0;
  return settings;
}

PartStock group(const char* id, const char* cohort, const char* board, int count) {
  PartStock part;
  part.item = id;
  part.title = id;
  part.cohort = cohort;
  part.board = board;
  part.count = count;
  part.level = {0.2, 0.5, 0.3};
  part.faulty = 0.02;
  return part;
}

SetStock small_set() {
  SetStock set;
  set.level_names = {"fresh", "worn", "spent"};
  set.age_years = 35.0;
  set.parts = {group("a", "k", "supply", 1), group("b", "k", "supply", 4),
               group("c", "", "audio", 6), group("film", "", "audio", 5)};
  set.parts[0].convicted = true;
  set.parts[0].faulty = 0.97;
  set.parts[3].electrolytic = false;
  set.access = {{quantities::minutes(15), {"supply"}}, {quantities::minutes(25), {"audio"}}};
  return set;
}

const WeighedOption& option(const std::vector<WeighedOption>& options, Scope scope) {
  return options.at(static_cast<std::size_t>(scope));
}

TEST(Options, TouchWhatTheirNameSays) {
  const auto options = options_at(small_set(), shop(), 5.0);
  EXPECT_EQ(option(options, Scope::nothing).parts, 0);
  EXPECT_EQ(option(options, Scope::convicted_part).parts, 1);
  EXPECT_EQ(option(options, Scope::cohort).parts, 5);
  EXPECT_EQ(option(options, Scope::board).parts, 5);
  EXPECT_EQ(option(options, Scope::all_electrolytics).parts, 11);  // never the film
}

TEST(Options, PayForAccessOnceABoard) {
  ShopSettings settings = shop();
  settings.minutes_per_part.value = 0.0;
  settings.part_price.value = 0.0;
  settings.labour_per_hour.value = 60.0;  // one a minute
  const auto options = options_at(small_set(), settings, 5.0);
  EXPECT_DOUBLE_EQ(option(options, Scope::cohort).cost_now, 15.0);
  EXPECT_DOUBLE_EQ(option(options, Scope::all_electrolytics).cost_now, 40.0);
}

TEST(Options, PayOnceForALidOverTwoBoards) {
  SetStock set = small_set();
  set.access = {{quantities::minutes(5), {"supply", "audio"}},
                {quantities::minutes(25), {"audio"}}};
  ShopSettings settings = shop();
  settings.minutes_per_part.value = 0.0;
  settings.part_price.value = 0.0;
  settings.labour_per_hour.value = 60.0;
  const auto options = options_at(set, settings, 5.0);
  EXPECT_DOUBLE_EQ(option(options, Scope::cohort).cost_now, 5.0);
  EXPECT_DOUBLE_EQ(option(options, Scope::all_electrolytics).cost_now, 30.0);
}

TEST(Options, APartReplacedAlreadyIsNotDoneAgainButStillPointsAtItsBrothers) {
  SetStock set = small_set();
  set.parts[0].convicted = false;
  set.parts[0].renewed = true;
  const auto options = options_at(set, shop(), 5.0);
  EXPECT_EQ(option(options, Scope::convicted_part).parts, 0);
  EXPECT_EQ(option(options, Scope::cohort).replaced, (std::vector<std::size_t>{1}));
  EXPECT_EQ(gives_up(set, shop(), {0}, 20.0).value(), 0.0);
}

TEST(Options, TheComplaintThatStaysCostsTheSet) {
  SetStock set = small_set();
  set.complaint_left = {{Scope::nothing, 1.0}, {Scope::convicted_part, 0.4}};
  const ShopSettings settings = shop();
  const auto options = options_at(set, settings, 5.0);
  EXPECT_DOUBLE_EQ(option(options, Scope::convicted_part).unmended_cost,
                   0.4 * settings.set_value.value);
  // Nothing said of the board: as far as a convicted part is left in, and none is.
  EXPECT_DOUBLE_EQ(option(options, Scope::board).unmended_cost, 0.0);
}

TEST(Options, AScopeThatReplacesTheSameAsASmallerOneIsNoOption) {
  const Recommendation advice = weigh(small_set(), shop(), 5.0);  // its board is its cohort
  EXPECT_EQ(advice.options.size(), 4U);
  for (const WeighedOption& each : advice.options) {
    EXPECT_NE(each.scope, Scope::board);
  }
}

TEST(Options, ASetWithNothingInItLeavesNoChoice) {
  SetStock set;
  set.level_names = {"fresh"};
  const Recommendation advice = weigh(set, shop(), 5.0);
  EXPECT_EQ(advice.options.size(), 1U);
  EXPECT_TRUE(advice.reasons.empty());
}

TEST(Options, ComeBackMixesTheSharedLevelAsEnumerationDoes) {
  // Independent road: enumerate the cohort's level, then multiply the parts by hand.
  const SetStock set = small_set();
  ShopSettings settings = shop();
  settings.own_error_per_part.value = 0.0;
  const double horizon = 5.0;
  double cohort_well = 0.0;
  double alone_well = 0.0;
  for (std::size_t level = 0; level < 3; ++level) {
    const double scale =
        settings.wear_scale_years.value * settings.level_life.at(set.level_names[level]);
    const auto part_well = [&](double count) {
      const double h0 = std::pow(set.age_years / scale, settings.wear_shape.value);
      const double h1 = std::pow((set.age_years + horizon) / scale, settings.wear_shape.value);
      return std::exp(count * (h0 - h1));
    };
    cohort_well += set.parts[1].level[level] * (1.0 - 0.02) * part_well(4);
    alone_well += set.parts[2].level[level] * (1.0 - 0.02) * part_well(6);
  }
  const double film_well = 1.0 - 0.02;
  const auto options = options_at(set, settings, horizon);
  EXPECT_NEAR(option(options, Scope::convicted_part).come_back.value(),
              1.0 - cohort_well * alone_well * film_well, 1e-12);
}

TEST(Options, ALongerHorizonNeverComesBackLess) {
  for (const Scope scope : {Scope::nothing, Scope::convicted_part, Scope::cohort, Scope::board}) {
    double before = 0.0;
    for (const double horizon : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0}) {
      const auto options = options_at(small_set(), shop(), horizon);
      EXPECT_GE(option(options, scope).come_back.value(), before);
      before = option(options, scope).come_back.value();
    }
  }
}

TEST(Options, NothingIsNeverCheapestWhereAPartIsConvicted) {
  const Recommendation advice = weigh(small_set(), shop(), 3.0);
  EXPECT_NE(advice.options.front().scope, Scope::nothing);
  EXPECT_EQ(advice.reasons.size(), 3U);
}

TEST(Options, NothingIsNeverAdvisedWhereTheSetCallsForMending) {
  // However dear the bench and however worthless the set: who asks is told how to mend it, and that
  // it costs more than it saves.
  SetStock set = small_set();
  set.calls_for_mending = true;
  ShopSettings dear = shop();
  dear.labour_per_hour.value = 5000.0;
  dear.set_value.value = 0.0;
  for (const double years : {0.1, 1.0, 5.0, 30.0}) {
    const Recommendation advice = weigh(set, dear, years);
    EXPECT_NE(advice.options.front().scope, Scope::nothing);
    EXPECT_EQ(advice.options.back().scope, Scope::nothing);
    EXPECT_NE(advice.sentence.find("ask the owner"), std::string::npos) << advice.sentence;
    EXPECT_EQ(advice.sentence.find("least expected cost"), std::string::npos);
  }
}

TEST(Options, OfASetThatWorksNothingIsReplacedOnAGuess) {
  SetStock set = small_set();
  set.preventive = set.calls_for_mending = true;
  set.parts[2].seeping = 0.9;  // by the figures the rest had better go too
  set.complaint_left = {{Scope::nothing, 0.0},
                        {Scope::convicted_part, 0.0},
                        {Scope::cohort, 0.0},
                        {Scope::board, 0.0},
                        {Scope::all_electrolytics, 0.0}};
  const Recommendation advice = weigh(set, shop(), 20.0);
  EXPECT_LE(advice.options.front().scope, Scope::cohort);
  EXPECT_NE(advice.sentence.find("measure some of the rest first"), std::string::npos)
      << advice.sentence;
  set.preventive = false;
  EXPECT_EQ(weigh(set, shop(), 20.0).options.front().scope, Scope::all_electrolytics);
}

TEST(Options, WhatGoesFirstGoesInEveryScope) {
  SetStock set = small_set();
  set.parts[0].convicted = false;
  set.parts[3].goes_first = true;  // the film, which wears not
  set.calls_for_mending = true;
  for (const Scope scope : {Scope::convicted_part, Scope::board, Scope::all_electrolytics}) {
    EXPECT_EQ(replaced_by(set, scope).back(), 3U);
  }
  EXPECT_EQ(title_of(Scope::convicted_part, set), "replace what goes first, on sight");
}

TEST(Options, ACauseCostsItsOwnMinutesAndPrice) {
  SetStock set = small_set();
  PartStock diode;
  diode.item = diode.title = "diode";
  diode.board = "supply";
  diode.electrolytic = false;
  diode.convicted = true;
  diode.effort = quantities::minutes(12);
  diode.price = 3.0;
  set.parts = {diode};
  // 60 EUR an hour: 15 minutes of lid, 12 of work, 3 for the diode.
  EXPECT_NEAR(option(options_at(set, shop(), 5.0), Scope::convicted_part).cost_now, 30.0, 1e-9);
  EXPECT_EQ(title_of(Scope::convicted_part, set), "mend what is convicted");
}

TEST(Options, AFlipIsWhereTheCheapestChanges) {
  const SetStock set = small_set();
  const ShopSettings settings = shop();
  const Recommendation advice = weigh(set, settings, 0.5);
  ASSERT_TRUE(advice.flips_at_years.has_value());
  const double flip = *advice.flips_at_years;
  const auto scope_at = [&](double years) { return weigh(set, settings, years).options[0].scope; };
  EXPECT_EQ(scope_at(flip * 0.999), advice.options.front().scope);
  EXPECT_NE(scope_at(flip * 1.001), advice.options.front().scope);
}

TEST(Options, ASpentHotBatchIsReplacedAsABatch) {
  SetStock set = small_set();
  for (std::size_t i : {0U, 1U}) {
    set.parts[i].level = {0.0, 0.05, 0.95};
    set.parts[i].warmth = "hot";
  }
  set.parts[2].level = {1.0, 0.0, 0.0};
  set.parts[2].warmth = "cool";
  const Recommendation advice = weigh(set, shop(), 5.0);
  EXPECT_EQ(advice.options.front().scope, Scope::cohort) << advice.sentence;
}

TEST(Options, TwoThatLieWithinWhatTheFiguresLeaveOpenAreToldAsAlike) {
  SetStock set = small_set();
  set.access[1].effort = quantities::minutes(2000);  // nobody goes for the rest of the set
  ShopSettings settings = shop();
  const auto margin = [&](double price) {
    settings.part_price.value = price;
    const auto options = options_at(set, settings, 5.0);
    return option(options, Scope::cohort).expected_cost -
           option(options, Scope::convicted_part).expected_cost;
  };
  // The price of a part at which the cohort costs what the convicted part does, by bisection.
  double low = -100.0;
  double high = 500.0;
  ASSERT_LT(margin(low), 0.0);
  ASSERT_GT(margin(high), 0.0);
  for (int i = 0; i < 40; ++i) {
    (margin(0.5 * (low + high)) < 0.0 ? low : high) = 0.5 * (low + high);
  }
  EXPECT_NEAR(margin(high), 0.0, 1e-6);
  const Recommendation alike = weigh(set, settings, 5.0);
  EXPECT_TRUE(alike.alike) << alike.sentence;
  EXPECT_NE(alike.sentence.find("not more than the figures can tell apart"), std::string::npos)
      << alike.sentence;
  EXPECT_EQ(alike.sentence.find("the least expected cost is to"), std::string::npos);
  // Far off that price the answer is firm.
  const double apart = margin(high + 40.0);
  const Recommendation firm = weigh(set, settings, 5.0);
  EXPECT_GT(apart, left_open_between(firm.options[0], firm.options[1]));
  EXPECT_FALSE(firm.alike);
  EXPECT_NE(firm.sentence.find("least expected cost"), std::string::npos) << firm.sentence;
}

TEST(Options, AReasonTellsADifference) {
  for (const double years : {0.5, 5.0, 20.0}) {
    for (const std::string& reason : weigh(small_set(), shop(), years).reasons) {
      const auto with = reason.find(" % instead of ");
      if (with == std::string::npos) {
        continue;
      }
      const auto number = [&](std::size_t from) { return std::atoi(reason.c_str() + from); };
      const auto first = reason.rfind(' ', with - 1) + 1;
      EXPECT_NE(number(first), number(with + std::string(" % instead of ").size())) << reason;
    }
  }
}

TEST(Options, OfASetThatWorksAndWasNotMeasuredNothingGoesOnAGuess) {
  SetStock set = small_set();
  set.parts[0].convicted = false;
  set.preventive = true;
  set.parts[2].seeping = 0.9;
  set.complaint_left = {{Scope::nothing, 0.0}, {Scope::all_electrolytics, 0.0}};
  EXPECT_EQ(weigh(set, shop(), 20.0).options.front().scope, Scope::nothing);
}

TEST(Options, WhatNobodyMeasuredIsNoBrotherOfASetThatWorks) {
  SetStock set = small_set();
  set.preventive = set.calls_for_mending = true;
  set.parts[1].unexamined = true;
  EXPECT_EQ(replaced_by(set, Scope::cohort), (std::vector<std::size_t>{0}));
  set.preventive = false;
  EXPECT_EQ(replaced_by(set, Scope::cohort), (std::vector<std::size_t>{0, 1}));
}

TEST(ShopSettings, AShopsOwnFileSaysOnlyWhatIsDifferent) {
  const auto below = load_shop_settings({DRYOUT_SOURCE_DIR});
  const auto own = documents::parse(R"({"schema": 1, "currency": "CHF",
    "labour_per_hour": {"value": 95, "because": "Our rate.", "source": "own"},
    "warmth_life": {"hot": 0.4, "because": "Our shelf.", "source": "own"}})",
                                    "own.json");
  const auto settings = read_shop_settings(*own, *below);
  ASSERT_TRUE(settings.ok()) << quantities::describe(settings.problems());
  EXPECT_EQ(settings->currency, "CHF");
  EXPECT_EQ(settings->labour_per_hour.value, 95.0);
  EXPECT_EQ(settings->part_price.value, below->part_price.value);
  EXPECT_EQ(settings->warmth_life.at("hot"), 0.4);
  EXPECT_EQ(settings->warmth_life.at("cool"), below->warmth_life.at("cool"));
}

TEST(ShopSettings, HaveTheShopsNameWhereItIsGiven) {
  const auto below = load_shop_settings({DRYOUT_SOURCE_DIR});
  EXPECT_EQ(below->name, "");
  const auto own = documents::parse(R"({"schema": 1, "name": "Harbour Radio"})", "own.json");
  EXPECT_EQ(read_shop_settings(*own, *below)->name, "Harbour Radio");
}

TEST(ShopSettings, TheSharesToTellApartMayNotCross) {
  const auto below = load_shop_settings({DRYOUT_SOURCE_DIR});
  const auto own = documents::parse(R"({"schema": 1,
    "sampling_gone_share": {"value": 0.04, "because": "x", "source": "own"}})",
                                    "own.json");
  EXPECT_FALSE(read_shop_settings(*own, *below).ok());
}

TEST(ShopSettings, AWornPartFailsAboutAsOftenAsTheHandbookSays) {
  // MIL-HDBK-217F, 10.15 (CE), 1000 uF, 85 C part, half its volts, 45 C, ground benign, commercial:
  // 0.44662 failures in a million hours (reliability_test.cpp), for hours switched on. A worn part
  // of 45 years must lie within a factor of two of that, always on.
  const ShopSettings figures = *load_shop_settings({DRYOUT_SOURCE_DIR});
  const double scale = figures.wear_scale_years.value * figures.level_life.at("worn");
  const Weibull wear{figures.wear_shape.value, quantities::hours(scale * 8766.0)};
  const double year = failure_within(wear, quantities::hours(45 * 8766.0), quantities::hours(8766));
  const double handbook = 0.44662e-6 * 8766.0;
  EXPECT_GT(year, handbook / 2.0);
  EXPECT_LT(year, handbook * 2.0);
}

TEST(ShopSettings, AWrongFigureIsNamedWithItsPlace) {
  const auto document = documents::parse(R"({"schema": 1, "currency": "EUR",
    "pad_damage_per_part": {"value": 2, "because": "x", "source": "judgement"}})",
                                         "shop.json");
  const auto settings = read_shop_settings(*document);
  ASSERT_FALSE(settings.ok());
  EXPECT_NE(
      quantities::describe(settings.problems()).find("shop.json:2 (/pad_damage_per_part/value)"),
      std::string::npos);
}

TEST(Advice, WhatSpeaksAgainstItIsToldAsThatAndLast) {
  SetStock set = small_set();
  set.calls_for_mending = true;
  ShopSettings poor = shop();
  poor.labour_per_hour.value *= 40.0;  // to mend costs far more than to leave
  const Recommendation advice = weigh(set, poor, 5.0);
  const auto speaks_against = [](const std::string& text) {
    return text.rfind("against it speaks: ", 0) == 0;
  };
  const WeighedOption& best = advice.options[0];
  const WeighedOption& second = advice.options[1];
  std::size_t against = 0;
  for (const std::string& reason : advice.reasons) {
    against += speaks_against(reason) ? 1 : 0;
    if (reason.find("bench and parts cost") != std::string::npos) {
      EXPECT_EQ(speaks_against(reason), best.cost_now > second.cost_now) << reason;
    }
    if (reason.find("comes back within") != std::string::npos) {
      EXPECT_EQ(speaks_against(reason),
                best.come_back_cost - best.seep_cost > second.come_back_cost - second.seep_cost);
    }
  }
  EXPECT_GE(against, 1U);
  EXPECT_TRUE(std::is_partitioned(advice.reasons.begin(), advice.reasons.end(),
                                  [&](const std::string& each) { return !speaks_against(each); }));
}

TEST(Advice, ADangerIsNoQuestionOfMoney) {
  SetStock set = small_set();
  set.parts.resize(1);
  set.calls_for_mending = true;
  ShopSettings poor = shop();
  poor.set_value.value = 1.0;
  poor.come_back_cost.value = 0.0;
  const std::string money = weigh(set, poor, 5.0).sentence;
  ASSERT_NE(money.find("ask the owner"), std::string::npos) << money;
  set.parts[0].whatever_it_costs = "it burns";
  const std::string danger = weigh(set, poor, 5.0).sentence;
  EXPECT_EQ(danger.find("ask the owner"), std::string::npos) << danger;
  EXPECT_NE(danger.find("a danger"), std::string::npos) << danger;
}

}  // namespace
}  // namespace dryout::decision
