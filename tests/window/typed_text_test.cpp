// What was typed is kept until its step is acknowledged: where it is refused, where the store is
// held by another program, and over the end of the window.
#include "window/typed_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>

#include "app/knowledge_watch.h"
#include "temporary_folder.h"
#include "window/attend.h"
#include "window/sample.h"

namespace dryout::window {
namespace {

using casework::TypedText;
using testing::HasSubstr;

TEST(TypedText, OfEveryStepIsSeenAndPutBack) {
  Desk desk = desk_with(sample_case());
  EXPECT_TRUE(typed_text(desk).empty());
  desk.log.note = "a note";
  desk.mend.fitted = "47 uF";
  desk.hand_over.remark = "clean";
  desk.probe.reading.figure = "0,4";
  desk.probe.typed_for = "";
  desk.readings.form.figure = "OL";
  const TypedText typed = typed_text(desk);
  EXPECT_EQ(typed.size(), 5U);
  desk.log.note.clear();
  desk.probe.reading.figure.clear();
  put_back(desk, typed);
  EXPECT_EQ(desk.log.note, "a note");
  EXPECT_EQ(desk.probe.reading.figure, "0,4");
  EXPECT_TRUE(desk.readings.adding);
}

TEST(TypedText, AlimitThatStaysIsNoDraftToTellOf) {
  EXPECT_FALSE(has_unentered({{"readings/form/limit", "0.5"}, {"readings/make", "Orbrin"}}));
  EXPECT_TRUE(has_unentered({{"log/note", "x"}}));
}

TEST(TypedText, BelongsToItsCheck) {
  ProbeState state;
  casework::CheckView esr;
  esr.check = "esr-in-circuit";
  esr.place = "C802";
  casework::CheckView capacitance;
  capacitance.check = "capacitance-in-circuit";
  capacitance.place = "C802";
  turn_to_check(state, &esr);
  state.reading.figure = "0,77";
  state.reading.limit = "0.46";
  turn_to_check(state, &capacitance);
  EXPECT_EQ(state.reading.figure, "") << "0.77 ohm is no 0.77 F";
  EXPECT_EQ(state.reading.limit, "");
  state.remark = "warm";
  turn_to_check(state, nullptr);
  turn_to_check(state, &esr);
  EXPECT_EQ(state.reading.figure, "0,77");
  EXPECT_EQ(state.reading.limit, "0.46");
  EXPECT_EQ(state.remark, "");
}

TEST(TypedText, OfACheckThatIsNoLongerInHandWaitsThere) {
  Desk desk = desk_with(sample_case());
  desk.probe.typed_for = "another@place";
  desk.probe.reading.figure = "0.4";
  const TypedText typed = typed_text(desk);
  Desk again = desk_with(sample_case());
  put_back(again, typed);
  turn_to_check(again.probe, check_in_hand(*again.open_case, again.probe));
  EXPECT_EQ(again.probe.reading.figure, "");
  EXPECT_EQ(again.probe.typed_at.at("another@place").figure, "0.4");
}

TEST(TypedText, BelongsToItsCase) {
  Desk desk = desk_with(sample_case());
  desk.log.note = "half a sentence";
  EXPECT_TRUE(keep_drafts(desk));
  EXPECT_FALSE(keep_drafts(desk)) << "nothing new";
  EXPECT_EQ(desk.drafts.at(desk.open_case->number).at("log/note"), "half a sentence");
  desk.log.note.clear();
  EXPECT_TRUE(keep_drafts(desk));
  EXPECT_TRUE(desk.drafts.empty());
}

TEST(Drafts, AreReadAsTheyWereWritten) {
  casework::Drafts drafts;
  drafts.store = "cases.db";
  drafts.closed = true;
  drafts.of_case[7] = {{"log/note", "\"quoted\"\n\u00b5F"}};
  drafts.of_case[0] = {{"intake/set", "Tarnbeck 614"}};
  const auto again = casework::drafts_of(casework::drafts_text(drafts));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, drafts);
  EXPECT_FALSE(casework::drafts_of("").ok());
  EXPECT_FALSE(casework::drafts_of("{\"closed\":false,\"cases\":{\"x\":{}}}").ok());
}

/// A desk on a store that lies on the disk.
class DeskOnAStore : public testing::Test {
 protected:
  void SetUp() override {
    auto knowledge = app::load_all_knowledge({DRYOUT_SOURCE_DIR});
    ASSERT_TRUE(knowledge.ok());
    auto opened = casework::Workshop::open(
        store_, knowledge->base, [] { return std::int64_t{1'772'614'800}; }, knowledge->readings,
        knowledge->mending);
    ASSERT_TRUE(opened.ok());
    workshop_ = std::move(*opened);
    const auto number = workshop_->start({"stereo-receiver", "Tarnbeck 614", 1976, "", "hums"});
    ASSERT_TRUE(number.ok());
    bench_ = std::make_unique<Bench>(Bench{*workshop_});
    ASSERT_TRUE(lay_desk(*workshop_, desk_, *number).ok());
    workshop_->wait_for_store_at_most(std::chrono::milliseconds(20));
  }
  /// The step as a page sends it: the field is emptied at once.
  void note(const std::string& text) {
    desk_.log.note = text;
    desk_.typed = typed_text(desk_);
    queue_.push(casework::AddNote{std::exchange(desk_.log.note, {})});
    (void)attend(*bench_, desk_, queue_);
  }
  void hold_store() {
    ASSERT_EQ(sqlite3_open(store_.c_str(), &other_), SQLITE_OK);
    ASSERT_EQ(sqlite3_exec(other_, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
  }
  void let_go() {
    sqlite3_exec(other_, "ROLLBACK", nullptr, nullptr, nullptr);
    sqlite3_close(other_);
    other_ = nullptr;
  }
  void TearDown() override {
    if (other_ != nullptr) {
      let_go();
    }
  }
  [[nodiscard]] std::size_t steps() const { return desk_.open_case->log.size(); }

  tests::TemporaryFolder folder_;
  std::string store_ = folder_.file("cases.db");
  std::unique_ptr<casework::Workshop> workshop_;
  std::unique_ptr<Bench> bench_;
  Desk desk_;
  CommandQueue queue_;
  sqlite3* other_ = nullptr;
};

TEST_F(DeskOnAStore, ARefusedStepGivesBackWhatWasTyped) {
  desk_.readings.form.item = "no such part";
  desk_.readings.form.figure = "0.61";
  desk_.typed = typed_text(desk_);
  casework::RecordReading reading;
  reading.item = "no such part";
  reading.value = 0.61;
  desk_.readings.form.figure.clear();
  desk_.readings.form.item = "no such paru";
  queue_.push(reading);
  (void)attend(*bench_, desk_, queue_);
  EXPECT_TRUE(desk_.word_is_refusal);
  EXPECT_EQ(desk_.readings.form.figure, "0.61");
  EXPECT_EQ(desk_.readings.form.item, "no such part");
}

TEST_F(DeskOnAStore, AStepWaitsForAStoreThatIsHeldAndIsThenEnteredOnce) {
  const std::size_t before = steps();
  hold_store();
  note("the fuse was open");
  EXPECT_EQ(desk_.waiting.size(), 1U);
  EXPECT_THAT(desk_.word, HasSubstr("waits"));
  EXPECT_EQ(desk_.log.note, "the fuse was open") << "it stands in its field meanwhile";
  try_waiting(*bench_, desk_);
  EXPECT_EQ(desk_.waiting.size(), 1U) << "still held";
  let_go();
  try_waiting(*bench_, desk_);
  EXPECT_TRUE(desk_.waiting.empty());
  EXPECT_EQ(steps(), before + 1);
  EXPECT_EQ(desk_.log.note, "");
  try_waiting(*bench_, desk_);
  EXPECT_EQ(steps(), before + 1);
}

TEST_F(DeskOnAStore, EnterPressedAgainWhileAStepWaitsStoresNothingTwice) {
  const std::size_t before = steps();
  hold_store();
  note("4.7");
  note("4.7");
  note("4.712");
  EXPECT_EQ(desk_.waiting.size(), 1U);
  EXPECT_EQ(desk_.log.note, "4.712");
  let_go();
  try_waiting(*bench_, desk_);
  EXPECT_EQ(steps(), before + 1);
  EXPECT_EQ(desk_.log.note, "4.712") << "not entered: it stands in its field";
}

TEST_F(DeskOnAStore, ADraftOfAnotherSetUnderTheSameNumberIsNotPutBack) {
  const std::int64_t number = desk_.open_case->number;
  desk_.drafts[number] = {{"log/note", "C7 of Beta"}, {"set", "stereo-receiver\nBeta\nlong ago"}};
  queue_.push(OpenCase{number});
  (void)attend(*bench_, desk_, queue_);
  EXPECT_EQ(desk_.log.note, "");
}

TEST_F(DeskOnAStore, WhatIsTypedWhileAStepWaitsIsNotSweptAway) {
  hold_store();
  note("first");
  desk_.log.note = "first, and more";
  try_waiting(*bench_, desk_);
  EXPECT_EQ(desk_.log.note, "first, and more");
  let_go();
  try_waiting(*bench_, desk_);
  EXPECT_TRUE(desk_.waiting.empty());
  EXPECT_EQ(desk_.log.note, "first, and more");
}

TEST_F(DeskOnAStore, HearsThatAnotherProgramWrote) {
  (void)workshop_->others_wrote();
  EXPECT_FALSE(workshop_->others_wrote());
  note("my own");
  EXPECT_FALSE(workshop_->others_wrote()) << "what it wrote itself is no news";
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open(store_.c_str(), &other), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(other, "CREATE TABLE somebody_elses (a)", nullptr, nullptr, nullptr),
            SQLITE_OK);
  sqlite3_close(other);
  EXPECT_TRUE(workshop_->others_wrote());
  EXPECT_FALSE(workshop_->others_wrote());
}

TEST_F(DeskOnAStore, AnotherCaseHasAnotherDraft) {
  desk_.log.note = "half a sentence";
  (void)keep_drafts(desk_);
  const auto other = workshop_->start({"vhf-mobile", "another", 1990, "", ""});
  ASSERT_TRUE(other.ok());
  const std::int64_t first = desk_.open_case->number;
  queue_.push(OpenCase{*other});
  (void)attend(*bench_, desk_, queue_);
  EXPECT_EQ(desk_.log.note, "");
  (void)keep_drafts(desk_);
  queue_.push(OpenCase{first});
  (void)attend(*bench_, desk_, queue_);
  EXPECT_EQ(desk_.log.note, "half a sentence");
  EXPECT_THAT(desk_.word, HasSubstr("not entered"));
}

}  // namespace
}  // namespace dryout::window
