// Thinking on a thread of its own: what it says is what the workshop itself would say, and whoever
// asks never waits for it.
#include "casework/thinking.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>

#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the shipped knowledge
using std::chrono::minutes;
using testing::HasSubstr;
using testing::SizeIs;

class ThinkingTest : public testing::Test {
 protected:
  void report(int symptoms) {
    const CaseView view = *workshop_->view(number_);
    for (int i = 0; i < symptoms; ++i) {
      ASSERT_TRUE(workshop_->enter(
          number_, ReportSymptom{view.symptoms[static_cast<std::size_t>(i)].id, Seen::yes}));
    }
  }
  CaseView figures_from(ThoughtOut& thought) {
    auto* view = std::get_if<quantities::Result<CaseView>>(&thought.answer);
    EXPECT_NE(view, nullptr);
    EXPECT_TRUE(view->ok());
    return **view;
  }

  std::unique_ptr<Workshop> workshop_ = open_shipped();
  std::int64_t number_ = start_on(*workshop_, "stereo-receiver");
};

TEST_F(ThinkingTest, SaysWhatTheWorkshopItselfSays) {
  std::atomic<int> woken = 0;
  Thinking thinking([&] { ++woken; });
  report(2);
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  ASSERT_TRUE(thinking.wait_at_most(minutes(2)));
  auto thoughts = thinking.take();
  ASSERT_THAT(thoughts, SizeIs(1));
  EXPECT_EQ(thoughts.front().number, number_);
  const CaseView there = figures_from(thoughts.front());
  const CaseView here = *workshop_->view(number_);
  ASSERT_EQ(there.suspects.size(), here.suspects.size());
  for (std::size_t i = 0; i < here.suspects.size(); ++i) {
    EXPECT_EQ(there.suspects[i].item, here.suspects[i].item);
    EXPECT_EQ(there.suspects[i].suspicion.value(), here.suspects[i].suspicion.value());
  }
  EXPECT_EQ(there.leading.sentence, here.leading.sentence);
  EXPECT_EQ(there.notices, here.notices);
  EXPECT_FALSE(thinking.progress());
  EXPECT_THAT(thinking.take(), SizeIs(0)) << "each answer once";
  EXPECT_EQ(woken, 1);
}

TEST_F(ThinkingTest, AnswersWhatPagesAskBeside) {
  Thinking thinking([] {});
  report(1);
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskPlan{2}));
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskPlan{1}));
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskChange{{AddNote{"nothing"}}}));
  ASSERT_TRUE(thinking.wait_at_most(minutes(2)));
  auto thoughts = thinking.take();
  ASSERT_GE(thoughts.size(), 3U);
  const auto& plan = std::get<quantities::Result<PlanStep>>(thoughts[thoughts.size() - 2].answer);
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(std::get<AskPlan>(thoughts[thoughts.size() - 2].question).depth, 1) << "the newest";
  EXPECT_EQ(plan->check, workshop_->plan_ahead(number_, 1)->check);
  EXPECT_TRUE(std::get<quantities::Result<WhatIfView>>(thoughts.back().answer).ok());
}

TEST_F(ThinkingTest, FiguresAskedForAnewPutAnEndToAllThatWasAskedBefore) {
  Thinking thinking([] {});
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  for (int depth = 3; depth <= 6; ++depth) {
    ASSERT_TRUE(thinking.ask(*workshop_, number_, AskPlan{depth}));
  }
  report(1);
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  ASSERT_TRUE(thinking.wait_at_most(minutes(2)));
  auto thoughts = thinking.take();
  ASSERT_THAT(thoughts, SizeIs(1)) << "no answer on the case as it was";
  EXPECT_EQ(figures_from(thoughts.front()).log.size(), workshop_->view(number_)->log.size());
}

TEST_F(ThinkingTest, GivenUpItShowsTheCaseWithoutFigures) {
  Thinking thinking([] {});
  report(12);
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  thinking.give_up();
  ASSERT_TRUE(thinking.wait_at_most(minutes(2)));
  auto thoughts = thinking.take();
  ASSERT_THAT(thoughts, SizeIs(1));
  const CaseView view = figures_from(thoughts.front());
  EXPECT_THAT(view.figures.refused, HasSubstr("given up"));
  EXPECT_EQ(view.log.size(), 13U) << "what was entered is there";
  EXPECT_TRUE(view.can_undo);
  EXPECT_TRUE(view.next.empty());
  // The next to ask has figures again.
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  ASSERT_TRUE(thinking.wait_at_most(minutes(5)));
  thoughts = thinking.take();
  ASSERT_THAT(thoughts, SizeIs(1));
  EXPECT_EQ(figures_from(thoughts.front()).figures.refused, "");
}

TEST_F(ThinkingTest, GivenUpAPlanIsAProblem) {
  Thinking thinking([] {});
  report(1);
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskPlan{6}));
  thinking.give_up();
  ASSERT_TRUE(thinking.wait_at_most(minutes(2)));
  const auto thoughts = thinking.take();
  ASSERT_THAT(thoughts, SizeIs(1));
  const auto& plan = std::get<quantities::Result<PlanStep>>(thoughts.front().answer);
  ASSERT_FALSE(plan.ok());
  EXPECT_THAT(plan.problems().front().message, HasSubstr("given up"));
}

TEST_F(ThinkingTest, HasALimit) {
  Thinking thinking([] {}, std::chrono::milliseconds(0));
  report(3);
  ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
  ASSERT_TRUE(thinking.wait_at_most(minutes(2)));
  auto thoughts = thinking.take();
  ASSERT_THAT(thoughts, SizeIs(1));
  EXPECT_THAT(figures_from(thoughts.front()).figures.refused, HasSubstr("longer than"));
}

TEST_F(ThinkingTest, EndsWithWorkInHand) {
  report(12);
  const auto begun = std::chrono::steady_clock::now();
  {
    Thinking thinking([] {});
    ASSERT_TRUE(thinking.ask(*workshop_, number_, AskFigures{}));
    ASSERT_TRUE(thinking.ask(*workshop_, number_, AskPlan{6}));
  }
  EXPECT_LT(std::chrono::steady_clock::now() - begun, minutes(1));
}

TEST_F(ThinkingTest, OfACaseThatIsNotThereNothingIsAsked) {
  Thinking thinking([] {});
  EXPECT_FALSE(thinking.ask(*workshop_, number_ + 1, AskFigures{}));
  EXPECT_FALSE(thinking.progress());
}

}  // namespace
}  // namespace dryout::casework
