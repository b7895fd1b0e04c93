// The pages beside the main path, under real key strokes and a real pointer: practice, plan,
// pictures, clipboard, two windows, what goes wrong.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>

#include <filesystem>
#include <fstream>

#include "window/real_bench.h"

namespace dryout::window {
namespace {

using testing::HasSubstr;

class RealPages : public RealInput {
 protected:
  /// Set 7 of the loudspeakers, by the keyboard.
  void start_practice() {
    ASSERT_TRUE(bench.open());
    bench.key("F12");
    ASSERT_TRUE(bench.wait_for("practice/start"));
    ASSERT_TRUE(bench.tab_to("practice/seed"));
    bench.type("7");
    ASSERT_TRUE(bench.press_by_tab("practice/equipment/loudspeaker-system"));
    ASSERT_TRUE(bench.press_by_tab("practice/start"));
    ASSERT_TRUE(bench.wait_for("practice/probe"));
  }
  /// Reads cautions to their end, where there are any.
  void heed() {
    if (bench.spot("probe/make")) {
      return;
    }
    for (int page = 0; page < 8 && !bench.spot("probe/acknowledge"); ++page) {
      bench.key("Next");
    }
    bench.key("a");
  }
};

TEST_F(RealPages, PractisesByKeyboard) {
  ASSERT_NO_FATAL_FAILURE(start_practice());
  bench.picture("practice-begun");
  bench.key("h");
  heed();
  ASSERT_TRUE(bench.wait_for("probe/make"));
  bench.key("m");
  bench.picture("practice-probed");
  bench.key("F12");
  ASSERT_TRUE(bench.press_by_tab("practice/leave"));
  ASSERT_TRUE(bench.wait_for("practice/start"));
  EXPECT_THAT(bench.dryout("case list"), testing::Not(HasSubstr("practice set")));
}

TEST_F(RealPages, ShowsAfterPracticeWhereTheAdviceWouldHaveGone) {
  ASSERT_NO_FATAL_FAILURE(start_practice());
  ASSERT_TRUE(bench.click("practice/give-up"));
  bench.picture("practice-advice-under-way");
  ASSERT_TRUE(bench.wait_for("practice/again"));
  // The advice plays the same set, a step a frame; once it is through, nothing moves any more.
  bench.come_back();
  const int through = bench.frame();
  bench.picture("practice-end");
  EXPECT_EQ(bench.frame(), through);
}

TEST_F(RealPages, PractisesByMouse) {
  ASSERT_TRUE(bench.open());
  ASSERT_TRUE(bench.click("station/practice"));
  ASSERT_TRUE(bench.click("practice/start"));  // which kind is not said yet
  ASSERT_TRUE(bench.click("practice/equipment/loudspeaker-system"));
  ASSERT_TRUE(bench.click("practice/start"));
  // Drawing a set that shows a symptom takes a busy machine more than one patience.
  ASSERT_TRUE(bench.wait_for("practice/suspects") || bench.wait_for("practice/suspects"));
  ASSERT_TRUE(bench.click("practice/suspects"));
  ASSERT_TRUE(bench.wait_for("practice/mend"));
  bench.picture("practice-suspects");
  bench.key("ctrl+z");
  ASSERT_TRUE(bench.click("station/practice"));
  ASSERT_TRUE(bench.click("practice/leave"));
  EXPECT_TRUE(bench.wait_for("practice/start"));
}

TEST_F(RealPages, SavesAChartByItsLetter) {
  open_at("F7");
  bench.key("p");
  EXPECT_TRUE(bench.wait_for_picture("dryout-map-"));
  bench.picture("chart-saved");
  bench.key("ctrl+p");
  EXPECT_TRUE(bench.wait_for_picture("dryout-page-"));
  EXPECT_TRUE(bench.running());
}

TEST_F(RealPages, SavesAChartByTheOtherMouseButton) {
  open_at("F9");
  ASSERT_TRUE(bench.wait_for("timeline/2"));
  ASSERT_TRUE(bench.press_right("timeline/2"));
  ASSERT_TRUE(bench.wait_for("menu/timeline/save"));
  bench.picture("chart-menu");
  ASSERT_TRUE(bench.click("menu/timeline/save"));
  EXPECT_TRUE(bench.wait_for_picture("dryout-timeline-"));
}

TEST_F(RealPages, SaysWhereAPictureCouldNotBeSaved) {
  take_in_a_receiver();
  ASSERT_TRUE(bench.open("1 --pictures /proc/nowhere"));
  bench.key("F7");
  bench.key("p");
  bench.picture("chart-refused");
  EXPECT_TRUE(bench.pictures().empty());
  EXPECT_TRUE(bench.running());
}

TEST_F(RealPages, PlansAheadAndGoesToAStep) {
  open_at("F10");
  ASSERT_TRUE(bench.wait_for("plan"));
  ASSERT_TRUE(bench.click("plan/depth/2"));
  bench.come_back();  // the tree is drawn anew, and its root elsewhere
  bench.picture("plan");
  ASSERT_TRUE(bench.wait_for("plan/good"));
  ASSERT_TRUE(bench.click("plan"));
  ASSERT_TRUE(bench.wait_until_gone("plan"));
  EXPECT_TRUE(bench.click("probe/decline"));
}

TEST_F(RealPages, FindsAStepOfTheTimelineInTheLog) {
  open_at("F9");
  ASSERT_TRUE(bench.click("timeline/2"));
  ASSERT_TRUE(bench.wait_for("log/step/2/take-back"));
  bench.picture("timeline");
  ASSERT_TRUE(bench.click("log/step/2/take-back"));
  EXPECT_TRUE(bench.wait_until_gone("log/step/2/take-back"));
}

TEST_F(RealPages, SaysWhatWouldChangeAndNotesNothing) {
  open_at("F3");
  heed();
  ASSERT_TRUE(bench.wait_for("probe/bad"));
  const std::string before = kept();
  ASSERT_TRUE(bench.click("probe/if-bad"));
  ASSERT_TRUE(bench.tab_to("probe/if-enough"));
  bench.picture("what-if");
  EXPECT_EQ(kept(), before);
}

TEST_F(RealPages, SetsACheckAsideAndProposesItAgain) {
  open_at("F3");
  bench.key("r");
  EXPECT_TRUE(holds("\"decline\"")) << kept();
  bench.key("ctrl+z");
  bench.picture("set-aside-undone");
  bench.key("ctrl+y");
  EXPECT_TRUE(bench.running());
}

TEST_F(RealPages, OverrulesTheFigures) {
  open_at("F4");
  ASSERT_TRUE(bench.click("judge/cleared"));
  bench.picture("overruled");
  EXPECT_TRUE(holds("cleared"));
  ASSERT_TRUE(bench.click("judge/open"));
  EXPECT_TRUE(bench.running());
}

TEST_F(RealPages, PastesAFigureWhereAReadingIsAskedFor) {
  open_at("F8");
  bench.key("n");
  ASSERT_TRUE(bench.tab_to("readings/item"));
  bench.type("4R7");
  bench.key("ctrl+a");
  bench.key("ctrl+x");
  ASSERT_TRUE(bench.tab_to("readings/form/figure"));
  bench.key("ctrl+v");
  ASSERT_TRUE(bench.tab_to("readings/item"));
  bench.type("reservoirs");
  bench.picture("pasted");
  // What was pasted waits while the cautions of the reservoirs are read.
  ASSERT_TRUE(bench.tab_to("readings/acknowledge"));
  bench.key("Return");
  ASSERT_TRUE(bench.wait_for("readings/form/figure"));
  ASSERT_TRUE(bench.tab_to("readings/form/figure"));
  bench.key("Return");
  EXPECT_TRUE(holds("4.7")) << kept();
}

TEST_F(RealPages, CopiesTheLogAndPastesItAsText) {
  open_at("F9");
  ASSERT_TRUE(bench.click("log/copy"));
  ASSERT_TRUE(bench.tab_to("log/note"));
  bench.key("ctrl+v");
  bench.key("Return");
  bench.picture("log-pasted");
  EXPECT_TRUE(holds("Taken in: Tarnbeck 614"));
}

TEST_F(RealPages, TellsOfTheOtherWindowAndShowsWhatItNoted) {
  take_in_a_receiver();
  ASSERT_TRUE(bench.open("1"));
  bench.key("F9");
  RealWindow beside(bench);
  ASSERT_TRUE(beside.open("1"));
  beside.key("F9");
  beside.picture("second-window");
  ASSERT_TRUE(beside.tab_to("log/note"));
  beside.type("seen from the other bench");
  beside.key("Return");
  ASSERT_TRUE(beside.wait_for("log/step/2"));
  bench.come_back();
  EXPECT_TRUE(bench.wait_for("log/step/2"));
  bench.picture("first-window-again");
}

TEST_F(RealPages, TellsOfAWindowThatWasKilledWithWhatWasKept) {
  take_in_a_receiver();
  ASSERT_TRUE(bench.open("1"));
  kill(bench.program(), SIGKILL);
  bench.close();
  ASSERT_TRUE(bench.open());
  bench.picture("after-a-crash");
  EXPECT_TRUE(bench.wait_for("case/1"));
}

TEST_F(RealPages, ShowsTheFarViewAndTakesAnOutcomeThere) {
  open_at("F3");
  bench.key("f");
  heed();
  ASSERT_TRUE(bench.wait_for("probe/good"));
  bench.picture("far");
  bench.key("g");
  EXPECT_TRUE(holds("\"outcome\""));
  bench.key("Escape");
  EXPECT_TRUE(bench.wait_for("station/probe"));
}

TEST_F(RealPages, TurnsLightAndExplainsItsKeys) {
  open_at("F8");
  bench.key("t");
  bench.picture("light");
  bench.key("question");
  ASSERT_TRUE(bench.wait_for("help/close"));
  bench.picture("light-help");
  bench.key("Escape");
  EXPECT_TRUE(bench.wait_for("station/readings"));
}

TEST_F(RealPages, StaysUsableWhenSmall) {
  open_at("F3");
  bench.resize(640, 480);
  ASSERT_TRUE(bench.click("station/suspects"));
  bench.picture("small");
  EXPECT_TRUE(bench.wait_for("suspects/filter"));
}

TEST_F(RealPages, OpensAtTwiceTheSizeInLightColours) {
  take_in_a_receiver();
  ASSERT_TRUE(bench.open("1 --scale 2 --theme light --width 2560 --height 1600"));
  const auto stop = bench.spot("station/probe");
  ASSERT_TRUE(stop);
  EXPECT_GT(stop->bottom - stop->top, 60);
  bench.picture("opened-at-2");
}

TEST_F(RealPages, LooksThingsUpInTheLibrary) {
  ASSERT_TRUE(bench.open());
  bench.key("F11");
  EXPECT_TRUE(bench.wait_for("library/search"));
  bench.picture("library");
  ASSERT_TRUE(bench.click("library/shelf/checks"));
  ASSERT_TRUE(bench.click("library/checks/esr-in-circuit"));
  bench.picture("library-entry");
  bench.key("ctrl+o");
  EXPECT_TRUE(bench.wait_for("cases/new"));
}

TEST_F(RealPages, FindsACaseOnTheShelf) {
  take_in_a_receiver();
  ASSERT_TRUE(bench.open());
  ASSERT_TRUE(bench.tab_to("cases/search"));
  bench.type("Tarnbeck");
  EXPECT_TRUE(bench.wait_for("case/1"));
  bench.picture("shelf-narrowed");
  bench.key("Return");
  ASSERT_TRUE(bench.click("case/1"));
  EXPECT_TRUE(bench.wait_for("symptoms/search"));
}

}  // namespace
}  // namespace dryout::window
