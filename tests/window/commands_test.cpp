// Everything a person can do to a case has a place in the window: each alternative of Command is
// sent here by hand from its page, and the walk at the end misses none.
#include <gtest/gtest.h>

#include <set>

#include "window/driver.h"

namespace dryout::window {
namespace {

using namespace casework;

class EveryCommand {
 public:
  /// Sits down at a page, does what `act` does, and notes what was sent.
  template <class Act>
  void at(CaseView view, Station station, Act act) {
    Desk desk = desk_with(std::move(view));
    desk.station = station;
    Driver bench(std::move(desk));
    act(bench);
    for (const Intention& wish : bench.wishes()) {
      if (const auto* command = std::get_if<Command>(&wish)) {
        sent_.insert(command->index());
      }
    }
  }
  [[nodiscard]] const std::set<std::size_t>& sent() const { return sent_; }

 private:
  std::set<std::size_t> sent_;
};

template <std::size_t... Places>
std::set<std::size_t> all_places(std::index_sequence<Places...>) {
  return {Places...};
}

void press(EveryCommand& walk, CaseView view, Station station,
           std::initializer_list<const char*> names) {
  walk.at(std::move(view), station, [&names](Driver& bench) {
    for (const char* name : names) {
      bench.click(name);
    }
  });
}

TEST(Window, HasAPlaceForEveryCommand) {
  EveryCommand walk;
  press(walk, sample_case(), Station::take_in, {"intake/correct", "access/lid", "access/bottom"});
  press(walk, sample_case(), Station::symptoms, {"symptom/dead/no"});
  press(walk, sample_case(), Station::probe,
        {"probe/good", "probe/decline", "probe/reconsider/thermal/reservoirs"});
  press(walk, dangerous_case(), Station::probe, {"probe/acknowledge"});
  press(walk, sample_case(), Station::suspects, {"judge/cleared"});
  press(walk, sample_case(), Station::mend, {"mend/item/group:reservoirs", "mend/note"});
  press(walk, sample_case(), Station::hand_over, {"proof/good"});
  press(walk, sample_case(), Station::hand_over, {"proof/retest@hum", "proof/good"});
  press(walk, sample_case(), Station::hand_over, {"close/close"});
  press(walk, closed_case(), Station::hand_over, {"close/reopen"});
  walk.at(sample_case(), Station::probe, [](Driver& bench) {
    bench.type("0.4");
    bench.key(Key::enter);
  });
  walk.at(sample_case(), Station::suspects, [](Driver& bench) {
    bench.click("part/reference");
    bench.type("C7");
    bench.key(Key::enter);
  });
  walk.at(sample_case(), Station::log, [](Driver& bench) {
    bench.click("log/note");
    bench.type("smells of fish");
    bench.key(Key::enter);
  });
  EXPECT_EQ(walk.sent(), all_places(std::make_index_sequence<std::variant_size_v<Command>>{}));
}

TEST(Window, StartsACaseByKeyboardAlone) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  Driver bench(std::move(desk));
  bench.type("n");
  bench.frames(2);
  bench.type("Tarnbeck 614");
  bench.key(Key::tab);
  bench.type("1976");
  bench.key(Key::tab);
  bench.type("hums");
  bench.press_by_key("intake/equipment/stereo-receiver");
  bench.press_by_key("intake/take-in");
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 1U);
  const TakeIn intake = std::get<StartCase>(wishes.front()).intake;
  EXPECT_EQ(intake.set_name, "Tarnbeck 614");
  EXPECT_EQ(intake.year_built, 1976);
  EXPECT_EQ(intake.complaint, "hums");
  EXPECT_EQ(intake.equipment, "stereo-receiver");
}

TEST(Window, AsksForTheKindOfEquipmentBeforeACaseIsStarted) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  desk.cases_state.taking_in = true;
  Driver bench(std::move(desk));
  bench.click("intake/take-in");
  EXPECT_TRUE(bench.wishes().empty());
  EXPECT_FALSE(bench.desk().new_case.fault.empty());
}

TEST(Window, RefusesAYearThatIsNoNumber) {
  Desk desk;
  desk.catalogue = sample_catalogue();
  desk.cases_state.taking_in = true;
  desk.new_case.equipment = "stereo-receiver";
  desk.new_case.year = "nineteen";
  Driver bench(std::move(desk));
  bench.click("intake/take-in");
  EXPECT_TRUE(bench.wishes().empty());
  EXPECT_NE(bench.desk().new_case.fault.find("1978"), std::string::npos);
}

TEST(Window, AnswersSymptomsByKeysOnTheRow) {
  Driver bench(desk_at(fresh_case(), Station::symptoms));
  bench.tab_to("symptom/dead");
  bench.type("n");
  const auto report = bench.only<ReportSymptom>();
  EXPECT_EQ(report.symptom, "dead");
  EXPECT_EQ(report.seen, Seen::no);
}

// One key each, and only what the equipment has: without places there are but the conditions.
TEST(Window, TellsWhereASymptomIsByOneKeyOnTheRow) {
  CaseView view = sample_case();
  view.places = {{"channel", {{"left", "Left channel"}, {"right", "Right channel"}}}};
  {
    Driver bench(desk_at(view, Station::symptoms));
    EXPECT_FALSE(bench.shows("symptom/dead/channel=left")) << "it is not there at all";
    bench.tab_to("symptom/hum");
    bench.type("2");
    const auto report = bench.only<ReportSymptom>();
    EXPECT_EQ(report.symptom, "hum");
    EXPECT_EQ(report.seen, Seen::yes);
    EXPECT_EQ(report.where.channel, "right");
  }
  view.symptoms.front().placed = {{{.channel = "right"}, "yes", "Right channel"}};
  {
    Driver bench(desk_at(view, Station::symptoms));
    bench.click("symptom/hum/channel=right");
    EXPECT_EQ(bench.only<ReportSymptom>().seen, Seen::no) << "pressed once more it is fine there";
  }
  view.places.clear();
  const Driver bench(desk_at(view, Station::symptoms));
  EXPECT_FALSE(bench.shows("symptom/hum/channel=right"));
}

TEST(Window, FindsASymptomInTheOwnersWords) {
  Driver bench(desk_at(fresh_case(), Station::symptoms));
  bench.click("symptoms/search");
  bench.type("retune");
  bench.frames(1);
  EXPECT_TRUE(bench.shows("symptom/drift"));
  EXPECT_FALSE(bench.shows("symptom/hum"));
  bench.key(Key::enter);
  bench.type("y");
  EXPECT_EQ(bench.only<ReportSymptom>().symptom, "drift");
}

TEST(Window, OpensACaseFromTheShelf) {
  Desk desk;
  desk.shelf.cases = sample_cases();
  Driver bench(std::move(desk));
  bench.click("case/11");
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 1U);
  EXPECT_EQ(std::get<OpenCase>(wishes.front()).number, 11);
}

TEST(Window, GoesFromABlockToItsSuspect) {
  Driver bench(desk_at(sample_case(), Station::map));
  bench.click("map/rectifier");
  bench.click("map/item/cause:open-diode@rectifier");
  EXPECT_EQ(bench.desk().station, Station::suspects);
  EXPECT_EQ(bench.desk().suspects.selected, "cause:open-diode@rectifier");
}

TEST(Window, ZoomsToABoard) {
  Driver bench(desk_at(sample_case(), Station::map));
  bench.click("map/board/supply");
  EXPECT_TRUE(bench.shows("map/reg24"));
  EXPECT_FALSE(bench.shows("map/tuner"));
}

TEST(Window, TakesAnyStepOfTheLogBack) {
  Driver bench(desk_at(sample_case(), Station::log));
  bench.click("log/step/6");
  bench.click("log/step/6/take-back");
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 1U);
  EXPECT_EQ(std::get<TakeBack>(wishes.front()).event, 6);
  EXPECT_FALSE(bench.shows("log/step/8/take-back")) << "what is taken back already stays so";
}

TEST(Window, UnfoldsWhatAReadingProves) {
  Driver bench(desk_at(sample_case(), Station::readings));
  bench.click("reading/9");
  EXPECT_EQ(bench.desk().readings.selected, 9);
  bench.click("reading/9");
  EXPECT_EQ(bench.desk().readings.selected, -1);
}

TEST(Window, TakesAReadingNobodyAskedFor) {
  Driver bench(desk_at(sample_case(), Station::readings));
  bench.type("n");
  bench.click("readings/item");
  bench.type("C12");
  bench.click("readings/kind/capacitance");
  bench.click("readings/form/figure");
  bench.type("31u");
  bench.key(Key::enter);
  const auto reading = bench.only<RecordReading>();
  EXPECT_EQ(reading.item, "C12");
  EXPECT_EQ(reading.kind, ReadingKind::capacitance);
  EXPECT_NEAR(reading.value, 31e-6, 1e-12);
}

}  // namespace
}  // namespace dryout::window
