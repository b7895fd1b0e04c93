#include "casework/workshop.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "casework/every_command.h"
#include "casework/invented_bench.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::string export_of(const Workshop& workshop, std::int64_t number) {
  const auto text = workshop.export_case(number);
  EXPECT_TRUE(text.ok());
  return text ? *text : "";
}

std::string complaints(const quantities::Result<std::int64_t>& result) {
  return result ? "" : quantities::describe(result.problems());
}

TEST(Workshop, ANewCaseIsThereAfterOpeningAgain) {
  const dryout::tests::TemporaryFolder folder;
  const std::string store = folder.file("cases.db");
  const auto number = start_lantern(*open_workshop(store));
  const auto workshop = open_workshop(store);
  ASSERT_TRUE(workshop->view(number).ok());
  const auto cases = workshop->cases();
  ASSERT_EQ(cases->size(), 1U);
  EXPECT_EQ(cases->front().set_name, "Lantern 40");
  EXPECT_EQ(cases->front().equipment_title, "Lantern amplifier");
  EXPECT_EQ(cases->front().state, "open");
}

TEST(Workshop, RefusesAnIntakeThatMakesNoSense) {
  const auto workshop = open_workshop();
  EXPECT_THAT(complaints(workshop->start({"lanten", "x", {}, "", ""})),
              HasSubstr("did you mean \"lantern\"?"));
  EXPECT_THAT(complaints(workshop->start({"lantern", "x", 1600, "", ""})),
              HasSubstr("1900 to 2026"));
  EXPECT_THAT(complaints(workshop->start({"lantern", "x", 2030, "", ""})), HasSubstr("2030"));
  EXPECT_THAT(complaints(workshop->start({"lantern", "\xff", {}, "", ""})), HasSubstr("UTF-8"));
  EXPECT_THAT(*workshop->cases(), IsEmpty());
}

TEST(Workshop, EveryAlternativeIsAppliedUndoneAndRedone) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  for (const Command& command : every_command()) {
    const CaseView before = *workshop->view(number);
    const CaseView after = apply_ok(*workshop, number, command);
    EXPECT_TRUE(after.can_undo);
    const auto undone = workshop->undo(number);
    ASSERT_TRUE(undone.ok()) << quantities::describe(undone.problems());
    EXPECT_EQ(undone->leading.sentence, before.leading.sentence);
    EXPECT_TRUE(undone->log.back().undone);
    EXPECT_TRUE(undone->can_redo);
    const auto redone = workshop->redo(number);
    ASSERT_TRUE(redone.ok());
    EXPECT_EQ(redone->leading.sentence, after.leading.sentence);
    EXPECT_EQ(redone->log.back().text, after.log.back().text);
    EXPECT_FALSE(redone->log.back().undone);
    EXPECT_FALSE(redone->can_redo);
  }
}

TEST(Workshop, UndoingEverythingLeadsBackToTheIntake) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  const CaseView first = *workshop->view(number);
  for (const Command& command : every_command()) {
    apply_ok(*workshop, number, command);
  }
  const std::size_t steps = workshop->view(number)->log.size() - first.log.size();
  for (std::size_t i = 0; i < steps; ++i) {
    ASSERT_TRUE(workshop->undo(number).ok());
  }
  const CaseView last = *workshop->view(number);
  EXPECT_FALSE(last.can_undo);
  EXPECT_EQ(last.set_name, first.set_name);
  EXPECT_EQ(last.complaint, first.complaint);
  ASSERT_EQ(last.suspects.size(), first.suspects.size());
  for (std::size_t i = 0; i < first.suspects.size(); ++i) {
    EXPECT_EQ(last.suspects[i].item, first.suspects[i].item);
    EXPECT_EQ(last.suspects[i].suspicion, first.suspects[i].suspicion);
  }
  EXPECT_FALSE(workshop->undo(number).ok());
  for (std::size_t i = 0; i < steps; ++i) {
    ASSERT_TRUE(workshop->redo(number).ok());
  }
  EXPECT_FALSE(workshop->redo(number).ok());
}

TEST(Workshop, ARefusedCommandChangesNothing) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  const std::string before = export_of(*workshop, number);
  refusal(*workshop, number, ReportSymptom{"hmus", Seen::yes});
  refusal(*workshop, number, AddNote{""});
  EXPECT_EQ(export_of(*workshop, number), before);
}

TEST(Workshop, TakesBackAStepOutOfTheMiddle) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  apply_ok(*workshop, number, ReportSymptom{"hums", Seen::yes});
  const CaseView noted = apply_ok(*workshop, number, AddNote{"later"});
  const auto view = workshop->take_back(number, 2);
  ASSERT_TRUE(view.ok());
  EXPECT_TRUE(view->log[1].undone);
  EXPECT_FALSE(view->log[2].undone);
  EXPECT_EQ(noted.symptoms[0].seen, "yes");
  EXPECT_EQ(view->symptoms[0].seen, "");
  EXPECT_FALSE(workshop->take_back(number, 2).ok()) << "twice";
  EXPECT_FALSE(workshop->take_back(number, 1).ok()) << "the intake";
  EXPECT_FALSE(workshop->take_back(number, 77).ok());
}

TEST(Workshop, AStepOnWhichAnotherRestsStays) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  apply_ok(*workshop, number, AcknowledgeCautions{"ripple-on-rail", "raw"});
  apply_ok(*workshop, number, RecordOutcome{"ripple-on-rail", "raw", Seen::yes, ""});
  const auto refused = workshop->take_back(number, 2);
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(quantities::describe(refused.problems()), HasSubstr("step 3 stands in the way"));
}

TEST(Workshop, TheEquipmentCanBeCorrectedWhileEverythingToldStillMakesSense) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  apply_ok(*workshop, number, ReportSymptom{"hums", Seen::yes});
  EXPECT_EQ(apply_ok(*workshop, number, TakeIn{"pebble", "", {}, "", ""}).equipment, "pebble");
  apply_ok(*workshop, number, TakeIn{"lantern", "", {}, "", ""});
  apply_ok(*workshop, number, OpenAccess{"shield"});
  EXPECT_THAT(refusal(*workshop, number, TakeIn{"pebble", "", {}, "", ""}),
              HasSubstr("step 5 stands in the way: unknown thing to open"));
}

TEST(Workshop, ASecondWorkshopSeesAndAddsToTheSameCase) {
  const dryout::tests::TemporaryFolder folder;
  const auto here = open_workshop(folder.file("cases.db"));
  const auto there = open_workshop(folder.file("cases.db"));
  const auto number = start_lantern(*here);
  apply_ok(*here, number, AddNote{"here"});
  apply_ok(*there, number, AddNote{"there"});
  const CaseView view = apply_ok(*here, number, AddNote{"here again"});
  ASSERT_EQ(view.log.size(), 4U);
  EXPECT_EQ(view.log[2].text, "Note: there");
  EXPECT_EQ(there->view(number)->log.size(), 4U);
}

TEST(Workshop, DoesNotUndoWhatItsPersonHasNotSeen) {
  const dryout::tests::TemporaryFolder folder;
  const auto here = open_workshop(folder.file("cases.db"));
  const auto there = open_workshop(folder.file("cases.db"));
  const auto number = start_lantern(*here);
  apply_ok(*here, number, AddNote{"mine"});
  apply_ok(*there, number, AddNote{"theirs"});
  const auto refused = here->undo(number);
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(quantities::describe(refused.problems()), HasSubstr("changed by another program"));
  const auto undone = here->undo(number);
  ASSERT_TRUE(undone.ok()) << "once it has been shown, it may";
  EXPECT_TRUE(undone->log.back().undone);
}

TEST(Workshop, FindsACaseByWhatWasWrittenInIt) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  apply_ok(*workshop, number, AddNote{"Smells of resin near the mains switch"});
  EXPECT_EQ(workshop->search("resin switch")->size(), 1U);
  EXPECT_EQ(workshop->search("abel")->front().number, number);
  EXPECT_THAT(*workshop->search("bakelite"), IsEmpty());
}

TEST(Workshop, BackupIsAStoreOfItsOwn) {
  const dryout::tests::TemporaryFolder folder;
  const auto workshop = open_workshop(folder.file("cases.db"));
  const auto number = start_lantern(*workshop);
  ASSERT_TRUE(workshop->backup(folder.file("copy.db")).ok());
  EXPECT_TRUE(workshop->check_integrity().ok());
  EXPECT_EQ(export_of(*open_workshop(folder.file("copy.db")), number),
            export_of(*workshop, number));
}

TEST(Workshop, ACaseOfAnEquipmentThatIsGoneIsShownWithoutFigures) {
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  const auto number = start_lantern(*open_workshop(path));
  auto poorer = invented_knowledge();
  poorer.equipment.erase(poorer.equipment.begin());
  const auto workshop = Workshop::open(path, std::move(poorer), ticking_clock());
  ASSERT_TRUE(workshop.ok());
  const auto view = (*workshop)->view(number);
  ASSERT_TRUE(view.ok());
  ASSERT_FALSE(view->notices.empty());
  EXPECT_THAT(view->notices.front(), HasSubstr("unknown equipment; found \"lantern\""));
  EXPECT_EQ(view->log.size(), 1U);
  EXPECT_THAT(export_of(**workshop, number), Not(IsEmpty()));
  EXPECT_EQ((*workshop)->cases()->size(), 1U);
}

TEST(Workshop, WhatTheKnowledgeHasForgottenIsLeftOutAndSaid) {
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  std::int64_t number = 0;
  {
    const auto workshop = open_workshop(path);
    number = start_lantern(*workshop);
    apply_ok(*workshop, number, ReportSymptom{"hums", Seen::yes});
  }
  auto poorer = invented_knowledge();
  poorer.symptoms.erase(poorer.symptoms.begin());
  const auto workshop = Workshop::open(path, std::move(poorer), ticking_clock());
  const auto view = (*workshop)->view(number);
  ASSERT_TRUE(view.ok());
  ASSERT_EQ(view->notices.size(), 1U);
  EXPECT_THAT(view->notices.front(), HasSubstr("hums"));
}

/// A battery that died, a laptop that met a time server: what came later stays later.
TEST(Workshop, AClockThatJumpsBackLeavesTheOrderOfSteps) {
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  std::int64_t now = 1'772'614'800;
  const auto open = [&] {
    return *Workshop::open(path, invented_knowledge(), [&] { return now; });
  };
  const auto workshop = open();
  const auto number = start_lantern(*workshop);
  apply_ok(*workshop, number, AddNote{"first"});
  now -= 50'000'000;
  apply_ok(*workshop, number, AddNote{"second"});
  now = 0;
  const CaseView view = apply_ok(*workshop, number, AddNote{"third"});
  const auto reopened = open()->view(number);
  ASSERT_TRUE(reopened.ok()) << quantities::describe(reopened.problems());
  ASSERT_EQ(view.log.size(), 4U);
  for (const CaseView& each : {view, *reopened}) {
    EXPECT_THAT(each.log[1].text, HasSubstr("first"));
    EXPECT_THAT(each.log[2].text, HasSubstr("second"));
    EXPECT_THAT(each.log[3].text, HasSubstr("third"));
  }
  const auto undone = workshop->undo(number);
  ASSERT_TRUE(undone.ok());
  EXPECT_TRUE(undone->log[3].undone) << "the newest step is the one written last";
  const auto elsewhere = open_workshop();
  EXPECT_TRUE(elsewhere->import_case(*workshop->export_case(number), "x.json").ok());
  EXPECT_TRUE(workshop->check_integrity().ok());
}

TEST(Workshop, NoStepHasANumberBelowOne) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  const auto taken = workshop->take_back(number, 0);
  ASSERT_FALSE(taken.ok());
  EXPECT_THAT(quantities::describe(taken.problems()), HasSubstr("the number of a step"));
}

TEST(Workshop, RestoringABackupBringsItsCasesBackAndKeepsWhatStoodThere) {
  const dryout::tests::TemporaryFolder folder;
  const std::string store = folder.file("cases.db");
  const std::string copy = folder.file("copy.db");
  std::string then;
  {
    const auto workshop = open_workshop(store);
    const auto number = start_lantern(*workshop);
    then = export_of(*workshop, number);
    ASSERT_TRUE(workshop->backup(copy).ok());
    apply_ok(*workshop, number, AddNote{"after the backup"});
  }
  const auto kept = Workshop::restore(copy, store);
  ASSERT_TRUE(kept.ok()) << quantities::describe(kept.problems());
  EXPECT_TRUE(std::filesystem::exists(*kept));
  EXPECT_EQ(export_of(*open_workshop(store), 1), then);
}

TEST(Workshop, ListsMadeAnewAreTheListsThatWereThere) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  apply_ok(*workshop, number, AddNote{"a burnt smell"});
  ASSERT_TRUE(workshop->rebuild_facts().ok());
  const auto found = workshop->search("burnt");
  ASSERT_TRUE(found.ok());
  ASSERT_EQ(found->size(), 1U);
  EXPECT_EQ(found->front().number, number);
  EXPECT_TRUE(workshop->check_integrity().ok());
}

TEST(Workshop, RefusesACaseThatIsNotThere) {
  const auto workshop = open_workshop();
  EXPECT_FALSE(workshop->view(3).ok());
  EXPECT_FALSE(workshop->apply(3, AddNote{"x"}).ok());
  EXPECT_FALSE(workshop->undo(3).ok());
  EXPECT_FALSE(workshop->export_case(3).ok());
}

}  // namespace
}  // namespace dryout::casework
