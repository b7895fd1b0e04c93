// Steps and cases that are missing, foreign or of another store are noticed: when the case is read,
// when the next step is written, or when the store is checked.
#include "casestore/chain.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/file_bytes.h"
#include "casestore/salvage.h"
#include "casestore/seal.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Chain : public testing::Test {
 protected:
  /// Three cases, of 4 steps each.
  void SetUp() override {
    auto store = CaseStore::open(path_);
    for (int i = 1; i <= 3; ++i) {
      const auto number = store->create_case({}, {{1, "take-in", "{}"}});
      for (int seen = 1; seen < 4; ++seen) {
        ASSERT_EQ(*store->append_event(*number, seen, {seen + 1, "add-note", note(seen + 1)}, {}),
                  Appended::written);
      }
    }
    ASSERT_TRUE(store->check_integrity().ok());
    ASSERT_TRUE(store->backup(backup_).ok());
  }
  static std::string note(int step) { return "note " + std::to_string(step); }

  void tamper(const std::string& sql) const {
    const auto database = Database::open(path_);
    ASSERT_TRUE(offer_seals(**database).ok());
    const auto done = (*database)->run(sql);
    ASSERT_TRUE(done.ok()) << quantities::describe(done.problems());
  }
  std::string said_by_check() const {
    const auto checked = CaseStore::open(path_)->check_integrity();
    return checked ? "" : quantities::describe(checked.problems());
  }
  CaseJournal journal(std::int64_t number) const {
    return *CaseStore::open(path_)->journal(number);
  }

  tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  std::string backup_ = folder_.file("backup.db");
};

TEST_F(Chain, ALastStepThatWasTakenOutIsMissed) {
  tamper("DELETE FROM event WHERE bench_case = 2 AND sequence = 4");
  EXPECT_THAT(said_by_check(), HasSubstr("case 2, step 4"));
  EXPECT_THAT(journal(2).damaged, ElementsAre(4));
  EXPECT_THAT(journal(2).events, SizeIs(3));
  EXPECT_THAT(journal(1).damaged, IsEmpty());
  EXPECT_FALSE(CaseStore::open(path_)->events(2).ok());
}

TEST_F(Chain, TheNextStepDoesNotTakeThePlaceOfAMissingOne) {
  tamper("DELETE FROM event WHERE bench_case = 2 AND sequence = 4");
  auto store = CaseStore::open(path_);
  const Seen seen = store->journal(2)->seen;
  EXPECT_EQ(seen.steps, 4);
  EXPECT_EQ(*store->append_event(2, seen, {9, "add-note", "next"}, {}), Appended::written);
  EXPECT_THAT(journal(2).damaged, ElementsAre(4));
  EXPECT_EQ(journal(2).events.back().sequence, 5);
}

TEST_F(Chain, AMiddleStepThatWasTakenOutCostsThatStepAlone) {
  tamper("DELETE FROM event WHERE bench_case = 2 AND sequence = 2");
  EXPECT_THAT(said_by_check(), HasSubstr("case 2, step 2"));
  EXPECT_THAT(journal(2).damaged, ElementsAre(2));
  EXPECT_THAT(journal(2).events, SizeIs(3));
}

/// Sealed anew, so that the seal alone would not tell.
TEST_F(Chain, AStepThatWasReplacedIsNotTheOneThatWasWritten) {
  for (const int step : {1, 2, 4}) {
    const std::string number = std::to_string(step);
    tamper(
        "UPDATE event SET body = 'other', seal = seal_of(bench_case, sequence, at, kind, "
        "'other') WHERE bench_case = 1 AND sequence = " +
        number);
    EXPECT_THAT(said_by_check(), HasSubstr("case 1, step " + number));
    EXPECT_THAT(journal(1).damaged, ElementsAre(step));
    ASSERT_TRUE(CaseStore::restore(backup_, path_).ok());
  }
}

TEST_F(Chain, ACaseThatWasTakenOutIsMissed) {
  tamper("DELETE FROM event WHERE bench_case = 3; DELETE FROM bench_case WHERE number = 3");
  EXPECT_THAT(said_by_check(), HasSubstr("a case is missing"));
  EXPECT_THAT(said_by_check(), HasSubstr("case 3, which had 4 steps"));
  const auto read = CaseStore::open(path_)->events(3);
  ASSERT_FALSE(read.ok());
  EXPECT_THAT(quantities::describe(read.problems()), HasSubstr("case 3, which had 4 steps"));
}

TEST_F(Chain, ACaseWhoseLineWasDeletedByHandIsToldInASentence) {
  tamper("PRAGMA foreign_keys=off; DELETE FROM bench_case WHERE number = 2");
  auto store = CaseStore::open(path_);
  const auto refused = store->append_event(2, store->journal(2)->seen, {9, "note", "{}"}, {});
  ASSERT_FALSE(refused.ok());
  const std::string told = quantities::describe(refused.problems());
  EXPECT_THAT(told, HasSubstr("missing from the list of cases"));
  EXPECT_THAT(told, HasSubstr("case 2"));
  EXPECT_EQ(told.find("FOREIGN"), std::string::npos);
  EXPECT_THAT(said_by_check(), HasSubstr("case 2"));
}

TEST_F(Chain, NothingIsWrittenBehindAStepBeyondTheRecord) {
  tamper("UPDATE case_head SET steps = 3 WHERE bench_case = 2");
  auto store = CaseStore::open(path_);
  const auto refused = store->append_event(2, store->journal(2)->seen, {9, "note", "{}"}, {});
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(quantities::describe(refused.problems()), HasSubstr("case 2, step 4"));
  const auto saved = salvage(path_);
  ASSERT_TRUE(saved.ok());
  EXPECT_THAT(saved->cases[1].events, SizeIs(4)) << "the record turned, the steps hang together";
  tamper(
      "UPDATE case_head SET digest = (SELECT before FROM event WHERE bench_case = 2 AND "
      "sequence = 4) WHERE bench_case = 2");
  EXPECT_THAT(salvage(path_)->cases[1].beyond, ElementsAre(4));
}

TEST_F(Chain, ACaseThatWasTakenOutWithItsRecordIsMissedByTheStore) {
  tamper(
      "DELETE FROM event WHERE bench_case = 3; DELETE FROM bench_case WHERE number = 3;"
      "DELETE FROM case_head WHERE bench_case = 3");
  EXPECT_THAT(said_by_check(), HasSubstr("3 cases on record, 2 found"));
}

/// Whole rows of an earlier store under a record of the same length.
TEST_F(Chain, ACaseOfAnotherStoreIsNoticedByTheStore) {
  {
    auto other = CaseStore::open(folder_.file("other.db"));
    for (int i = 0; i < 3; ++i) {
      ASSERT_TRUE(other->create_case({}, {{7, "take-in", "{}"}}).ok());
    }
  }
  tamper("ATTACH '" + folder_.file("other.db") +
         "' AS o; DELETE FROM event WHERE bench_case = 2; DELETE FROM case_head WHERE bench_case = "
         "2; INSERT INTO event SELECT * FROM o.event WHERE bench_case = 2; INSERT INTO case_head "
         "SELECT * FROM o.case_head WHERE bench_case = 2");
  EXPECT_THAT(said_by_check(), HasSubstr("the record of the whole case store"));
}

TEST_F(Chain, AProgramOfAnOlderVersionCanNoLongerAddSteps) {
  const auto database = Database::open(path_);
  const auto added = (*database)->run(
      "INSERT INTO event (bench_case, sequence, at, kind, body, seal) VALUES (1, 5, 9, 'add-note', "
      "'{}', 0)");
  ASSERT_FALSE(added.ok());
  EXPECT_THAT(quantities::describe(added.problems()), HasSubstr("start this program again"));
}

TEST_F(Chain, WhoSawStepsThatABackupDoesNotHaveIsToldAndWritesNothing) {
  auto open = CaseStore::open(path_);
  ASSERT_EQ(*open->append_event(1, 4, {9, "add-note", "after the backup"}, {}), Appended::written);
  const Seen seen = open->journal(1)->seen;
  const auto before = *open->generation();
  ASSERT_TRUE(CaseStore::restore(backup_, path_).ok());
  EXPECT_NE(*open->generation(), before);
  EXPECT_EQ(*open->append_event(1, seen, {10, "add-note", "lost?"}, {}), Appended::parted);
  const auto journal = open->journal(1, seen);
  EXPECT_TRUE(journal->parted);
  EXPECT_THAT(journal->events, SizeIs(4));
  // As many steps as were seen, but another one at the end.
  ASSERT_EQ(*open->append_event(1, journal->seen, {9, "add-note", "another"}, {}),
            Appended::written);
  EXPECT_EQ(*open->append_event(1, seen, {10, "add-note", "lost?"}, {}), Appended::parted);
  // And more of them.
  ASSERT_EQ(*open->append_event(1, 5, {9, "add-note", "a further one"}, {}), Appended::written);
  EXPECT_EQ(*open->append_event(1, seen, {10, "add-note", "lost?"}, {}), Appended::parted);
  EXPECT_TRUE(open->check_integrity().ok());
}

TEST_F(Chain, WhoSawNothingThatIsGoneGoesOn) {
  auto open = CaseStore::open(path_);
  const Seen seen = open->journal(2)->seen;
  ASSERT_TRUE(CaseStore::restore(backup_, path_).ok());
  EXPECT_EQ(*open->append_event(2, seen, {9, "add-note", "next"}, {}), Appended::written);
}

TEST_F(Chain, ABackupKeepsTheBenchAndBringsANewGeneration) {
  const std::string bench = *CaseStore::open(path_)->bench();
  EXPECT_THAT(bench, SizeIs(8));
  ASSERT_TRUE(CaseStore::restore(backup_, path_).ok());
  EXPECT_EQ(*CaseStore::open(path_)->bench(), bench);
  ASSERT_TRUE(CaseStore::restore(backup_, folder_.file("second-bench.db")).ok());
  EXPECT_NE(*CaseStore::open(folder_.file("second-bench.db"))->bench(), bench);
}

TEST_F(Chain, AStoreThatWasDeletedIsNotWrittenInto) {
  auto open = CaseStore::open(path_);
  for (const char* suffix : {"", "-wal", "-shm"}) {
    fs::remove(path_ + suffix);
  }
  EXPECT_EQ(open->footing(), Footing::gone);
  const auto written = open->append_event(1, 4, {9, "add-note", "into nothing"}, {});
  ASSERT_FALSE(written.ok());
  EXPECT_THAT(quantities::describe(written.problems()),
              HasSubstr("the case store is no longer where it was opened"));
  EXPECT_FALSE(open->create_case({}, {{1, "take-in", "{}"}}).ok());
  EXPECT_FALSE(fs::exists(path_));
}

TEST_F(Chain, AStoreThatWasReplacedIsNotWrittenInto) {
  auto open = CaseStore::open(path_);
  fs::copy_file(backup_, folder_.file("other.db"));
  fs::rename(folder_.file("other.db"), path_);
  EXPECT_EQ(open->footing(), Footing::replaced);
  const auto written = open->append_event(1, 4, {9, "add-note", "into nothing"}, {});
  ASSERT_FALSE(written.ok());
  EXPECT_THAT(quantities::describe(written.problems()), HasSubstr("the case store was replaced"));
}

TEST_F(Chain, AStoreWhoseLogWasDeletedIsNotWrittenInto) {
  auto open = CaseStore::open(path_);
  fs::remove(path_ + "-wal");
  EXPECT_FALSE(open->append_event(1, 4, {9, "add-note", "into nothing"}, {}).ok());
}

TEST_F(Chain, OfManyBackupsToOneNameOneWins) {
  constexpr int writers = 4;
  const std::string name = folder_.file("one.db");
  std::vector<pid_t> children;
  for (int i = 0; i < writers; ++i) {
    children.push_back(fork());
    if (children.back() == 0) {
      const auto store = CaseStore::open(path_);
      const auto copied = store->backup(name);
      _exit(copied ? 0
            : quantities::describe(copied.problems()).find("never overwrites") != std::string::npos
                ? 1
                : 2);
    }
  }
  int won = 0;
  for (const pid_t child : children) {
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_LT(WEXITSTATUS(status), 2);
    won += WEXITSTATUS(status) == 0 ? 1 : 0;
  }
  EXPECT_EQ(won, 1);
  EXPECT_TRUE(CaseStore::open(name)->check_integrity().ok());
  EXPECT_EQ(unfinished_in(folder_.path()), 0);
}

}  // namespace
}  // namespace dryout::casestore
