// The plan from here, and what a way of working costs on sets like this one.
#include "casework/plan_ahead.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/invented_bench.h"
#include "casework/workshop.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::HasSubstr;

class PlanAhead : public testing::Test {
 protected:
  PlanAhead() : number_(start_lantern(*workshop_)) {
    view_ = apply_ok(*workshop_, number_, ReportSymptom{"hums"});
  }
  std::unique_ptr<Workshop> workshop_ = open_workshop();
  std::int64_t number_ = 0;
  CaseView view_;
};

/// What is reached after a check is reached together as often as the check itself.
void expect_shares_to_add_up(const PlanStep& step) {
  if (step.leaf) {
    EXPECT_TRUE(step.then.empty());
    EXPECT_FALSE(step.suspect_title.empty());
    return;
  }
  ASSERT_EQ(step.then.size(), 2U);
  EXPECT_NEAR(step.then[0].reached.value() + step.then[1].reached.value(), step.reached.value(),
              1e-9);
  for (const PlanStep& next : step.then) {
    expect_shares_to_add_up(next);
  }
}

TEST_F(PlanAhead, BeginsWithTheCheckThatIsAdvised) {
  const auto plan = workshop_->plan_ahead(number_, 2);
  ASSERT_TRUE(plan.ok()) << quantities::describe(plan.problems());
  ASSERT_FALSE(plan->leaf);
  ASSERT_FALSE(view_.next.empty());
  EXPECT_EQ(plan->check, view_.next.front().check);
  EXPECT_EQ(plan->place, view_.next.front().place);
  EXPECT_THAT(plan->title, HasSubstr(view_.next.front().title));
  EXPECT_NEAR(plan->reached.value(), 1.0, 1e-12);
  EXPECT_NEAR(plan->then[0].reached.value(), view_.next.front().looks_bad.value(), 1e-9);
  expect_shares_to_add_up(*plan);
}

TEST_F(PlanAhead, SaysWhatIsSaidWhenItHasComeTrue) {
  const auto plan = workshop_->plan_ahead(number_, 1);
  ASSERT_TRUE(plan.ok());
  ASSERT_FALSE(plan->leaf);
  (void)apply_ok(*workshop_, number_, AcknowledgeCautions{plan->check, plan->place});
  const CaseView after =
      apply_ok(*workshop_, number_, RecordOutcome{plan->check, plan->place, Seen::yes, ""});
  EXPECT_NEAR(plan->then[0].suspicion.value(),
              suspect(after, plan->then[0].suspect).unsound.value(), 1e-9);
}

TEST_F(PlanAhead, RefusesADepthThatNobodyCouldRead) {
  for (const int depth : {0, 7}) {
    const auto plan = workshop_->plan_ahead(number_, depth);
    ASSERT_FALSE(plan.ok()) << depth;
    EXPECT_THAT(quantities::describe(plan.problems()), HasSubstr("1 to 6"));
  }
  EXPECT_FALSE(workshop_->plan_ahead(4711, 2).ok());
}

TEST(PlayEquipment, PlaysAnEquipmentWithAllItsSymptoms) {
  const auto workshop = open_workshop();
  planning::SimulationSettings settings;
  settings.jobs = 20;
  const auto report = workshop->simulate("lantern", planning::Habit::ours, settings);
  ASSERT_TRUE(report.ok()) << quantities::describe(report.problems());
  EXPECT_EQ(report->jobs, 20U);
  EXPECT_GT(quantities::in_minutes(report->mean_time), 0.0);
  const auto unknown = workshop->simulate("lanterm", planning::Habit::ours, settings);
  ASSERT_FALSE(unknown.ok());
  EXPECT_THAT(quantities::describe(unknown.problems()), HasSubstr("lanterm"));
}

}  // namespace
}  // namespace dryout::casework
