#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "decision/mending_rules.h"
#include "decision/shop_settings.h"

namespace dryout::decision {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const ShopSettings& shipped_figures() {
  static const ShopSettings loaded = *load_shop_settings({DRYOUT_SOURCE_DIR});
  return loaded;
}

double read_back(const std::string& text, Figure ShopSettings::*figure) {
  const auto document = documents::parse(text, "own");
  const auto read = read_shop_settings(*document, shipped_figures());
  EXPECT_TRUE(read.ok());
  return ((*read).*figure).value;
}

TEST(ShopFigures, AreAllSeenWithinTheirRange) {
  const auto figures = figures_of(shipped_figures());
  EXPECT_EQ(figures.size(), 16U + 3U + 3U);
  for (const ShopFigure& figure : figures) {
    EXPECT_GE(figure.value, figure.least) << figure.key;
    EXPECT_LE(figure.value, figure.most) << figure.key;
    EXPECT_FALSE(figure.title.empty());
  }
}

TEST(ShopFigures, EachIsSetAndTakenBackAndTheRestStays) {
  const std::string begun = R"({"schema": 1, "name": "Quarry Lane", "part_price":
      {"value": 2, "because": "We buy by the piece here.", "source": "ours"}})";
  for (const ShopFigure& figure : figures_of(shipped_figures())) {
    const double other = figure.value == 0.3 ? 0.31 : std::min(figure.most, figure.value * 1.01);
    const auto set = own_figures_with(begun, "own", shipped_figures(), figure.key, other);
    ASSERT_TRUE(set.ok()) << figure.key << quantities::describe(set.problems());
    EXPECT_THAT(*set, HasSubstr("Quarry Lane"));
    const auto document = documents::parse(*set, "own");
    const auto now = figures_of(*read_shop_settings(*document, shipped_figures()));
    for (const ShopFigure& each : now) {
      if (each.key == figure.key) {
        EXPECT_DOUBLE_EQ(each.value, other) << each.key;
      }
    }
    const auto back = own_figures_with(*set, "own", shipped_figures(), figure.key, {});
    ASSERT_TRUE(back.ok());
    if (figure.key != "part_price") {
      EXPECT_EQ(documents::parse(*back, "")->root, documents::parse(begun, "")->root) << figure.key;
    }
  }
  EXPECT_DOUBLE_EQ(
      read_back(*own_figures_with(begun, "own", shipped_figures(), "labour_per_hour", 75.0),
                &ShopSettings::part_price),
      2.0);
  EXPECT_DOUBLE_EQ(read_back(*own_figures_with(begun, "own", shipped_figures(), "part_price", {}),
                             &ShopSettings::part_price),
                   shipped_figures().part_price.value);
}

TEST(ShopFigures, WhatIsWrongIsRefusedWithWhatIsAccepted) {
  const auto refused = [](const std::string& own, const std::string& key, double value) {
    const auto text = own_figures_with(own, "shop.json", shipped_figures(), key, value);
    EXPECT_FALSE(text.ok()) << key << ' ' << value;
    return text ? "" : quantities::describe(text.problems());
  };
  EXPECT_THAT(refused("", "labour_per_hour", -1.0), HasSubstr("0 to 100000"));
  EXPECT_THAT(refused("", "pad_damage_per_part", 1.5), HasSubstr("0 to 1"));
  EXPECT_THAT(refused("", "labour_per_hour", std::numeric_limits<double>::quiet_NaN()),
              HasSubstr("out of its range"));
  EXPECT_THAT(refused("", "labor", 3.0), HasSubstr("labour_per_hour"));
  EXPECT_THAT(refused("", "sampling_gone_share", 0.01), HasSubstr("above"));
  EXPECT_THAT(refused("{ broken", "labour_per_hour", 3.0), HasSubstr("shop.json"));
  EXPECT_THAT(refused("[]", "labour_per_hour", 3.0), HasSubstr("object"));
}

TEST(MendingRules, SayWhatIsBoughtAndWhatGoesFirst) {
  const auto rules = load_mending_rules({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(rules.ok()) << quantities::describe(rules.problems());
  ASSERT_NE(rules->remedy_for("shorted-diode"), nullptr);
  EXPECT_THAT(rules->remedy_for("shorted-diode")->buy, HasSubstr("diode"));
  EXPECT_EQ(rules->remedy_for("no-such-cause"), nullptr);
  EXPECT_NE(rules->first_to_go("grid-coupling", "paper", 88.0), nullptr);
  EXPECT_EQ(rules->first_to_go("grid-coupling", "film", 88.0), nullptr);
  EXPECT_EQ(rules->first_to_go("grid-coupling", "paper", 5.0), nullptr);
}

}  // namespace
}  // namespace dryout::decision
