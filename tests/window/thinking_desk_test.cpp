// A desk whose figures are worked out on a thread of their own: steps are in the store before
// anything is thought, frames go on, and what is shown meanwhile says from when it is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "casework/mending_knowledge.h"
#include "knowledge/load.h"
#include "window/attend.h"
#include "window/lay_desk.h"
#include "window/page_picture.h"
#include "window/think_about.h"
#include "window/windowless.h"

namespace dryout::window {
namespace {

using std::chrono::minutes;
using testing::HasSubstr;

class ThinkingDesk : public testing::Test {
 protected:
  void SetUp() override {
    auto knowledge = knowledge::load({DRYOUT_SOURCE_DIR});
    auto readings = readings::load_reading_knowledge({DRYOUT_SOURCE_DIR});
    auto mending = casework::load_mending_knowledge({DRYOUT_SOURCE_DIR});
    ASSERT_TRUE(knowledge.ok() && readings.ok() && mending.ok());
    auto opened = casework::Workshop::open(
        ":memory:", *knowledge, [] { return std::int64_t{1'772'614'800}; }, *readings, *mending);
    ASSERT_TRUE(opened.ok());
    workshop_ = std::move(*opened);
    number_ = *workshop_->start({"stereo-receiver", "Tarnbeck 614", 1976, "", "everything"});
    ASSERT_TRUE(lay_desk(*workshop_, desk_, 0).ok());
    bench_ = std::make_unique<Bench>(Bench{*workshop_, nullptr, &thinking_});
  }
  void ask(const Intention& wish) {
    queue_.push(wish);
    (void)attend(*bench_, desk_, queue_);
  }
  /// Until nothing is thought about any more; the desk is drawn all the while.
  void settle() {
    while (thinking_.progress()) {
      (void)thinking_.wait_at_most(std::chrono::milliseconds(50));
      (void)take_thoughts(*bench_, desk_);
      (void)window_.frame(desk_, queue_);
    }
    (void)take_thoughts(*bench_, desk_);
  }
  void open() {
    ask(OpenCase{number_});
    settle();
    ASSERT_TRUE(desk_.open_case);
  }
  /// So much is told that its figures take far longer than anybody waits in place.
  void tell_much() {
    const auto symptoms = desk_.open_case->symptoms;
    for (std::size_t i = 0; i + 1 < symptoms.size() && i < 29; ++i) {
      ASSERT_TRUE(
          workshop_->enter(number_, casework::ReportSymptom{symptoms[i].id, casework::Seen::yes}));
    }
  }
  [[nodiscard]] casework::ReportSymptom one_more() const {
    return {desk_.open_case->symptoms.back().id, casework::Seen::yes};
  }
  [[nodiscard]] bool is_stored(const std::string& symptom) const {
    return workshop_->export_case(number_)->find(symptom) != std::string::npos;
  }
  void keep_picture(const std::string& name) {
    if (const char* const folder = std::getenv("DRYOUT_PICTURES")) {
      (void)draw_png(desk_, 1280, 800, std::string(folder) + "/thinking-" + name + ".png");
    }
  }

  casework::Thinking thinking_{[] {}};
  std::unique_ptr<casework::Workshop> workshop_;
  std::int64_t number_ = 0;
  std::unique_ptr<Bench> bench_;
  Desk desk_;
  WindowlessDesk window_{1280, 800};
  CommandQueue queue_;
};

TEST_F(ThinkingDesk, AStepIsStoredAtOnceAndItsFiguresFollow) {
  open();
  tell_much();
  const auto step = one_more();
  const std::size_t told_before = desk_.open_case->log.size();
  ask(step);
  EXPECT_TRUE(is_stored(step.symptom));
  EXPECT_TRUE(desk_.figures_due) << "nobody waited for them";
  EXPECT_THAT(desk_.thinking, HasSubstr("from before the last step"));
  EXPECT_EQ(desk_.open_case->log.size(), told_before) << "what is shown is from before";
  (void)window_.frame(desk_, queue_);
  keep_picture("step");
  settle();
  EXPECT_FALSE(desk_.figures_due);
  EXPECT_EQ(desk_.thinking, "");
  EXPECT_EQ(desk_.open_case->log.size(), workshop_->view(number_)->log.size());
  EXPECT_EQ(desk_.open_case->leading.sentence, workshop_->view(number_)->leading.sentence);
}

TEST_F(ThinkingDesk, StepsMadeMeanwhileAreAllStoredAndTheLastFiguresCount) {
  open();
  tell_much();
  ask(one_more());
  ask(casework::AddNote{"the first"});
  ask(casework::AddNote{"the second"});
  ask(Undo{});
  settle();
  ASSERT_TRUE(desk_.open_case);
  EXPECT_EQ(desk_.open_case->log.back().text.find("the second") == std::string::npos, false);
  EXPECT_TRUE(desk_.open_case->log.back().undone);
  EXPECT_TRUE(desk_.open_case->can_redo);
  EXPECT_EQ(desk_.open_case->figures.refused, "");
}

TEST_F(ThinkingDesk, EscapeShowsTheCaseWithoutFigures) {
  open();
  tell_much();
  ask(one_more());
  ASSERT_FALSE(desk_.thinking.empty());
  (void)window_.frame(desk_, queue_, {{Key::escape}, {}});
  (void)attend(*bench_, desk_, queue_);
  settle();
  EXPECT_FALSE(desk_.figures_due);
  EXPECT_THAT(desk_.open_case->figures.refused, HasSubstr("given up"));
  EXPECT_EQ(desk_.open_case->log.size(), workshop_->view(number_)->log.size());
  keep_picture("given-up");
  ask(casework::AddNote{"on we go"});
  settle();
  EXPECT_EQ(desk_.open_case->figures.refused, "") << "the next step tries anew";
}

TEST_F(ThinkingDesk, ACaseComesToTheDeskWhenItsFiguresAreThere) {
  open();
  tell_much();
  const auto other = *workshop_->start({"clock-radio", "Ostwick 3", 1984, "", ""});
  ask(OpenCase{other});
  settle();
  ASSERT_EQ(desk_.open_case->number, other);
  ask(GoTo{Station::cases});
  ask(OpenCase{number_});
  EXPECT_EQ(desk_.coming, number_);
  EXPECT_EQ(desk_.open_case->number, other) << "until then the other one lies there";
  EXPECT_THAT(desk_.thinking, HasSubstr("comes to the desk"));
  (void)window_.frame(desk_, queue_);
  keep_picture("coming");
  settle();
  EXPECT_EQ(desk_.open_case->number, number_);
  EXPECT_EQ(desk_.coming, 0);
}

TEST_F(ThinkingDesk, PagesAreShownAtOnceAndFilledWhenReady) {
  open();
  ask(casework::ReportSymptom{desk_.open_case->symptoms.front().id, casework::Seen::yes});
  settle();
  desk_.ahead.depth = 6;
  ask(GoTo{Station::plan});
  EXPECT_EQ(desk_.station, Station::plan);
  (void)window_.frame(desk_, queue_);
  keep_picture("plan");
  settle();
  ASSERT_TRUE(desk_.plan);
  EXPECT_EQ(desk_.plan->check, workshop_->plan_ahead(number_, 6)->check);
  ask(GoTo{Station::mend});
  settle();
  ASSERT_TRUE(desk_.mending);
  EXPECT_EQ(desk_.mending->horizon_years, desk_.mend.horizon_years);
  ask(ChangeHorizon{10.0});
  settle();
  EXPECT_EQ(desk_.mending->horizon_years, 10.0);
  ask(AskWhatIf{{casework::AddNote{"nothing"}}});
  settle();
  EXPECT_TRUE(desk_.probe.what_if);
}

TEST_F(ThinkingDesk, APracticeIsNeverGivenTheShopsFigures) {
  open();
  tell_much();
  ask(one_more());
  ask(StartPractice{"clock-radio", 7});
  ASSERT_TRUE(desk_.practice);
  settle();
  EXPECT_EQ(desk_.open_case->equipment, "clock-radio");
  EXPECT_EQ(desk_.thinking, "");
}

TEST_F(ThinkingDesk, ARefusedStepChangesNothingAndIsSaid) {
  open();
  const std::size_t told = desk_.open_case->log.size();
  ask(casework::ReportSymptom{"no-such-symptom", casework::Seen::yes});
  settle();
  EXPECT_TRUE(desk_.word_is_refusal);
  EXPECT_THAT(desk_.word, HasSubstr("no-such-symptom"));
  EXPECT_EQ(desk_.open_case->log.size(), told);
  EXPECT_FALSE(desk_.figures_due);
}

}  // namespace
}  // namespace dryout::window
