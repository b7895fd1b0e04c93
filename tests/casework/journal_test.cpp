#include "casework/journal.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/case_state.h"

namespace dryout::casework {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

Journal journal_of_acts(const std::vector<std::variant<Command, Undo, Redo>>& acts) {
  Journal journal;
  for (const auto& act : acts) {
    const int sequence = static_cast<int>(journal.size()) + 1;
    journal.push_back({sequence, 100 + sequence, act});
  }
  return journal;
}

std::vector<int> in_force(const Journal& journal) {
  std::vector<int> sequences;
  for (const Entry* entry : standing_of(journal).in_force) {
    sequences.push_back(entry->sequence);
  }
  return sequences;
}

Command note(const std::string& text) { return AddNote{text}; }

TEST(Standing, TheIntakeCannotBeTakenBack) {
  const Journal journal = journal_of_acts({Command(TakeIn{})});
  EXPECT_FALSE(standing_of(journal).undo);
  EXPECT_FALSE(may_follow(standing_of(journal), {2, 0, Undo{1}}));
}

TEST(Standing, UndoAndRedoGoBackAndForth) {
  Journal journal = journal_of_acts({Command(TakeIn{}), note("a"), note("b"), Undo{3}, Undo{2}});
  EXPECT_THAT(in_force(journal), ElementsAre(1));
  EXPECT_EQ(standing_of(journal).redo, 2);
  journal.push_back({6, 0, Redo{2}});
  EXPECT_THAT(in_force(journal), ElementsAre(1, 2));
  EXPECT_EQ(standing_of(journal).redo, 3);
  journal.push_back({7, 0, Redo{3}});
  EXPECT_THAT(in_force(journal), ElementsAre(1, 2, 3));
  EXPECT_FALSE(standing_of(journal).redo);
  EXPECT_EQ(standing_of(journal).undo, 3);
}

TEST(Standing, ANewCommandEndsWhatCouldBeBroughtBack) {
  const Journal journal = journal_of_acts({Command(TakeIn{}), note("a"), Undo{2}, note("b")});
  EXPECT_THAT(in_force(journal), ElementsAre(1, 4));
  EXPECT_FALSE(standing_of(journal).redo);
}

TEST(Standing, AStepTakenOutOfTheMiddleComesBackInItsPlace) {
  Journal journal = journal_of_acts({Command(TakeIn{}), note("a"), note("b"), Undo{2}});
  EXPECT_THAT(in_force(journal), ElementsAre(1, 3));
  journal.push_back({5, 0, Redo{2}});
  EXPECT_THAT(in_force(journal), ElementsAre(1, 2, 3));
}

TEST(Standing, OnlyWhatIsInForceCanBeTakenBack) {
  const Journal journal = journal_of_acts({Command(TakeIn{}), note("a"), note("b"), Undo{3}});
  const Standing standing = standing_of(journal);
  EXPECT_TRUE(may_follow(standing, {5, 0, Undo{2}}));
  EXPECT_FALSE(may_follow(standing, {5, 0, Undo{3}})) << "already taken back";
  EXPECT_FALSE(may_follow(standing, {5, 0, Undo{4}})) << "an undo is no step";
  EXPECT_FALSE(may_follow(standing, {5, 0, Undo{99}}));
  EXPECT_FALSE(may_follow(standing, {5, 0, Redo{2}}));
}

TEST(Journal, GoesThroughTheStoreUnchanged) {
  const Journal journal = journal_of_acts(
      {Command(TakeIn{"lantern", "x", 1980, "o", "c"}), note("Ω"), Undo{2}, Redo{2}});
  std::vector<casestore::EventRow> rows;
  for (const Entry& entry : journal) {
    const auto event = to_event(entry);
    rows.push_back({entry.sequence, event.at, event.kind, event.body});
  }
  EXPECT_EQ(rows[1].kind, "note");
  EXPECT_EQ(rows[2].kind, "undo");
  const auto back = journal_of(rows, "cases.db");
  ASSERT_TRUE(back.ok());
  for (std::size_t i = 0; i < journal.size(); ++i) {
    EXPECT_EQ(to_event((*back)[i]).body, rows[i].body);
    EXPECT_EQ((*back)[i].at, journal[i].at);
  }
}

TEST(Journal, NamesTheEventThatCannotBeRead) {
  const std::vector<casestore::EventRow> rows{{1, 5, "note", R"({"do":"note","text":"a"})"},
                                              {2, 6, "dance", R"({"do":"dance"})"}};
  EXPECT_THAT(quantities::describe(journal_of(rows, "cases.db").problems()),
              HasSubstr("cases.db, event 2"));
}

TEST(CaseState, TheNewestOutcomeOfACheckAtAPlaceCounts) {
  CaseState state;
  fold(state, 1, 10, TakeIn{});
  fold(state, 2, 11, RecordOutcome{"ripple", "raw", Seen::yes, ""});
  fold(state, 3, 12, RecordOutcome{"ripple", "high", Seen::no, ""});
  fold(state, 4, 13, RecordOutcome{"ripple", "raw", Seen::no, ""});
  ASSERT_EQ(state.outcomes.size(), 2U);
  EXPECT_EQ(state.outcomes.back().event, 4);
  EXPECT_EQ(state.outcomes.back().what.bad, Seen::no);
  fold(state, 5, 14, RecordOutcome{"ripple", "raw", Seen::unclear, ""});
  ASSERT_EQ(state.outcomes.size(), 1U) << "unclear withdraws";
  EXPECT_EQ(state.outcomes.back().what.place, "high");
}

TEST(CaseState, WhatIsSeenAfterARepairStandsBesideWhatWasSeenBefore) {
  CaseState state;
  fold(state, 1, 10, TakeIn{});
  fold(state, 2, 11, RecordOutcome{"ripple", "raw", Seen::yes, ""});
  fold(state, 3, 12, RecordRepair{"group:reservoirs", "replaced", ""});
  fold(state, 4, 13, RecordOutcome{"ripple", "raw", Seen::no, ""});
  ASSERT_EQ(state.outcomes.size(), 2U);
  EXPECT_EQ(state.outcomes[0].repairs, 0U);
  EXPECT_EQ(state.outcomes[1].repairs, 1U);
}

TEST(CaseState, ACorrectionKeepsWhatItLeavesEmpty) {
  CaseState state;
  fold(state, 1, 10, TakeIn{"lantern", "Lantern", 1981, "Abel", "hums"});
  fold(state, 2, 20, TakeIn{"", "Lantern S", {}, "", ""});
  EXPECT_EQ(state.intake.equipment, "lantern");
  EXPECT_EQ(state.intake.set_name, "Lantern S");
  EXPECT_EQ(state.intake.year_built, 1981);
  EXPECT_EQ(state.opened_at, 10);
}

}  // namespace
}  // namespace dryout::casework
