// What would change: the answer is what really happens when it is then done, and asking writes
// nothing.
#include "casework/what_if.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "casework/invented_bench.h"
#include "casework/tables.h"
#include "casework/workshop.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

class WhatIf : public testing::Test {
 protected:
  void SetUp() override {
    TakeIn intake;
    intake.equipment = "lantern";
    number_ = *workshop_->start(intake);
    const CaseView fresh = *workshop_->view(number_);
    view_ = *workshop_->apply(number_, ReportSymptom{fresh.symptoms.front().id, Seen::yes});
    // What can hurt is not even thought through before its cautions were heeded.
    const CheckView check = view_.next.front();
    view_ = *workshop_->apply(number_, AcknowledgeCautions{check.check, check.place});
  }
  std::unique_ptr<Workshop> workshop_ = open_workshop(std::string(in_memory));
  std::int64_t number_ = 0;
  CaseView view_;
};

TEST_F(WhatIf, SaysBeforehandWhatComesAfterwards) {
  const auto heeded = std::find_if(view_.next.begin(), view_.next.end(),
                                   [](const CheckView& check) { return check.acknowledged; });
  ASSERT_NE(heeded, view_.next.end());
  const RecordOutcome outcome{heeded->check, heeded->place, Seen::yes, ""};
  const auto asked = workshop_->what_if(number_, {outcome});
  ASSERT_TRUE(asked.ok()) << quantities::describe(asked.problems());
  ASSERT_FALSE(asked->changes.empty());
  const CaseView then = *workshop_->apply(number_, outcome);
  EXPECT_EQ(asked->leading, then.leading.sentence);
  for (const WhatIfChange& change : asked->changes) {
    const auto suspect = std::find_if(then.suspects.begin(), then.suspects.end(),
                                      [&](const SuspectView& s) { return s.item == change.item; });
    ASSERT_NE(suspect, then.suspects.end());
    EXPECT_DOUBLE_EQ(change.then.value(), suspect->suspicion.value());
  }
}

TEST_F(WhatIf, OfAReadingSaysWhatItWouldBeWorth) {
  RecordReading reading;
  reading.item = "group:reservoirs";
  reading.value = 5.0;
  reading.limit = 0.2;
  reading.limit_source = "datasheet";
  const auto asked = workshop_->what_if(number_, {reading});
  ASSERT_TRUE(asked.ok()) << quantities::describe(asked.problems());
  const CaseView then = *workshop_->apply(number_, reading);
  ASSERT_EQ(then.readings.size(), 1U);
  EXPECT_EQ(asked->reading, then.readings.front().sentence);
}

TEST_F(WhatIf, WritesNothing) {
  const CheckView check = view_.next.front();
  const std::string before = *workshop_->export_case(number_);
  (void)workshop_->what_if(number_, {RecordOutcome{check.check, check.place, Seen::no, ""}});
  EXPECT_EQ(*workshop_->export_case(number_), before);
}

TEST_F(WhatIf, RefusesWhatCouldNotBeDone) {
  EXPECT_FALSE(workshop_->what_if(number_, {RecordOutcome{"no-such", "", Seen::yes, ""}}).ok());
  EXPECT_FALSE(workshop_->what_if(4711, {AddNote{"x"}}).ok());
}

TEST_F(WhatIf, OfNothingIsNothing) {
  const auto asked = workshop_->what_if(number_, {});
  ASSERT_TRUE(asked.ok());
  EXPECT_TRUE(asked->changes.empty());
  EXPECT_TRUE(asked->reading.empty());
}

TEST_F(WhatIf, TheTableOfSuspectsHasALineForEachAndTheSameCellsInAll) {
  const std::string table = suspects_table(view_);
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'),
            static_cast<std::ptrdiff_t>(view_.suspects.size() + 1));
  EXPECT_EQ(std::count(table.begin(), table.end(), '\t'),
            static_cast<std::ptrdiff_t>(7 * (view_.suspects.size() + 1)));
}

TEST(Tables, AreNotShiftedByATabInAName) {
  CaseView view;
  ReadingView reading;
  reading.item_title = "C1\t(left)\nrear";
  reading.shown = "2 \u03a9";
  view.readings.push_back(reading);
  const std::string table = readings_table(view);
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 2);
  EXPECT_EQ(std::count(table.begin(), table.end(), '\t'), 12);
  EXPECT_NE(table.find("C1 (left) rear"), std::string::npos);
}

TEST(Tables, TheShoppingListHasALineForEachPartAndSaysWhatFor) {
  ShoppingRow row;
  row.part = "4700 \u00b5F 63 V";
  row.needed = 2;
  row.spares = 1;
  row.for_parts = {"C12", "C13"};
  const std::string table = shopping_table({row});
  EXPECT_EQ(table.substr(0, table.find('\n')), "needed\tspare\tpart\tfor");
  EXPECT_NE(table.find("\n2\t1\t4700 \u00b5F 63 V\tC12, C13\n"), std::string::npos) << table;
}

}  // namespace
}  // namespace dryout::casework
