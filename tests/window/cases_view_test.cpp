// The shelf: what lies on it, what is found beyond it, what sets like the open one had.
#include "window/cases_view.h"

#include <gtest/gtest.h>

#include "window/attend.h"
#include "window/driver.h"

namespace dryout::window {
namespace {

casework::CaseSummary found(std::int64_t number) {
  casework::CaseSummary summary;
  summary.number = number;
  summary.set_name = "Larkfield 40";
  summary.complaint = "crackles";
  return summary;
}

TEST(CasesView, AsksTheStoreForWhatIsNoLongerOnTheShelf) {
  Desk desk;
  desk.shelf.cases = sample_cases();
  desk.shelf.found = {found(3)};
  Driver bench(std::move(desk));
  bench.click("cases/search");
  bench.type("lark");
  const auto wishes = bench.wishes();
  ASSERT_FALSE(wishes.empty());
  const auto* search = std::get_if<SearchShelf>(&wishes.back());
  ASSERT_NE(search, nullptr);
  EXPECT_EQ(search->words, "lark");
  EXPECT_TRUE(bench.shows("case/3")) << "an old one, found by the store";
  EXPECT_FALSE(bench.shows("case/11"));
}

TEST(CasesView, ANameCannotTurnTheOrderOrForgeARow) {
  Desk desk;
  desk.station = Station::cases;
  desk.shelf.cases = sample_cases();
  desk.shelf.cases.front().set_name = "Lark\u202Efoo\nforged\u200B";
  const std::string name = "case/" + std::to_string(desk.shelf.cases.front().number);
  Driver bench(std::move(desk));
  bench.frames(2);
  EXPECT_NE(bench.label(name).find("Lark\\u202efoo\\nforged\\u200b"), std::string::npos)
      << bench.label(name);
}

TEST(CasesView, TellsWhatSetsLikeTheOpenOneHadAndOpensThem) {
  Desk desk = desk_with(sample_case());
  desk.station = Station::cases;
  desk.shelf.cases = sample_cases();
  casework::LastTimeCase last;
  last.number = 7;
  last.set_name = "Tarnbeck 614";
  last.opened = "2025-11-02 10:22";
  last.cause = "Main reservoirs";
  last.repairs = {"Main reservoirs: replaced, 10000 uF 50 V"};
  last.at_bench = quantities::minutes(35);
  desk.shelf.last_time.emplace().cases = {last};
  Driver bench(std::move(desk));
  bench.frames(2);
  ASSERT_TRUE(bench.shows("last-time/7"));
  bench.click("last-time/7");
  const auto wishes = bench.wishes();
  ASSERT_FALSE(wishes.empty());
  const auto* opened = std::get_if<OpenCase>(&wishes.back());
  ASSERT_NE(opened, nullptr);
  EXPECT_EQ(opened->number, 7);
}

}  // namespace
}  // namespace dryout::window
