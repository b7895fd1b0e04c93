// The wiring from a case to the decision: what is known of the case must move the figures, each in
// its direction. The figures themselves are held against published theory in tests/decision.
#include "casework/weigh_mending.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "casework/mending_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class Mending : public ::testing::Test {
 protected:
  CaseView tell(const Command& command) { return apply_ok(*workshop_, number_, command); }
  [[nodiscard]] MendingView mending(double years = 5.0) const {
    return mending_ok(*workshop_, number_, years);
  }
  void convict_reservoirs() {
    tell(ReportSymptom{"hums", Seen::yes});
    tell(JudgeSuspect{"reservoirs", JudgeSuspect::Verdict::at_fault});
  }
  void mend_reservoirs() {
    convict_reservoirs();
    tell(RecordRepair{"reservoirs", "replaced", "4700 µF 63 V"});
  }

  std::unique_ptr<Workshop> workshop_ = mending_workshop();
  std::int64_t number_ = start_lantern(*workshop_);
};

TEST_F(Mending, IsRefusedWithoutTheShopsFigures) {
  const auto bare = tests::open_workshop();
  const auto mending = bare->mending(start_lantern(*bare), 5.0);
  ASSERT_FALSE(mending.ok());
  EXPECT_THAT(quantities::describe(mending.problems()), HasSubstr("rules/decision/shop.json"));
}

TEST_F(Mending, IsRefusedForAHorizonThatIsNone) {
  for (const double years : {0.0, -1.0, 31.0, std::numeric_limits<double>::quiet_NaN()}) {
    const auto mending = workshop_->mending(number_, years);
    ASSERT_FALSE(mending.ok()) << years;
    EXPECT_THAT(quantities::describe(mending.problems()), HasSubstr("0.1 to 30 years"));
  }
}

TEST_F(Mending, OffersEveryWayOfMendingAConvictedPart) {
  convict_reservoirs();
  const MendingView view = mending();
  EXPECT_TRUE(view.settled);
  EXPECT_EQ(view.options.size(), 4U);  // the board of the reservoirs is their cohort
  EXPECT_EQ(option_of(view, "nothing").parts, 0);
  EXPECT_THAT(option_of(view, "convicted-part").replaced, ElementsAre("Reservoirs"));
  EXPECT_EQ(option_of(view, "cohort").parts, 6);
  EXPECT_EQ(option_of(view, "all-electrolytics").parts, 12);  // never the film
  EXPECT_EQ(view.options.back().scope, "nothing");
  EXPECT_EQ(view.reasons.size(), 3U);
  EXPECT_THAT(view.left, Contains(HasSubstr("Tone board parts")));
}

TEST_F(Mending, IsNotSettledByALeaderAndSaysSo) {
  tell(ReportSymptom{"hums", Seen::yes});
  const MendingView view = mending();
  EXPECT_FALSE(view.settled);
  EXPECT_THAT(view.notices, Contains(HasSubstr("Nothing is convicted yet")));
  EXPECT_GT(option_of(view, "convicted-part").complaint_stays.value(), 0.0);
  EXPECT_EQ(option_of(view, "nothing").complaint_stays.value(), 1.0);
}

TEST_F(Mending, TheAnswerChangesWithTheHorizon) {
  convict_reservoirs();
  const std::string soon = mending(0.5).options.front().scope;
  const std::string long_hence = mending(30.0).options.front().scope;
  EXPECT_EQ(soon, "convicted-part");
  EXPECT_NE(long_hence, soon);
  EXPECT_THAT(mending(0.5).flips, HasSubstr("From "));
}

TEST_F(Mending, TheCurvesMeetTheOptionsAtTheirHorizon) {
  convict_reservoirs();
  const MendingView view = mending(5.0);
  for (const HorizonPoint& point : view.over_horizon) {
    ASSERT_EQ(point.expected_costs.size(), view.options.size());
    for (std::size_t i = 0; point.years == 5.0 && i < view.options.size(); ++i) {
      EXPECT_DOUBLE_EQ(point.expected_costs[i], view.options[i].expected_cost);
    }
  }
  EXPECT_THAT(view.over_horizon, Contains(::testing::Field(&HorizonPoint::years, 5.0)));
}

TEST_F(Mending, APartThatSeepsMakesLeavingItDearer) {
  convict_reservoirs();
  auto dry = mending_workshop(two_board_knowledge(0.0));
  const std::int64_t there = start_lantern(*dry);
  apply_ok(*dry, there, ReportSymptom{"hums", Seen::yes});
  apply_ok(*dry, there, JudgeSuspect{"reservoirs", JudgeSuspect::Verdict::at_fault});
  EXPECT_EQ(option_of(mending_ok(*dry, there), "nothing").seep_cost, 0.0);
  const MendingView wet = mending();
  EXPECT_GT(option_of(wet, "nothing").seep_cost, option_of(wet, "convicted-part").seep_cost);
  EXPECT_GT(option_of(wet, "convicted-part").seep_cost, 0.0);
  EXPECT_EQ(option_of(wet, "all-electrolytics").seep_cost, 0.0);
}

TEST_F(Mending, WhatIsOpenAlreadyIsNotPaidAgain) {
  convict_reservoirs();
  // 60 EUR an hour: a minute costs 1. Lid 2 (once for both boards), shield 4, front 10; 12 parts of
  // 6 minutes and 0.60.
  const double parts = 12 * 6.0 + 12 * 0.6;
  EXPECT_NEAR(option_of(mending(), "all-electrolytics").cost_now, 16.0 + parts, 1e-9);
  tell(OpenAccess{"shield"});  // the lid with it
  EXPECT_NEAR(option_of(mending(), "all-electrolytics").cost_now, 10.0 + parts, 1e-9);
  EXPECT_NEAR(option_of(mending(), "convicted-part").cost_now, 2 * 6.6, 1e-9);
  tell(OpenAccess{"front"});
  EXPECT_NEAR(option_of(mending(), "all-electrolytics").cost_now, parts, 1e-9);
}

TEST_F(Mending, ABadBrotherRaisesTheChanceOfAComeBack) {
  convict_reservoirs();
  const double before = option_of(mending(), "convicted-part").come_back.value();
  tell(NamePart{"C5", "smoothing", {}, {}, "", ""});
  tell(lifted_esr("C5", 3.0));
  tell(NamePart{"C6", "smoothing", {}, {}, "", ""});
  tell(lifted_esr("C6", 0.05));
  const MendingView worse = mending();
  // C5 itself is convicted by its data sheet now, so that what is left are the others.
  EXPECT_THAT(option_of(worse, "convicted-part").replaced, Contains(HasSubstr("C5")));
  tell(JudgeSuspect{"C5", JudgeSuspect::Verdict::cleared});
  EXPECT_NE(option_of(mending(), "convicted-part").come_back.value(), before);
}

TEST_F(Mending, AReplacedPartIsDoneAndItsBrothersAreStillOffered) {
  mend_reservoirs();
  tell(RetestSymptom{"hums", false});
  const MendingView view = mending();
  EXPECT_EQ(option_of(view, "nothing").unmended_cost, 0.0);
  EXPECT_THAT(option_of(view, "cohort").replaced, ElementsAre("Smoothing"));
  ASSERT_EQ(view.fitted.size(), 1U);
  EXPECT_EQ(view.fitted[0].fitted, "4700 µF 63 V");
  EXPECT_THAT(view.left, ::testing::Not(Contains(HasSubstr("Reservoirs"))));
}

TEST_F(Mending, AResolderedPartIsNoYounger) {
  convict_reservoirs();
  tell(RecordRepair{"reservoirs", "resoldered", ""});
  EXPECT_THAT(mending().left, Contains(HasSubstr("Reservoirs")));
}

TEST_F(Mending, AComplaintThatStayedAfterTheRepairStillCosts) {
  mend_reservoirs();
  tell(RetestSymptom{"hums", true});
  EXPECT_GT(option_of(mending(), "nothing").complaint_stays.value(), 0.2);
}

TEST_F(Mending, BuysWhatTheOptionReplacesByTheRulesOfSubstitution) {
  convict_reservoirs();
  tell(NamePart{"C12", "smoothing", quantities::microfarads(50), quantities::volts(12), "", ""});
  const MendingView view = mending();
  const OptionView& cohort = option_of(view, "cohort");
  ASSERT_EQ(cohort.shopping.size(), 3U);
  EXPECT_THAT(cohort.shopping[0].part, AllOf(HasSubstr("47 µF"), HasSubstr("25 V")));
  EXPECT_EQ(cohort.shopping[0].needed, 3);
  // The 50 uF of old: not less where it couples, so 68; 12 V: the next standard rating, 16 V.
  EXPECT_THAT(cohort.shopping[1].part, AllOf(HasSubstr("68 µF"), HasSubstr("16 V")));
  EXPECT_EQ(cohort.shopping[2].needed, 2);
  EXPECT_FALSE(cohort.shopping[0].why.empty());
  EXPECT_THAT(cohort.csv, HasSubstr("\r\n"));
  EXPECT_THAT(option_of(view, "nothing").shopping, IsEmpty());
}

TEST_F(Mending, SetsReadingsOfOneMannerSideBySide) {
  convict_reservoirs();
  tell(lifted_esr("reservoirs", 2.4));
  tell(RecordRepair{"reservoirs", "replaced", ""});
  EXPECT_THAT(mending().compared, IsEmpty());
  tell(lifted_esr("reservoirs", 0.05));
  const MendingView view = mending();
  ASSERT_EQ(view.compared.size(), 1U);
  EXPECT_EQ(view.compared[0].before, 2.4);
  EXPECT_EQ(view.compared[0].after, 0.05);
  EXPECT_EQ(view.compared[0].limit, 0.2);
}

class Preventive : public Mending {};

TEST_F(Preventive, ACaseWithoutComplaintIsAFirstClassEntry) {
  const MendingView view = mending();
  EXPECT_TRUE(view.preventive);
  EXPECT_EQ(option_of(view, "nothing").unmended_cost, 0.0);
  ASSERT_EQ(view.sampling.size(), 2U);
  EXPECT_GE(view.sampling[0].gives_up, view.sampling[1].gives_up);
  EXPECT_EQ(view.sampling[0].advice, "measure-another");
  EXPECT_THAT(view.sampling_rule, AllOf(HasSubstr("5 %"), HasSubstr("40 %")));
}

TEST_F(Preventive, ABatchIsClearedByGoodOnesAndCondemnedByBadOnes) {
  const auto smoothing = [&] {
    const MendingView view = mending();
    return view.sampling[view.sampling[0].cohort == "electrolytics" ? 0 : 1];
  };
  EXPECT_EQ(smoothing().parts, 6);
  for (const char* name : {"C1", "C2", "C3", "C4"}) {
    tell(NamePart{name, "smoothing", {}, {}, "", ""});
    tell(lifted_esr(name, 0.05));
    EXPECT_EQ(smoothing().advice, "measure-another") << name;
  }
  tell(lifted_esr("reservoirs", 0.05));  // the fifth good one in a row
  EXPECT_EQ(smoothing().measured, 5);
  EXPECT_EQ(smoothing().advice, "clear");
  tell(lifted_esr("C1", 4.0));
  tell(lifted_esr("C2", 4.0));
  tell(lifted_esr("C3", 4.0));
  EXPECT_EQ(smoothing().out_of_limit, 3);
  EXPECT_EQ(smoothing().advice, "recap");
}

TEST_F(Preventive, AMaskedReadingIsNoSample) {
  RecordReading masked = lifted_esr("smoothing", 0.05);
  masked.in_circuit = true;
  masked.across = Across::electrolytic;
  const CaseView view = tell(masked);
  ASSERT_NE(view.readings.back().verdict, "within-limit");
  for (const CohortSample& sample : mending().sampling) {
    EXPECT_EQ(sample.measured, 0);
  }
}

}  // namespace
}  // namespace dryout::casework
