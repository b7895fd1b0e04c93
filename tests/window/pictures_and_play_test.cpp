// Practice, the plan, the timeline and the pictures they can be saved as, worked by name without a
// display.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "window/chart_picture.h"
#include "window/driver.h"

namespace dryout::window {
namespace {

using namespace casework;
using testing::HasSubstr;

template <class Wish>
const Wish* only_wish(const std::vector<Intention>& wishes) {
  return wishes.size() == 1 ? std::get_if<Wish>(&wishes.front()) : nullptr;
}

Desk desk_at(Station station) { return desk_at(sample_case(), station); }

Desk practice_desk(bool over) {
  Desk desk = desk_at(Station::practice);
  desk.practice = sample_practice(over);
  desk.probe.set_answers = desk.suspects.in_practice = !over;
  return desk;
}

TEST(Practice, IsStartedWithTheKindOfEquipmentAndTheNumberOfTheSet) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  desk.station = Station::practice;
  Driver bench(std::move(desk));
  bench.click("practice/start");
  EXPECT_THAT(bench.desk().practising.fault, HasSubstr("kind of equipment"));
  bench.click("practice/equipment/hf-transceiver");
  bench.click("practice/seed");
  bench.type("4711");
  bench.click("practice/start");
  const std::vector<Intention> wishes = bench.wishes();
  const auto* wish = only_wish<StartPractice>(wishes);
  ASSERT_NE(wish, nullptr);
  EXPECT_EQ(wish->equipment, "hf-transceiver");
  EXPECT_EQ(wish->seed, 4711U);
}

TEST(Practice, RefusesANumberThatIsNone) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  desk.station = Station::practice;
  desk.practising.equipment = "hf-transceiver";
  Driver bench(std::move(desk));
  for (const char* wrong : {"0", "-3", "x"}) {
    bench.desk().practising.seed = wrong;
    bench.click("practice/start");
    EXPECT_TRUE(bench.wishes().empty()) << wrong;
    EXPECT_THAT(bench.desk().practising.fault, HasSubstr("above 0"));
  }
}

TEST(Practice, LetsTheNoviceChooseAndTheSetAnswer) {
  Desk desk = practice_desk(false);
  desk.station = Station::probe;
  Driver bench(std::move(desk));
  EXPECT_FALSE(bench.shows("probe/bad"));
  const CheckView check = bench.desk().open_case->next.at(1);
  bench.click("probe/other/" + check.check + '/' + check.place);
  EXPECT_FALSE(bench.shows("probe/bad"));
  EXPECT_FALSE(bench.shows("probe/figures")) << "no advice in practice";
  bench.type("m");
  EXPECT_EQ(bench.only<RecordOutcome>().check, check.check);
}

TEST(Practice, MendsASuspectWhereItStands) {
  Desk desk = practice_desk(false);
  desk.station = Station::suspects;
  Driver bench(std::move(desk));
  bench.click("practice/mend");
  EXPECT_EQ(bench.only<RecordRepair>().item, bench.desk().open_case->suspects.front().item);
}

TEST(Practice, HasAHintAndAnEndOnEveryPage) {
  Desk desk = practice_desk(false);
  desk.station = Station::probe;
  Driver bench(std::move(desk));
  bench.type("h");
  bench.click("practice/give-up");
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 2U);
  EXPECT_TRUE(std::holds_alternative<AskHint>(wishes[0]));
  EXPECT_TRUE(std::holds_alternative<GiveUpPractice>(wishes[1]));
}

TEST(Practice, AsksForTheAdvicesNextStepUntilItHasComeToItsEnd) {
  Desk desk = practice_desk(true);
  desk.practice->compared = false;
  Driver waiting(std::move(desk));
  waiting.frames();
  EXPECT_FALSE(waiting.wishes().empty());
  Driver done(practice_desk(true));
  done.frames();
  EXPECT_TRUE(done.wishes().empty());
}

TEST(Practice, OffersTheSameSetAgainAtItsEnd) {
  Driver bench(practice_desk(true));
  bench.click("practice/again");
  const std::vector<Intention> wishes = bench.wishes();
  const auto* wish = only_wish<StartPractice>(wishes);
  ASSERT_NE(wish, nullptr);
  EXPECT_EQ(wish->seed, 4711U);
}

TEST(Plan, LeadsFromABoxToItsCheckAndFromAnEndToItsSuspect) {
  Driver bench(desk_at(Station::plan));
  bench.click("plan/good");
  EXPECT_EQ(bench.desk().station, Station::probe);
  EXPECT_EQ(bench.desk().probe.check, "diode-drop");
  bench.key(Key::plan);
  bench.click("plan/good/bad");
  EXPECT_EQ(bench.desk().station, Station::suspects);
  EXPECT_EQ(bench.desk().suspects.selected, "cause:open-diode");
}

TEST(Plan, IsMadeAnewForAnotherDepth) {
  Driver bench(desk_at(Station::plan));
  bench.click("plan/depth/2");
  EXPECT_EQ(bench.desk().ahead.depth, 2);
  EXPECT_FALSE(bench.desk().plan.has_value());
}

TEST(Timeline, OpensAStepInTheLog) {
  Driver bench(desk_at(Station::log));
  bench.click("timeline/6");
  EXPECT_EQ(bench.desk().log.selected, 6);
  EXPECT_TRUE(bench.shows("log/step/6/take-back"));
}

TEST(WhatIf, IsAskedWithTheFigureTypedAndNotesNothing) {
  Desk desk = desk_at(Station::probe);
  desk.open_case->next.front().quantity = "esr";
  desk.open_case->next.front().place = "reservoirs";
  desk.open_case->next.front().acknowledged = true;
  Driver bench(std::move(desk));
  bench.type("2");
  bench.click("probe/reading/if");
  const std::vector<Intention> wishes = bench.wishes();
  const auto* wish = only_wish<AskWhatIf>(wishes);
  ASSERT_NE(wish, nullptr);
  ASSERT_EQ(wish->commands.size(), 1U);
  EXPECT_DOUBLE_EQ(std::get<RecordReading>(wish->commands.front()).value, 2.0);
}

TEST(WhatIf, IsShownUntilEnough) {
  Desk desk = desk_at(Station::probe);
  WhatIfView then;
  then.sentence = "Reservoirs: up from 40 % to 91 %.";
  then.changes = {{"group:reservoirs", "Reservoirs", quantities::Probability(0.4),
                   quantities::Probability(0.91)}};
  desk.probe.what_if = then;
  Driver bench(std::move(desk));
  EXPECT_TRUE(bench.shows("probe/if/group:reservoirs"));
  bench.click("probe/if-enough");
  EXPECT_FALSE(bench.shows("probe/if/group:reservoirs"));
}

TEST(Tables, AreCopiedFromTheirPages) {
  for (const auto& [station, name] : {std::pair{Station::readings, "readings/copy"},
                                      std::pair{Station::suspects, "suspects/copy"},
                                      std::pair{Station::mend, "buy/copy-table"}}) {
    Driver bench(desk_at(station));
    bench.click(name);
    const std::vector<Intention> wishes = bench.wishes();
    const auto* copy = only_wish<CopyText>(wishes);
    ASSERT_NE(copy, nullptr) << name;
    EXPECT_THAT(copy->text, HasSubstr("\t")) << name;
  }
}

TEST(Chart, IsAskedForByItsLetterOnItsPage) {
  const std::pair<Station, const char*> pages[] = {
      {Station::map, "map"},   {Station::suspects, "balance"}, {Station::readings, "readings"},
      {Station::plan, "plan"}, {Station::mend, "cost"},        {Station::log, "timeline"}};
  for (const auto& [station, chart] : pages) {
    Driver bench(desk_at(station));
    bench.type("p");
    const std::vector<Intention> wishes = bench.wishes();
    const auto* save = only_wish<SaveChart>(wishes);
    ASSERT_NE(save, nullptr) << chart;
    EXPECT_EQ(save->chart, chart);
  }
}

TEST(Chart, IsDrawnWholeToAFile) {
  const std::string folder = testing::TempDir() + "dryout-charts";
  std::filesystem::create_directories(folder);
  for (const std::string& chart : chart_names()) {
    Desk desk = desk_at(Station::map);
    desk.shop.page = sample_shop(1);
    const std::string path = folder + '/' + chart + ".png";
    const auto drawn = draw_chart_png(desk, chart, path);
    ASSERT_TRUE(drawn.ok()) << chart << quantities::describe(drawn.problems());
    EXPECT_GT(std::filesystem::file_size(path), 8000U) << chart << " looks empty";
    EXPECT_TRUE(desk.alone.empty()) << "the desk is as it was";
    const auto mode = std::filesystem::status(path).permissions();
    EXPECT_EQ(mode & std::filesystem::perms::others_all, std::filesystem::perms::none);
  }
}

TEST(Chart, ThatIsNotThereIsRefused) {
  Desk empty;
  EXPECT_FALSE(draw_chart_png(empty, "map", "/tmp/none.png").ok());
  Desk desk = desk_at(Station::map);
  EXPECT_FALSE(draw_chart_png(desk, "kitchen", "/tmp/none.png").ok());
}

}  // namespace
}  // namespace dryout::window
