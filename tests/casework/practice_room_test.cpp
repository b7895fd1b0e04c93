// A practice on the invented lantern as a face meets it: the set answers, everything is counted,
// and the two ways are laid side by side at the end.
#include "casework/practice_room.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

class PracticeRoomTest : public testing::Test {
 protected:
  std::unique_ptr<PracticeRoom> open(std::uint64_t seed = 3) {
    auto room = PracticeRoom::open(*workshop_, "lantern", seed);
    EXPECT_TRUE(room.ok()) << quantities::describe(room.problems());
    return std::move(*room);
  }
  static quantities::Result<quantities::Done> probe(PracticeRoom& room, const CheckView& check) {
    if (!check.acknowledged) {
      (void)room.apply(AcknowledgeCautions{check.check, check.place});
    }
    return room.apply(RecordOutcome{check.check, check.place, Seen::unclear, ""});
  }
  std::unique_ptr<Workshop> workshop_ = open_workshop(std::string(in_memory));
};

TEST_F(PracticeRoomTest, KeepsNothingInTheShopsOwnStore) {
  const auto before = workshop_->cases();
  const auto room = open();
  const auto after = workshop_->cases();
  ASSERT_TRUE(before.ok() && after.ok());
  EXPECT_EQ(before->size(), after->size());
}

TEST_F(PracticeRoomTest, LaysTheChecksOutByTitleNotByWorth) {
  const auto room = open();
  const CaseView view = room->view();
  EXPECT_TRUE(
      std::is_sorted(view.next.begin(), view.next.end(),
                     [](const CheckView& a, const CheckView& b) { return a.title < b.title; }));
  EXPECT_FALSE(room->told().complaint.empty());
}

TEST_F(PracticeRoomTest, AnswersACheckByItselfAndCountsIt) {
  const auto room = open();
  ASSERT_NE(room->hint(), nullptr);
  const CheckView check = *room->hint();
  ASSERT_TRUE(probe(*room, check).ok());
  EXPECT_EQ(room->told().yours.tally.checks, 1);
  EXPECT_EQ(room->told().yours.steps.size(), 1U);
  EXPECT_NE(room->told().word.find("it looks"), std::string::npos);
}

TEST_F(PracticeRoomTest, RefusesWhatTheSetTellsByItself) {
  const auto room = open();
  const std::string symptom = room->view().symptoms.front().id;
  EXPECT_FALSE(room->apply(ReportSymptom{symptom, Seen::no}).ok());
  EXPECT_FALSE(room->apply(RecordOutcome{"no-such-check", "", Seen::yes, ""}).ok());
  EXPECT_FALSE(room->apply(RecordRepair{"no-such-item", "replaced", ""}).ok());
  EXPECT_TRUE(room->apply(AddNote{"look at the lamp first"}).ok());
}

TEST_F(PracticeRoomTest, TellsWhatWasWrongOnlyOnceItIsOver) {
  const auto room = open();
  EXPECT_TRUE(room->told().faults.empty());
  EXPECT_TRUE(room->told().expert.steps.empty());
  ASSERT_TRUE(room->give_up().ok());
  EXPECT_TRUE(room->told().over);
  EXPECT_FALSE(room->told().faults.empty());
  EXPECT_TRUE(room->told().comparison.empty());
  for (int step = 0; step < 400 && !room->told().compared; ++step) {
    ASSERT_TRUE(room->advise().ok());
  }
  EXPECT_TRUE(room->told().compared);
  EXPECT_FALSE(room->told().expert.steps.empty());
  EXPECT_FALSE(room->told().comparison.empty());
  EXPECT_FALSE(room->apply(AddNote{"too late"}).ok());
}

TEST_F(PracticeRoomTest, EndsWhenTheComplaintIsGoneWithAllMinutesInTheTally) {
  const auto room = open();
  for (int turn = 0; turn < 40 && !room->told().over; ++turn) {
    const CaseView view = room->view();
    const auto suspect =
        std::find_if(view.suspects.begin(), view.suspects.end(),
                     [](const SuspectView& candidate) { return candidate.mended.empty(); });
    ASSERT_NE(suspect, view.suspects.end());
    ASSERT_TRUE(room->apply(RecordRepair{suspect->item, "replaced", ""}).ok());
  }
  EXPECT_TRUE(room->told().over);
  EXPECT_TRUE(room->told().yours.tally.cured);
  quantities::Second sum;
  for (const PracticeStep& step : room->told().yours.steps) {
    sum += step.spent;
  }
  EXPECT_DOUBLE_EQ(sum.si(), room->told().yours.tally.spent.si());
}

}  // namespace
}  // namespace dryout::casework
