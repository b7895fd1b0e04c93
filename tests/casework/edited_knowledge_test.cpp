// Knowledge that is edited while a workshop is open (Workshop::take_up_edits).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using quantities::Problem;
using quantities::Result;
using testing::HasSubstr;

class EditedKnowledge : public testing::Test {
 protected:
  void SetUp() override {
    workshop_->watch_knowledge([this] { return std::exchange(edit_, std::nullopt); });
    (void)apply_ok(*workshop_, number_, ReportSymptom{"hums", Seen::yes});
  }
  void edit(const std::function<void(knowledge::KnowledgeBase&)>& change) {
    knowledge::KnowledgeBase base = invented_knowledge();
    change(base);
    edit_ = LoadedKnowledge{std::move(base), {}, {}};
  }
  std::string title() const {
    const CaseView view = *workshop_->view(number_);
    const auto hums = std::find_if(view.symptoms.begin(), view.symptoms.end(),
                                   [](const auto& symptom) { return symptom.id == "hums"; });
    return hums->title;
  }

  std::unique_ptr<Workshop> workshop_ = open_workshop();
  std::int64_t number_ = start_lantern(*workshop_);
  std::optional<Result<LoadedKnowledge>> edit_;
};

TEST_F(EditedKnowledge, IsTakenUpByCasesThatAreOpen) {
  edit([](auto& base) { base.symptoms.front().title = "Hums like a hive"; });
  const auto taken = workshop_->take_up_edits();
  ASSERT_TRUE(taken.ok());
  EXPECT_TRUE(*taken);
  EXPECT_EQ(title(), "Hums like a hive");
  EXPECT_TRUE(workshop_->apply(number_, AddNote{"goes on"}).ok());
  EXPECT_FALSE(*workshop_->take_up_edits()) << "once each";
}

TEST_F(EditedKnowledge, ThatIsBrokenLeavesTheLastGoodInUse) {
  const std::string before = title();
  edit_ = Problem{"not JSON", {"symptoms/mine.json", 7, {}}, "}", "a comma"};
  const auto taken = workshop_->take_up_edits();
  ASSERT_FALSE(taken.ok());
  EXPECT_THAT(quantities::describe(taken.problems()), HasSubstr("symptoms/mine.json:7"));
  EXPECT_EQ(title(), before);
  EXPECT_TRUE(workshop_->undo(number_).ok());
  EXPECT_FALSE(*workshop_->take_up_edits()) << "said once, not once a second";
}

TEST_F(EditedKnowledge, WithoutTheEquipmentOfACaseSaysSoUntilItIsBack) {
  edit([](auto& base) { base.equipment.erase(base.equipment.begin()); });
  ASSERT_TRUE(workshop_->take_up_edits().ok());
  EXPECT_THAT(workshop_->view(number_)->figures.refused, HasSubstr("unknown equipment"));
  edit([](auto&) {});
  ASSERT_TRUE(workshop_->take_up_edits().ok());
  EXPECT_EQ(workshop_->view(number_)->figures.refused, "");
}

TEST(UnwatchedKnowledge, IsNeverNews) { EXPECT_FALSE(*open_workshop()->take_up_edits()); }

}  // namespace
}  // namespace dryout::casework
