// A workshop that holds what the store no longer has: after a backup came back, another store was
// put in its place, or it was deleted. It is noticed at the next step and told in a sentence; what
// is shown is what is there, and no step is acknowledged into nothing.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "casestore/database.h"
#include "casework/invented_bench.h"
#include "casework/workshop.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

namespace fs = std::filesystem;
using namespace tests;  // NOLINT: the invented bench
using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

class StaleWorkshop : public testing::Test {
 protected:
  void SetUp() override {
    number_ = start_lantern(*open_);
    apply_ok(*open_, number_, AddNote{"before the backup"});
    ASSERT_TRUE(open_->backup(backup_).ok());
    apply_ok(*open_, number_, AddNote{"walnut cabinet"});
    apply_ok(*open_, number_, AddNote{"second later note"});
  }
  void remove_store() const {
    for (const char* suffix : {"", "-wal", "-shm"}) {
      fs::remove(path_ + suffix);
    }
  }
  /// What is in the store, told by a workshop that has just opened it.
  std::string log_now() const {
    std::string all;
    const auto view = open_workshop(path_)->view(number_);
    EXPECT_TRUE(view.ok());
    for (const LogLine& line : view->log) {
      all += line.text + '\n';
    }
    return all;
  }
  void damage(const std::string& sql) const {
    const auto database = casestore::Database::open(path_);
    ASSERT_TRUE((*database)->run(sql).ok());
  }

  dryout::tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  std::string backup_ = folder_.file("backup.db");
  std::unique_ptr<Workshop> open_ = open_workshop(path_);
  std::int64_t number_ = 0;
};

TEST_F(StaleWorkshop, AfterARestoreTheNextStepIsToldAndNotWritten) {
  ASSERT_TRUE(Workshop::restore(backup_, path_).ok());
  const std::string said = refusal(*open_, number_, AddNote{"on thin ice"});
  EXPECT_THAT(said, AllOf(HasSubstr("what was shown of this case is not what the store has"),
                          HasSubstr("steps 3 to 4 of it are no longer there"),
                          HasSubstr("nothing was written")));
  EXPECT_THAT(log_now(), AllOf(HasSubstr("before the backup"), Not(HasSubstr("walnut")),
                               Not(HasSubstr("thin ice"))));
  // Shown anew, it goes on.
  EXPECT_THAT(open_->view(number_)->log, SizeIs(2));
  apply_ok(*open_, number_, AddNote{"on firm ground"});
  EXPECT_THAT(log_now(), HasSubstr("on firm ground"));
  EXPECT_TRUE(open_->check_integrity().ok());
  EXPECT_THAT(*open_->search("walnut"), IsEmpty());
  EXPECT_THAT(*open_->search("firm"), SizeIs(1));
}

TEST_F(StaleWorkshop, AfterARestoreTheViewShowsWhatIsThereAndSaysSo) {
  ASSERT_TRUE(Workshop::restore(backup_, path_).ok());
  const auto view = open_->view(number_);
  ASSERT_TRUE(view.ok());
  EXPECT_THAT(view->log, SizeIs(2));
  EXPECT_THAT(view->notices, Contains(HasSubstr("steps 3 to 4 of it are no longer there")));
  // It was told; the next step is taken, and then it is told no more.
  apply_ok(*open_, number_, AddNote{"next"});
  EXPECT_THAT(open_->view(number_)->notices, Not(Contains(HasSubstr("no longer there"))));
}

TEST_F(StaleWorkshop, UndoAfterARestoreTakesNothingBackThatNobodySaw) {
  ASSERT_TRUE(Workshop::restore(backup_, path_).ok());
  const auto undone = open_->undo(number_);
  ASSERT_FALSE(undone.ok());
  EXPECT_THAT(quantities::describe(undone.problems()), HasSubstr("nothing was written"));
  EXPECT_THAT(log_now(), HasSubstr("before the backup"));
}

TEST_F(StaleWorkshop, WhereAsManyOtherStepsStandInTheirPlaceItIsNoticedToo) {
  ASSERT_TRUE(Workshop::restore(backup_, path_).ok());
  const auto other = open_workshop(path_);
  apply_ok(*other, number_, AddNote{"another third"});
  apply_ok(*other, number_, AddNote{"another fourth"});
  EXPECT_THAT(refusal(*open_, number_, AddNote{"on thin ice"}),
              HasSubstr("steps 3 to 4 of it are no longer there, steps 3 to 4 are new"));
  EXPECT_THAT(log_now(), Not(HasSubstr("thin ice")));
}

TEST_F(StaleWorkshop, ACaseThatTheRestoreLeftAsItWasGoesOn) {
  const auto second = start_lantern(*open_);
  ASSERT_TRUE(open_->backup(folder_.file("later.db")).ok());
  apply_ok(*open_, number_, AddNote{"after it"});
  ASSERT_TRUE(Workshop::restore(folder_.file("later.db"), path_).ok());
  const CaseView view = apply_ok(*open_, second, AddNote{"goes on"});
  EXPECT_EQ(view.log.back().text, "Note: goes on");
}

TEST_F(StaleWorkshop, ACaseThatTheBackupDoesNotHaveIsToldByItsNumber) {
  const auto second = start_lantern(*open_);
  ASSERT_TRUE(Workshop::restore(backup_, path_).ok());
  EXPECT_THAT(refusal(*open_, second, AddNote{"where to?"}), HasSubstr("no such case"));
}

TEST_F(StaleWorkshop, AStoreThatWasDeletedIsSavedBesideAndNothingIsAcknowledged) {
  remove_store();
  const std::string said = refusal(*open_, number_, AddNote{"into nothing"});
  EXPECT_THAT(said, AllOf(HasSubstr("the case store is no longer where it was opened"),
                          HasSubstr(path_ + ".was-open"), HasSubstr("dryout case restore")));
  EXPECT_FALSE(open_->view(number_).ok());
  EXPECT_FALSE(open_->cases().ok());
  EXPECT_FALSE(fs::exists(path_)) << "no empty store is made in its place";
  EXPECT_FALSE(fs::exists(path_ + ".was-open-2")) << "saved once";
  // The way back, under the same window.
  ASSERT_TRUE(Workshop::restore(path_ + ".was-open", path_).ok());
  apply_ok(*open_, number_, AddNote{"back again"});
  EXPECT_THAT(log_now(), AllOf(HasSubstr("walnut"), HasSubstr("back again")));
}

TEST_F(StaleWorkshop, AStoreThatWasReplacedIsWorkedOnAsItIs) {
  fs::copy_file(backup_, folder_.file("other.db"));
  fs::rename(folder_.file("other.db"), path_);
  for (const char* suffix : {"-wal", "-shm"}) {
    fs::remove(path_ + suffix);
  }
  EXPECT_THAT(refusal(*open_, number_, AddNote{"into nothing"}),
              HasSubstr("steps 3 to 4 of it are no longer there"));
  apply_ok(*open_, number_, AddNote{"into the new one"});
  EXPECT_THAT(log_now(), AllOf(HasSubstr("into the new one"), Not(HasSubstr("walnut"))));
}

TEST_F(StaleWorkshop, WhereTheLogAloneWasDeletedNoStepIsLost) {
  fs::remove(path_ + "-wal");
  apply_ok(*open_, number_, AddNote{"after the log"});
  EXPECT_THAT(log_now(), AllOf(HasSubstr("walnut"), HasSubstr("second later note"),
                               HasSubstr("after the log")));
  EXPECT_TRUE(open_->check_integrity().ok());
}

TEST_F(StaleWorkshop, ADamagedStepCostsThatStep) {
  open_.reset();
  damage("UPDATE event SET body = replace(body, 'walnut', 'walnur') WHERE sequence = 3");
  const auto workshop = open_workshop(path_);
  const auto view = workshop->view(number_);
  ASSERT_TRUE(view.ok()) << quantities::describe(view.problems());
  EXPECT_THAT(view->log, SizeIs(3));
  EXPECT_THAT(view->notices, Contains(HasSubstr("Step 3 is damaged in the case store")));
  const CaseView next = apply_ok(*workshop, number_, AddNote{"goes on"});
  EXPECT_EQ(next.log.back().event, 5);
  EXPECT_TRUE(workshop->undo(number_).ok());
  EXPECT_FALSE(workshop->check_integrity().ok());
  EXPECT_FALSE(workshop->export_case(number_).ok());
  LeftOut left_out;
  ASSERT_TRUE(workshop->export_all(&left_out).ok());
  EXPECT_THAT(left_out, testing::ElementsAre(HasSubstr("step 3")));
}

TEST_F(StaleWorkshop, ADamagedIntakePointsToTheWaysThatAreLeft) {
  open_.reset();
  damage("UPDATE event SET body = '{}' WHERE sequence = 1");
  const auto view = open_workshop(path_)->view(number_);
  ASSERT_FALSE(view.ok());
  EXPECT_THAT(quantities::describe(view.problems()),
              AllOf(HasSubstr("the intake of this case is damaged"), HasSubstr("case log"),
                    HasSubstr("case rescue")));
}

TEST_F(StaleWorkshop, WordsOfABeforeInTheListAreFoundByTheCheck) {
  open_.reset();
  const std::string ghost = "UPDATE bench_case SET notes = notes || char(10) || 'ghost';";
  damage(ghost + "INSERT INTO case_text (case_text) VALUES ('rebuild')");
  const auto workshop = open_workshop(path_);
  const auto checked = workshop->check_integrity();
  ASSERT_FALSE(checked.ok());
  EXPECT_THAT(quantities::describe(checked.problems()), HasSubstr("other words than its steps"));
  ASSERT_TRUE(workshop->rebuild_facts().ok());
  EXPECT_TRUE(workshop->check_integrity().ok());
  damage(ghost);  // the index no longer goes with it either
  EXPECT_FALSE(workshop->check_integrity().ok());
  ASSERT_TRUE(workshop->rebuild_facts().ok());
  EXPECT_TRUE(workshop->check_integrity().ok());
}

}  // namespace
}  // namespace dryout::casework
