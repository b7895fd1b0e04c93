// Practice on the invented lantern: what was drawn, what it answers, what is counted.
#include "casework/practice.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

constexpr std::uint64_t seeds = 12;

class PracticeTest : public testing::Test {
 protected:
  Practice begin(std::uint64_t seed) {
    auto practice = Practice::begin(*workshop_, "lantern", seed);
    EXPECT_TRUE(practice.ok()) << quantities::describe(practice.problems());
    return std::move(*practice);
  }
  std::unique_ptr<Workshop> workshop_ = open_workshop(std::string(in_memory));
};

TEST_F(PracticeTest, TheSameSeedDrawsTheSameSet) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    EXPECT_EQ(begin(seed).faults(), begin(seed).faults());
  }
}

TEST_F(PracticeTest, SomethingIsWrongAndTheOwnerHasNoticed) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    const Practice practice = begin(seed);
    const auto& symptoms = practice.view().symptoms;
    EXPECT_TRUE(std::any_of(symptoms.begin(), symptoms.end(),
                            [](const SymptomView& symptom) { return symptom.seen == "yes"; }));
  }
}

TEST_F(PracticeTest, ACheckCostsItsMinutesAndEntersTheCase) {
  Practice practice = begin(1);
  ASSERT_FALSE(practice.view().next.empty());
  const CheckView check = practice.view().next.front();
  const std::size_t lines = practice.view().log.size();
  ASSERT_TRUE(practice.check(check).ok());
  EXPECT_EQ(practice.tally().checks, 1);
  EXPECT_DOUBLE_EQ(practice.tally().spent.si(), (check.effort + check.access_effort).si());
  EXPECT_GT(practice.view().log.size(), lines);
}

TEST_F(PracticeTest, MendingEverythingCuresAndCountsWhatWasSound) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    Practice practice = begin(seed);
    const auto faulty = static_cast<int>(practice.faults().size());
    int mended = 0;
    for (bool cured = false; !cured; ++mended) {
      const auto& suspects = practice.view().suspects;
      const auto next =
          std::find_if(suspects.begin(), suspects.end(),
                       [](const SuspectView& suspect) { return suspect.mended.empty(); });
      ASSERT_NE(next, suspects.end()) << "all is mended and the set still complains";
      const auto done = practice.mend(SuspectView(*next));
      ASSERT_TRUE(done.ok()) << quantities::describe(done.problems());
      cured = *done;
    }
    EXPECT_TRUE(practice.tally().cured);
    EXPECT_EQ(practice.tally().mended, mended);
    EXPECT_GE(practice.tally().needless, mended - faulty);
    EXPECT_LT(practice.tally().needless, mended);
  }
}

TEST_F(PracticeTest, FollowingTheAdviceFindsTheFault) {
  int cured = 0;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    Practice practice = begin(seed);
    ASSERT_TRUE(follow_advice(practice).ok());
    cured += practice.tally().cured ? 1 : 0;
    EXPECT_EQ(static_cast<int>(practice.steps().size()),
              practice.tally().checks + practice.tally().mended);
  }
  EXPECT_GE(cured, static_cast<int>(seeds) - 2);
}

TEST_F(PracticeTest, AnUnknownEquipmentIsAProblem) {
  EXPECT_FALSE(Practice::begin(*workshop_, "no-such-thing", 1).ok());
}

}  // namespace
}  // namespace dryout::casework
