// The library, a dropped parts list, and a part's print: what the window offers beside the case.
#include "window/library_view.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "window/attend.h"
#include "window/driver.h"

namespace dryout::window {
namespace {

using ::testing::HasSubstr;

Desk empty_desk() {
  Desk desk;
  desk.catalogue = sample_catalogue();
  return desk;
}

TEST(LibraryView, OpensWithoutACaseAndIsNarrowedByShelfAndWords) {
  Driver bench(empty_desk());
  bench.click("station/library");
  EXPECT_TRUE(bench.shows("library/roles/reservoir"));
  EXPECT_TRUE(bench.shows("library/causes/open-diode"));
  bench.click("library/shelf/causes");
  EXPECT_FALSE(bench.shows("library/roles/reservoir"));
  bench.click("library/all");
  bench.click("library/search");
  bench.type("crests rail");
  EXPECT_TRUE(bench.shows("library/roles/reservoir"));
  EXPECT_FALSE(bench.shows("library/causes/open-diode"));
}

TEST(LibraryView, IsReachedByItsKeyFromACase) {
  Driver bench(desk_with(sample_case()));
  bench.key(Key::library);
  bench.frames(2);
  EXPECT_EQ(bench.desk().station, Station::library);
  EXPECT_TRUE(bench.shows("library/search"));
  bench.click("library/roles/reservoir");
  EXPECT_EQ(bench.desk().library.selected, 0U);
}

TEST(DroppedFile, OpensThePageForItAndIsLookedAt) {
  Desk desk = empty_desk();
  CommandQueue queue;
  take_dropped(desk, "/home/me/parts.csv", queue);
  EXPECT_TRUE(desk.cases_state.taking_in);
  EXPECT_TRUE(desk.new_case.parts.open);
  ASSERT_EQ(queue.wanted().size(), 1U);
  const auto* look = std::get_if<LookAtPartsList>(&queue.wanted().front());
  ASSERT_NE(look, nullptr);
  EXPECT_EQ(look->wish.file, "/home/me/parts.csv");
}

TEST(DroppedFile, OnAnOpenCaseGoesToItsIntake) {
  Desk desk = desk_with(sample_case());
  desk.station = Station::probe;
  CommandQueue queue;
  take_dropped(desk, "parts.csv", queue);
  EXPECT_EQ(desk.station, Station::take_in);
  Driver bench(std::move(desk));
  bench.frames(2);
  EXPECT_TRUE(bench.shows("intake/parts/path"));
  EXPECT_EQ(bench.desk().intake.parts.file.path, "parts.csv");  // filling the form kept it
}

TEST(PartsListForm, AsksForWhatComesOfItAndKeepsOnlyWhenTold) {
  Desk desk = empty_desk();
  desk.cases_state.taking_in = true;
  Driver bench(std::move(desk));
  bench.click("intake/parts");
  bench.click("intake/parts/path");
  bench.type("parts.csv");
  bench.click("intake/parts/look");
  std::vector<Intention> wishes = bench.wishes();
  ASSERT_FALSE(wishes.empty());
  EXPECT_NE(std::get_if<LookAtPartsList>(&wishes.back()), nullptr);
  EXPECT_FALSE(bench.shows("intake/parts/keep"));
  casework::OwnSet seen;
  seen.sentence = "3 capacitors, 3 placed.";
  bench.desk().new_case.parts.seen = seen;
  bench.frames(2);
  bench.click("intake/parts/keep");
  wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 1U);
  EXPECT_NE(std::get_if<KeepPartsList>(&wishes.front()), nullptr);
}

casework::CaseView esr_case() {
  casework::CaseView view = sample_case();
  view.next.front().quantity = "esr";
  view.next.front().place = "reservoirs";
  view.next.front().technology = "wet-aluminium";
  view.next.front().acknowledged = true;
  return view;
}

TEST(Print, IsTakenOverWithOneKeyForTheNamedPart) {
  Driver bench(desk_at(esr_case(), Station::probe));
  bench.click("probe/part");
  bench.type("C12");
  bench.click("probe/print");
  bench.type("47 25V");
  EXPECT_THAT(bench.label("probe/print/0"), HasSubstr("47 \u00b5F, 25 V"));
  bench.key(Key::enter);
  bench.frames(2);
  const auto part = bench.only<casework::NamePart>();
  EXPECT_EQ(part.reference, "C12");
  EXPECT_EQ(part.group, "reservoirs");
  EXPECT_NEAR(part.capacitance->si(), 47e-6, 1e-12);
  EXPECT_DOUBLE_EQ(part.rated->si(), 25.0);
}

TEST(ReadingForm, AsksWhatSitsAcrossOnlyWhereItIsNotKnown) {
  casework::CaseView view = esr_case();
  Driver unknown(desk_at(view, Station::probe));
  unknown.frames(2);
  EXPECT_TRUE(unknown.shows("probe/reading/across/1"));
  view.next.front().across = "electrolytic";
  view.next.front().across_because = "2 more electrolytics on the +38 V rail";
  Driver known(desk_at(view, Station::probe));
  known.frames(2);
  EXPECT_FALSE(known.shows("probe/reading/across/1"));
  known.click("probe/reading/across");
  EXPECT_TRUE(known.shows("probe/reading/across/1"));
}

TEST(ReadingForm, TheMeterPickedGoesWithTheReading) {
  Driver bench(desk_at(esr_case(), Station::probe));
  bench.click("probe/reading/more");
  bench.click("probe/reading/meter/bench-bridge");
  bench.click("probe/reading/figure");
  bench.type("2.4");
  bench.click("probe/enter");
  EXPECT_EQ(bench.only<casework::RecordReading>().meter, "bench-bridge");
}

TEST(ReadingForm, AsksForTheLeadsWhenTheFigureIsSmall) {
  Driver bench(desk_at(esr_case(), Station::probe));
  bench.frames(2);
  EXPECT_FALSE(bench.shows("probe/reading/zero"));
  bench.click("probe/reading/figure");
  bench.type("0.2");
  EXPECT_TRUE(bench.shows("probe/reading/zero"));
}

}  // namespace
}  // namespace dryout::window
