#include "window/desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "window/driver.h"

namespace dryout::window {
namespace {

using namespace casework;

TEST(Desk, ReachesEveryStationByKey) {
  Driver bench(desk_with(sample_case()));
  const std::pair<Key, Station> keys[] = {{Key::f1, Station::take_in},
                                          {Key::f2, Station::symptoms},
                                          {Key::f3, Station::probe},
                                          {Key::f4, Station::suspects},
                                          {Key::f5, Station::mend},
                                          {Key::f6, Station::hand_over},
                                          {Key::f7, Station::map},
                                          {Key::f8, Station::readings},
                                          {Key::f9, Station::log},
                                          {Key::plan, Station::plan},
                                          {Key::practice, Station::practice},
                                          {Key::cases, Station::cases}};
  for (const auto& [key, station] : keys) {
    bench.key(key);
    EXPECT_EQ(bench.desk().station, station);
  }
}

TEST(Desk, ReachesEveryStationByMouse) {
  Driver bench(desk_with(sample_case()));
  for (const char* name :
       {"station/take-in", "station/symptoms", "station/probe", "station/suspects", "station/mend",
        "station/hand-over", "station/map", "station/readings", "station/log"}) {
    const Station before = bench.desk().station;
    bench.click(name);
    EXPECT_TRUE(bench.desk().station != before || std::string(name) == "station/probe") << name;
  }
}

TEST(Desk, TakesBackAndPutsAgain) {
  Driver bench(desk_with(sample_case()));
  bench.key(Key::undo);
  bench.key(Key::redo);
  bench.click("column/undo");
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 3U);
  EXPECT_TRUE(std::holds_alternative<Undo>(wishes[0]));
  EXPECT_TRUE(std::holds_alternative<Redo>(wishes[1]));
  EXPECT_TRUE(std::holds_alternative<Undo>(wishes[2]));
}

TEST(Desk, OpensHelpAndClosesItByTheSameKey) {
  Driver bench(desk_with(sample_case()));
  bench.type("?");
  EXPECT_TRUE(bench.desk().help);
  bench.type("?");
  EXPECT_FALSE(bench.desk().help);
  bench.type("?");
  bench.key(Key::escape);
  EXPECT_FALSE(bench.desk().help);
}

TEST(Desk, ChangesThemeAndScaleWithinTheirRange) {
  Driver bench(desk_with(sample_case()));
  bench.type("t");
  EXPECT_EQ(bench.desk().theme, ThemeName::light);
  for (int i = 0; i < 12; ++i) {
    bench.key(Key::larger);
  }
  EXPECT_FLOAT_EQ(bench.desk().scale, 3.0F);
  for (int i = 0; i < 12; ++i) {
    bench.key(Key::smaller);
  }
  EXPECT_FLOAT_EQ(bench.desk().scale, 1.0F);
}

TEST(Desk, HasNoTwoItemsOfOneName) {
  for (const Station station :
       {Station::take_in, Station::symptoms, Station::probe, Station::suspects, Station::mend,
        Station::hand_over, Station::map, Station::readings, Station::log, Station::cases}) {
    Desk desk = desk_with(sample_case());
    desk.station = station;
    Driver bench(std::move(desk));
    std::set<std::string> names;
    for (const Item& item : bench.items().all()) {
      EXPECT_TRUE(names.insert(item.name).second) << item.name;
    }
  }
}

TEST(Desk, LetsTabComeToEveryItemThatCanBePressed) {
  for (const Station station :
       {Station::take_in, Station::symptoms, Station::probe, Station::suspects, Station::mend,
        Station::hand_over, Station::map, Station::readings, Station::log, Station::cases}) {
    Desk desk = desk_with(sample_case());
    desk.station = station;
    Driver bench(std::move(desk));
    std::set<std::string> wanted, met;
    for (const Item& item : bench.items().all()) {
      if (item.tab_stop && item.enabled) {
        wanted.insert(item.name);
      }
    }
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      bench.key(Key::tab);
      met.insert(bench.items().focus());
      const Item* item = bench.items().find(bench.items().focus());
      ASSERT_NE(item, nullptr);
      EXPECT_TRUE(item->visible) << item->name << " has the focus out of sight";
    }
    EXPECT_EQ(met, wanted);
  }
}

/// A width that text must not run over: every item stays within the desk, and no words are cut.
TEST(Desk, KeepsEveryItemWithinItsWidth) {
  struct Size {
    int width, height;
    float scale;
  };
  for (const Size size : {Size{1280, 800, 1}, Size{1024, 700, 1}, Size{1280, 800, 2},
                          Size{2560, 1600, 2}, Size{1920, 1200, 3}}) {
    for (const bool long_winded : {false, true}) {
      for (int station = 0; station <= static_cast<int>(Station::shop); ++station) {
        Desk desk = desk_with(long_winded ? long_winded_case() : sample_case());
        desk.scale = size.scale;
        desk.station = static_cast<Station>(station);
        desk.practice = sample_practice(long_winded);
        desk.shop.page = sample_shop(2);
        Driver bench(std::move(desk), size.width, size.height);
        for (const Item& item : bench.items().all()) {
          EXPECT_LE(item.right, static_cast<float>(size.width) + 1)
              << item.name << " at " << size.width << " wide, scale " << size.scale;
        }
        EXPECT_THAT(bench.items().cut(), testing::IsEmpty())
            << "at " << size.width << " wide, scale " << size.scale << ", page " << station;
      }
    }
  }
}

TEST(Desk, ShowsARefusalAtItsFoot) {
  Desk desk = desk_with(sample_case());
  desk.word = "The case is closed; take it up again first.";
  desk.word_is_refusal = true;
  Driver bench(std::move(desk));
  EXPECT_TRUE(bench.shows("probe/bad")) << "the page stays usable";
}

TEST(Desk, AnswersFarViewOnlyWithACase) {
  Driver bench(Desk{});
  bench.type("f");
  EXPECT_FALSE(bench.desk().far);
}

TEST(Desk, DescribesWhereItsItemsLie) {
  Driver bench(desk_with(sample_case()));
  const std::string lines = describe_items(bench.items());
  EXPECT_NE(lines.find("\"name\":\"probe/bad\""), std::string::npos);
  EXPECT_NE(lines.find("\"label\":\"Looked bad\""), std::string::npos);
}

}  // namespace
}  // namespace dryout::window
