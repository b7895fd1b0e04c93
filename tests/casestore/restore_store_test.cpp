// A backup comes back whole or not at all, and what stood in its place is never lost.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <iterator>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/file_bytes.h"
#include "casestore/migrations.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

void add_case(CaseStore& store, const std::string& name) {
  CaseFacts facts;
  facts.set_name = name;
  facts.notes = std::string(3000, 'n');
  ASSERT_TRUE(store.create_case(facts, {{1, "take-in", "{}"}}).ok());
}

class RestoreStore : public testing::Test {
 protected:
  /// A store with "early", its backup, and "late" written after it.
  void SetUp() override {
    auto store = CaseStore::open(path_);
    ASSERT_TRUE(store.ok());
    add_case(*store, "early");
    ASSERT_TRUE(store->backup(backup_).ok());
    add_case(*store, "late");
  }
  std::string complaint() const {
    const auto restored = CaseStore::restore(backup_, path_);
    return restored ? "" : quantities::describe(restored.problems());
  }
  static std::size_t cases_in(const std::string& path) {
    const auto store = CaseStore::open(path);
    return store ? store->list()->size() : 0;
  }
  void expect_untouched() const {
    EXPECT_EQ(cases_in(path_), 2U);
    EXPECT_EQ(unfinished_in(folder_.path()), 0);
  }

  tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  std::string backup_ = folder_.file("backup.db");
};

TEST_F(RestoreStore, BringsTheBackupAndKeepsWhatWasThere) {
  const auto kept = CaseStore::restore(backup_, path_);
  ASSERT_TRUE(kept.ok()) << quantities::describe(kept.problems());
  const auto store = CaseStore::open(path_);
  EXPECT_THAT(*store->list(), SizeIs(1));
  EXPECT_THAT(*store->search("early"), SizeIs(1));
  EXPECT_TRUE(store->check_integrity().ok());
  EXPECT_EQ(*kept, path_ + ".before-restore");
  EXPECT_EQ(cases_in(*kept), 2U);
  EXPECT_EQ(unfinished_in(folder_.path()), 0);
  const auto again = CaseStore::restore(backup_, path_);
  EXPECT_EQ(*again, path_ + ".before-restore-2");
}

TEST_F(RestoreStore, WhereNothingStoodItIsSimplyThere) {
  const std::string fresh = folder_.file("fresh.db");
  EXPECT_EQ(*CaseStore::restore(backup_, fresh), "");
  EXPECT_EQ(cases_in(fresh), 1U);
  struct stat status {};
  ASSERT_EQ(stat(fresh.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0600U);
}

TEST_F(RestoreStore, WhoHasTheStoreOpenSeesTheBackup) {
  auto open = CaseStore::open(path_);
  ASSERT_TRUE(CaseStore::restore(backup_, path_).ok());
  EXPECT_THAT(*open->list(), SizeIs(1));
  add_case(*open, "next");
  EXPECT_EQ(cases_in(path_), 2U);
}

TEST_F(RestoreStore, AnOlderBackupIsMigratedWhenItIsOpened) {
  write_file(folder_.file("old.db"), "");
  {
    const auto old = Database::open(folder_.file("old.db"));
    ASSERT_TRUE((*old)
                    ->run(migration_1() + migration_2() +
                          "INSERT INTO bench_case VALUES (1, 5, 5, 'e', 'Morgenstern', NULL, 'o', "
                          "'hums', '', 0, ''); INSERT INTO event VALUES (1, 1, 5, 'take-in', '{}');"
                          "PRAGMA user_version = 2; PRAGMA application_id = " +
                          std::to_string(application_id))
                    .ok());
  }
  ASSERT_TRUE(CaseStore::restore(folder_.file("old.db"), path_).ok());
  EXPECT_EQ(cases_in(path_), 1U);
}

TEST_F(RestoreStore, EveryTruncationIsRefusedAndChangesNothing) {
  const std::string whole = read_file(backup_);
  for (std::size_t size = 0; size < whole.size(); size += whole.size() / 40 + 1) {
    write_file(backup_, whole.substr(0, size));
    EXPECT_THAT(complaint(), HasSubstr(backup_)) << size;
  }
  expect_untouched();
}

TEST_F(RestoreStore, ABackupCutInHalfIsCalledDamaged) {
  const std::string whole = read_file(backup_);
  for (const std::size_t half : {whole.size() / 2, whole.size() - 5'000}) {
    write_file(backup_, whole.substr(0, half));
    EXPECT_THAT(complaint(), HasSubstr("the backup is damaged, perhaps cut short")) << half;
  }
}

TEST_F(RestoreStore, ANewerBackupIsRefused) {
  {
    const auto database = Database::open(backup_);
    ASSERT_TRUE((*database)->run("PRAGMA user_version = 99").ok());
  }
  EXPECT_THAT(complaint(), HasSubstr("newer version of this program"));
  expect_untouched();
}

TEST_F(RestoreStore, WhatIsNoBackupIsRefused) {
  write_file(backup_, std::string(5000, 'x'));
  EXPECT_THAT(complaint(), HasSubstr("this is no case store"));
  std::filesystem::remove(backup_);
  EXPECT_THAT(complaint(), HasSubstr("there is no backup of that name"));
  expect_untouched();
}

TEST_F(RestoreStore, AStoreInUseIsNoBackup) {
  const std::string live = folder_.file("live.db");
  auto store = CaseStore::open(live);
  add_case(*store, "unsaved");
  const auto restored = CaseStore::restore(live, path_);
  ASSERT_FALSE(restored.ok());
  EXPECT_THAT(quantities::describe(restored.problems()), HasSubstr("this store is in use"));
  expect_untouched();
}

TEST_F(RestoreStore, ARuinedStoreIsPutAsideAsItIs) {
  const std::string ruin(8000, 'r');
  for (const char* suffix : {"-wal", "-shm"}) {
    std::filesystem::remove(path_ + suffix);
  }
  write_file(path_, ruin);
  const auto kept = CaseStore::restore(backup_, path_);
  ASSERT_TRUE(kept.ok()) << quantities::describe(kept.problems());
  EXPECT_EQ(read_file(*kept), ruin);
  EXPECT_EQ(cases_in(path_), 1U);
}

/// In a child that may not write files beyond `bytes`: what a full disk looks like.
int restored_with_room_for(const std::string& backup, const std::string& path, rlim_t bytes) {
  const pid_t child = fork();
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, bytes};
    setrlimit(RLIMIT_FSIZE, &limit);
    const auto restored = CaseStore::restore(backup, path);
    _exit(restored ? 0 : restored.problems().front().message.empty() ? 3 : 2);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST_F(RestoreStore, AFullDiskChangesNothing) {
  for (const rlim_t bytes : {0U, 4'000U, 60'000U}) {
    EXPECT_EQ(restored_with_room_for(backup_, path_, bytes), 2) << bytes;
    expect_untouched();
  }
  EXPECT_EQ(restored_with_room_for(backup_, path_, 10'000'000U), 0);
  EXPECT_EQ(cases_in(path_), 1U);
}

TEST_F(RestoreStore, AFolderThatCannotBeWrittenIsNamed) {
  chmod(folder_.path().c_str(), 0555);
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    constexpr uid_t nobody = 65534;
    if (geteuid() == 0 && setuid(nobody) != 0) {
      _exit(1);
    }
    const auto refused = CaseStore::restore(backup_, path_);
    const bool told = !refused && quantities::describe(refused.problems()).find("this user may") !=
                                      std::string::npos;
    _exit(told ? 0 : 2);
  }
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

}  // namespace
}  // namespace dryout::casestore
