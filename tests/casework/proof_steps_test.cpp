#include "casework/proof_steps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/mending_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::HasSubstr;

class Proof : public ::testing::Test {
 protected:
  void SetUp() override { tell(ReportSymptom{"hums", Seen::yes}); }
  CaseView tell(const Command& command) { return apply_ok(*workshop_, number_, command); }
  std::string refused(const Command& command) { return refusal(*workshop_, number_, command); }
  [[nodiscard]] MendingView mending() const { return mending_ok(*workshop_, number_); }

  std::unique_ptr<Workshop> workshop_ = mending_workshop();
  std::int64_t number_ = start_lantern(*workshop_);
};

TEST_F(Proof, OfAReservoirGoesFromDischargeToSoak) {
  tell(RecordRepair{"reservoirs", "replaced", ""});
  const MendingView view = mending();
  std::vector<std::string> ids;
  for (const ProofStep& step : view.proof) {
    ids.push_back(step.id);
  }
  EXPECT_THAT(ids, ::testing::ElementsAre("discharge", "polarity@main", "joints@main",
                                          "rail-cold@raw", "rail-cold@high", "first-power",
                                          "rail-volts@raw", "ripple@raw", "rail-volts@high",
                                          "ripple@high", "retest@hums", "soak", "close-up"));
}

TEST_F(Proof, OfAContactAsksForNoPolarityAndNoRipple) {
  tell(RecordRepair{"cause:dirty-contact@power", "cleaned", ""});
  const MendingView view = mending();
  EXPECT_TRUE(has_step(view, "joints@front"));
  EXPECT_FALSE(has_step(view, "joints@main"));
  EXPECT_FALSE(has_step(view, "polarity@front"));
  EXPECT_FALSE(has_step(view, "ripple@raw"));
  EXPECT_TRUE(has_step(view, "rail-volts@raw"));  // it feeds the block that hands were on
  EXPECT_TRUE(has_step(view, "idle@power"));
}

TEST_F(Proof, AsksForCleaningOnlyWhereElectrolyteGotOut) {
  tell(RecordRepair{"smoothing", "replaced", ""});
  EXPECT_FALSE(has_step(mending(), "cleaning@main"));
  auto wet = mending_workshop(two_board_knowledge(0.6));
  const std::int64_t there = start_lantern(*wet);
  apply_ok(*wet, there, RecordRepair{"smoothing", "replaced", ""});
  const MendingView view = mending_ok(*wet, there);
  EXPECT_THAT(step_of(view, "cleaning@main").caution, HasSubstr("alcohol"));
}

TEST_F(Proof, IsRememberedUntilHandsGoInAgain) {
  tell(RecordRepair{"reservoirs", "replaced", ""});
  tell(RecordProof{"rail-volts@raw", Proved::passed, "37.8 V"});
  tell(RecordProof{"first-power", Proved::skipped, "battery"});
  tell(RecordProof{"soak", Proved::failed, "smells"});
  tell(RetestSymptom{"hums", false});
  const MendingView view = mending();
  EXPECT_TRUE(step_of(view, "rail-volts@raw").done);
  EXPECT_EQ(step_of(view, "rail-volts@raw").remark, "37.8 V");
  EXPECT_TRUE(step_of(view, "first-power").skipped);
  EXPECT_TRUE(step_of(view, "soak").failed);
  EXPECT_TRUE(step_of(view, "retest@hums").done);
  tell(RecordRepair{"smoothing", "replaced", ""});
  const MendingView again = mending();
  for (const ProofStep& step : again.proof) {
    EXPECT_FALSE(step.done || step.failed || step.skipped) << step.id;
  }
}

TEST_F(Proof, TheNewestOutcomeOfAStepStands) {
  tell(RecordRepair{"reservoirs", "replaced", ""});
  tell(RecordProof{"soak", Proved::failed, "warm"});
  tell(RecordProof{"soak", Proved::passed, ""});
  EXPECT_TRUE(step_of(mending(), "soak").done);
  EXPECT_FALSE(step_of(mending(), "soak").failed);
}

TEST_F(Proof, RefusesStepsThatThereAreNot) {
  EXPECT_THAT(refused(RecordProof{"blessing", Proved::passed, ""}), HasSubstr("soak"));
  EXPECT_THAT(refused(RecordProof{"ripple@nowhere", Proved::passed, ""}),
              HasSubstr("no such place"));
  EXPECT_THAT(refused(RecordProof{"soak@raw", Proved::passed, ""}), HasSubstr("no such place"));
  EXPECT_THAT(refused(RecordProof{"retest@hums", Proved::passed, ""}), HasSubstr("retest hums"));
}

TEST_F(Proof, TheLogTellsTheStepInWords) {
  tell(RecordRepair{"reservoirs", "replaced", ""});
  const CaseView view = tell(RecordProof{"rail-volts@raw", Proved::passed, "37.8 V"});
  EXPECT_EQ(view.log.back().text, "Proof, +38 V rail, voltage: passed - 37.8 V");
}

}  // namespace
}  // namespace dryout::casework
