// The shop's page, the finder of files and the papers, worked by name without a display.
#include "window/shop_view.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "window/driver.h"
#include "window/papers.h"

namespace dryout::window {
namespace {

using namespace casework;

/// The last wish, which must be of this kind.
template <class Wish>
Wish last(Driver& bench) {
  const std::vector<Intention> wishes = bench.wishes();
  if (!wishes.empty()) {
    if (const auto* wish = std::get_if<Wish>(&wishes.back())) {
      return *wish;
    }
  }
  ADD_FAILURE() << "not the wish that was expected";
  return {};
}

Desk shop_desk(int families) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  desk.station = Station::shop;
  desk.shop.page = sample_shop(families);
  return desk;
}

TEST(ShopPage, IsReachedWithoutACase) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  Driver bench(std::move(desk));
  bench.type("s");
  EXPECT_EQ(bench.desk().station, Station::shop);
}

TEST(ShopPage, AsksForReadingsOfAnotherPartType) {
  Driver bench(shop_desk(2));
  bench.click("shop/kind/capacitance");
  const ReadingsAsked asked = last<AskShop>(bench).readings;
  EXPECT_EQ(asked.kind, "capacitance");
  EXPECT_EQ(asked.technology, "wet-aluminium");
}

TEST(ShopPage, AsksBeforeClosedCasesEnterTheFigures) {
  Driver bench(shop_desk(1));
  bench.click("shop/history");
  EXPECT_TRUE(last<UseShopHistory>(bench).on);
  bench.desk().shop.page->history_on = true;
  bench.frames(2);
  bench.click("shop/history");
  EXPECT_FALSE(last<UseShopHistory>(bench).on);
}

TEST(ShopPage, AFigureIsSetWithinItsRangeAndTakenBack) {
  Desk desk = shop_desk(0);
  desk.shop.page->figures.now = {
      {"labour_per_hour", "An hour at the bench", "EUR", 0, 1000, 75, "What is billed.", "ours"},
      {"latent_shows", "Chance a year", "", 0, 1, 0.05, "Judged so.", "judgement"}};
  desk.shop.page->figures.shipped = desk.shop.page->figures.now;
  desk.shop.page->figures.shipped[0].value = 60;
  Driver bench(std::move(desk));
  bench.click("shop/figure/labour_per_hour");
  bench.frames(2);
  EXPECT_EQ(bench.desk().shop.figure, "labour_per_hour");
  bench.click("shop/figure/value");
  bench.type("80");
  bench.click("shop/figure/set");
  const auto set = last<SetShopFigure>(bench);
  EXPECT_EQ(set.key, "labour_per_hour");
  EXPECT_EQ(set.value, 80.0);
  bench.click("shop/figure/back");
  EXPECT_EQ(last<SetShopFigure>(bench).value, std::nullopt);
  bench.click("shop/figure/latent_shows");
  bench.frames(2);
  EXPECT_TRUE(bench.items().find("shop/figure/back") == nullptr) << "it is the shipped one";
  bench.click("shop/figure/value");
  bench.type("5");
  (void)bench.wishes();
  bench.click("shop/figure/set");
  EXPECT_TRUE(bench.wishes().empty()) << "5 is no chance";
  EXPECT_NE(bench.desk().shop.figure_fault.find("0 to 1"), std::string::npos);
}

TEST(ShopPage, KeepsTheCasesInTwoWays) {
  Driver bench(shop_desk(0));
  bench.click("shop/backup");
  EXPECT_FALSE(last<CopyAllCases>(bench).as_text);
  bench.click("shop/export");
  EXPECT_TRUE(last<CopyAllCases>(bench).as_text);
  bench.click("shop/check");
  (void)last<CheckStore>(bench);
}

TEST(ShopPage, OffersItsChartsToBeSavedOnlyWhereThereIsSomethingToSee) {
  Driver full(shop_desk(1));
  full.frames(2);
  EXPECT_TRUE(full.items().find("picture/shop-causes") != nullptr);
  Driver empty(shop_desk(0));
  empty.frames(2);
  EXPECT_TRUE(empty.items().find("picture/shop-causes") == nullptr);
}

TEST(Finder, LooksIntoWhatWasTypedAndNowhereTwice) {
  Driver bench(shop_desk(0));
  bench.frames(2);
  EXPECT_EQ(last<LookIntoFolder>(bench).begun, "");
  bench.frames(3);
  EXPECT_TRUE(bench.wishes().empty());
  bench.click("shop/arriving/path");
  bench.type("/ca");
  EXPECT_EQ(last<LookIntoFolder>(bench).begun, "/ca");
}

TEST(Finder, GoesIntoAFolderAndTakesAFile) {
  Driver bench(shop_desk(0));
  bench.frames(2);
  FinderState& finder = bench.desk().shop.arriving;
  finder.seen =
      FolderView{"",
                 "/home/me/",
                 {{"radios/", "/home/me/radios/", true}, {"a.json", "/home/me/a.json", false}},
                 3};
  bench.frames(1);
  (void)bench.wishes();
  bench.click("shop/arriving/entry/radios/");
  EXPECT_EQ(bench.desk().shop.arriving.path, "/home/me/radios/");
  EXPECT_EQ(last<LookIntoFolder>(bench).begun, "/home/me/radios/");
  bench.desk().shop.arriving.seen = FolderView{
      "/home/me/radios/", "/home/me/radios/", {{"b.json", "/home/me/radios/b.json", false}}, 0};
  bench.frames(1);
  bench.click("shop/arriving/entry/b.json");
  bool taken = false;
  for (const Intention& wish : bench.wishes()) {
    const auto* cases = std::get_if<TakeCasesIn>(&wish);
    taken = taken || (cases != nullptr && cases->path == "/home/me/radios/b.json");
  }
  EXPECT_TRUE(taken);
}

TEST(Papers, AreOfferedWhereTheJobComesToThem) {
  Desk at_the_end = desk_at(sample_case(), Station::hand_over);
  at_the_end.mending = sample_mending();
  Driver bench(std::move(at_the_end));
  bench.click("paper/owner-pdf");
  EXPECT_EQ(last<WritePaper>(bench).paper, "owner-pdf");
  bench.click("paper/case-json");
  EXPECT_EQ(last<WritePaper>(bench).paper, "case-json");
  Desk mending = desk_at(sample_case(), Station::mend);
  mending.mending = sample_mending();
  Driver buyer(std::move(mending));
  buyer.click("paper/parts-csv");
  EXPECT_EQ(last<WritePaper>(buyer).paper, "parts-csv");
}

TEST(Papers, EachHasAButton) {
  Desk at_the_end = desk_at(sample_case(), Station::hand_over);
  at_the_end.mending = sample_mending();
  Driver end(std::move(at_the_end));
  end.frames(2);
  Desk mending = desk_at(sample_case(), Station::mend);
  mending.mending = sample_mending();
  Driver mend(std::move(mending));
  mend.frames(2);
  for (const std::string& paper : paper_names()) {
    EXPECT_TRUE(end.items().find("paper/" + paper) != nullptr ||
                mend.items().find("paper/" + paper) != nullptr)
        << paper;
  }
}

}  // namespace
}  // namespace dryout::window
