// Everything that can be wrong with a store's file gets a sentence that says what to do, and leaves
// the file as it was.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
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

std::string complaint_about(const std::string& path) {
  const auto store = CaseStore::open(path);
  return store.ok() ? "" : quantities::describe(store.problems());
}

/// Runs SQL on a store behind the back of CaseStore.
void meddle(const std::string& path, const std::string& sql) {
  const auto database = Database::open(path);
  ASSERT_TRUE(database.ok());
  const auto done = (*database)->run(sql);
  ASSERT_TRUE(done.ok()) << quantities::describe(done.problems());
}

void make_store(const std::string& path, int cases = 1) {
  auto store = CaseStore::open(path);
  ASSERT_TRUE(store.ok());
  for (int i = 0; i < cases; ++i) {
    CaseFacts facts;
    facts.set_name = "Tidelight";
    facts.notes = std::string(500, 'n');
    ASSERT_TRUE(store->create_case(facts, {{1, "take-in", "{}"}}).ok());
  }
}

class OpenStore : public testing::Test {
 protected:
  tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
};

TEST_F(OpenStore, MakesItsFolderForItsUserAlone) {
  const std::string deep = folder_.file("a/b/cases.db");
  EXPECT_EQ(complaint_about(deep), "");
  EXPECT_EQ(std::filesystem::status(folder_.file("a/b")).permissions(),
            std::filesystem::perms::owner_all);
}

TEST_F(OpenStore, RefusesANewerStoreAndLeavesItAlone) {
  make_store(path_);
  meddle(path_, "PRAGMA user_version = 99; PRAGMA wal_checkpoint(TRUNCATE)");
  const std::string before = read_file(path_);
  EXPECT_THAT(complaint_about(path_),
              testing::AllOf(HasSubstr("newer version of this program"), HasSubstr("99"),
                             HasSubstr("update this program"), HasSubstr(path_)));
  EXPECT_EQ(read_file(path_), before);
}

TEST_F(OpenStore, RefusesADatabaseOfAnotherProgram) {
  write_file(path_, "");
  meddle(path_, "CREATE TABLE recipes (name TEXT)");
  const std::string before = read_file(path_);
  EXPECT_THAT(complaint_about(path_), HasSubstr("this is no case store"));
  EXPECT_EQ(read_file(path_), before);
}

TEST_F(OpenStore, RefusesAFileThatIsNoDatabase) {
  write_file(path_, std::string(5000, 'x'));
  EXPECT_THAT(complaint_about(path_), HasSubstr("this is no case store"));
  EXPECT_THAT(complaint_about(folder_.path()), HasSubstr("a folder"));
  EXPECT_THAT(complaint_about(""), HasSubstr("no name"));
}

TEST_F(OpenStore, InMemoryItLeavesNoFile) {
  auto store = CaseStore::open(std::string(in_memory));
  ASSERT_TRUE(store.ok());
  ASSERT_TRUE(store->create_case({}, {{1, "take-in", "{}"}}).ok());
  EXPECT_THAT(*store->list(), SizeIs(1));
  EXPECT_FALSE(std::filesystem::exists(in_memory));
  EXPECT_THAT(*CaseStore::open(std::string(in_memory))->list(), SizeIs(0));
}

TEST_F(OpenStore, TakesAnAddressForAFileName) {
  const auto home = std::filesystem::current_path();
  std::filesystem::current_path(folder_.path());
  make_store("file:x?mode=memory");
  EXPECT_TRUE(std::filesystem::exists("file:x?mode=memory"));
  std::filesystem::current_path(home);
}

TEST_F(OpenStore, MigratesAnOlderStoreAndKeepsACopyOfIt) {
  write_file(path_, "");
  meddle(path_, migration_1() +
                    "INSERT INTO bench_case VALUES (1, 5, 5, 'e', 'Morgenstern', NULL, 'o', 'hums',"
                    "'', 0, ''); INSERT INTO event VALUES (1, 1, 5, 'take-in', '{}');"
                    "PRAGMA user_version = 1; PRAGMA application_id = " +
                    std::to_string(application_id));
  const auto store = CaseStore::open(path_);
  ASSERT_TRUE(store.ok()) << quantities::describe(store.problems());
  EXPECT_THAT(*store->search("morgen"), SizeIs(1)) << "the index covers what was there before";
  EXPECT_THAT(*store->events(1), SizeIs(1));
  EXPECT_TRUE(store->check_integrity().ok());

  const std::string copy = path_ + ".version-1.backup";
  const auto old = Database::open(copy);
  ASSERT_TRUE(old.ok());
  EXPECT_EQ(*(*old)->number("PRAGMA user_version"), 1);
  EXPECT_EQ(*(*old)->number("SELECT count(*) FROM event"), 1);
  EXPECT_TRUE(CaseStore::open(path_).ok());
  EXPECT_FALSE(std::filesystem::exists(copy + "-2")) << "one copy per migration";
}

TEST_F(OpenStore, CasesOlderThanIdentitiesGetTheSameOneOnEveryBench) {
  const std::string other = folder_.file("other.db");
  for (const std::string& path : {path_, other}) {
    write_file(path, "");
    meddle(path, migration_1() + migration_2() +
                     "INSERT INTO bench_case VALUES (1, 5, 5, 'e', 'a', NULL, '', '', '', 0, ''),"
                     "(2, 6, 6, 'e', 'a', NULL, '', '', '', 0, ''), (3, 5, 7, 'e', 'a', NULL, '', "
                     "'', '', 0, ''); INSERT INTO event VALUES (1, 1, 5, 'take-in', '{}'), "
                     "(2, 1, 6, 'take-in', '{}'), (3, 1, 5, 'take-in', '{}');"
                     "PRAGMA user_version = 2; PRAGMA application_id = " +
                     std::to_string(application_id));
  }
  const auto here = CaseStore::open(path_);
  const auto there = CaseStore::open(other);
  ASSERT_TRUE(here.ok()) << quantities::describe(here.problems());
  EXPECT_EQ(*here->identity(1), derived_identity({5, "take-in", "{}"}));
  EXPECT_EQ(*here->identity(1), *there->identity(1));
  EXPECT_EQ(*here->identity(2), *there->identity(2));
  EXPECT_NE(*here->identity(1), *here->identity(3)) << "a copy kept on purpose is its own case";
  EXPECT_EQ(*here->facts_version(), 0) << "its facts are still to be made";
  EXPECT_TRUE(std::filesystem::exists(path_ + ".version-2.backup"));
}

TEST_F(OpenStore, AMigrationThatFailsLeavesTheOldStore) {
  write_file(path_, "");
  // Version 1 without its tables: the next step cannot build its triggers.
  meddle(path_, "CREATE TABLE odd (x); PRAGMA user_version = 1; PRAGMA application_id = " +
                    std::to_string(application_id));
  EXPECT_NE(complaint_about(path_), "");
  const auto database = Database::open(path_);
  EXPECT_EQ(*(*database)->number("PRAGMA user_version"), 1);
  EXPECT_EQ(*(*database)->number("SELECT count(*) FROM sqlite_schema"), 1);
}

/// The super-user may write anywhere, so a child gives that right up before it looks.
std::string complaint_as_nobody(const std::string& path) {
  std::array<int, 2> ends{};
  EXPECT_EQ(pipe(ends.data()), 0);
  const pid_t child = fork();
  if (child == 0) {
    constexpr uid_t nobody = 65534;
    if (geteuid() == 0 && setuid(nobody) != 0) {
      _exit(1);
    }
    const std::string complaint = complaint_about(path);
    _exit(write(ends[1], complaint.data(), complaint.size()) < 0 ? 1 : 0);
  }
  close(ends[1]);
  std::string complaint(1000, ' ');
  complaint.resize(static_cast<std::size_t>(
      std::max<ssize_t>(0, read(ends[0], complaint.data(), complaint.size()))));
  close(ends[0]);
  waitpid(child, nullptr, 0);
  return complaint;
}

TEST_F(OpenStore, RefusesAReadOnlyFile) {
  make_store(path_);
  chmod(path_.c_str(), 0444);
  chmod(folder_.path().c_str(), 0555);
  EXPECT_THAT(complaint_as_nobody(path_), HasSubstr("cannot be written to"));
  EXPECT_THAT(complaint_as_nobody(folder_.file("new.db")), HasSubstr("cannot make the file"));
}

TEST_F(OpenStore, RefusesAWritableFileInAReadOnlyFolder) {
  make_store(path_);
  chmod(path_.c_str(), 0666);
  chmod(folder_.path().c_str(), 0555);
  EXPECT_THAT(complaint_as_nobody(path_), HasSubstr("accepted: a file and folder this user may"));
}

TEST_F(OpenStore, AnIndexOutOfStepFailsTheIntegrityCheck) {
  make_store(path_);
  meddle(path_, "UPDATE bench_case SET notes = 'behind the back'");
  EXPECT_FALSE(CaseStore::open(path_)->check_integrity().ok());
}

TEST_F(OpenStore, TwoProgramsMayMakeItAtOnce) {
  for (int round = 0; round < 20; ++round) {
    const std::string path = folder_.file("shared-" + std::to_string(round));
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      const std::string complaint = complaint_about(path);
      std::cerr << complaint;
      _exit(complaint.empty() ? 0 : 1);
    }
    EXPECT_EQ(complaint_about(path), "");
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_EQ(WEXITSTATUS(status), 0);
  }
}

/// A disk of its own of that size, where this user may mount one.
class SmallDisk {
 public:
  SmallDisk(std::string at, const std::string& size) : at_(std::move(at)) {
    std::filesystem::create_directory(at_);
    mounted_ = mount("tmpfs", at_.c_str(), "tmpfs", 0, ("size=" + size).c_str()) == 0;
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    if (mounted_) {
      umount(at_.c_str());
    }
  }
  [[nodiscard]] bool mounted() const { return mounted_; }

 private:
  std::string at_;
  bool mounted_ = false;
};

TEST_F(OpenStore, ADiskThatFillsUpSaysSoAndGoesOnOnceThereIsRoom) {
  const SmallDisk disk(folder_.file("small"), "1m");
  if (!disk.mounted()) {
    GTEST_SKIP() << "only the super-user may mount a disk; FailingDiskTest covers a full one";
  }
  const std::string filler = folder_.file("small/filler");
  const std::string path = folder_.file("small/cases.db");
  write_file(filler, std::string(300'000, 'f'));
  auto store = CaseStore::open(path);
  ASSERT_TRUE(store.ok()) << quantities::describe(store.problems());
  ASSERT_TRUE(store->create_case({}, {{1, "take-in", "{}"}}).ok());
  const NewEvent note{1, "add-note", std::string(20'000, 'x')};
  int seen = 1;
  auto written = store->append_event(1, seen, note, {});
  for (; written && seen < 1000; written = store->append_event(1, seen, note, {})) {
    ++seen;
  }
  ASSERT_FALSE(written.ok()) << "the disk never filled up";
  EXPECT_THAT(quantities::describe(written.problems()),
              testing::AllOf(HasSubstr("the disk is full"), HasSubstr(path)));
  EXPECT_EQ(*store->newest_event(1), seen);
  std::filesystem::remove(filler);
  EXPECT_TRUE(store->append_event(1, seen, note, {}).ok());
  EXPECT_TRUE(store->check_integrity().ok());
}

/// Each writes whenever it is its turn to have seen the newest event.
TEST_F(OpenStore, TwoProgramsWriteToOneCaseAndNeitherLosesAStep) {
  make_store(path_);
  constexpr int steps = 50;
  const auto write_steps = [&](const std::string& who) {
    auto store = CaseStore::open(path_);
    for (int done = 0; store.ok() && done < steps;) {
      const auto written =
          store->append_event(1, *store->newest_event(1), {1, who, std::to_string(done)}, {});
      if (!written) {
        return false;
      }
      done += *written == Appended::written ? 1 : 0;
    }
    return store.ok();
  };
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    _exit(write_steps("there") ? 0 : 1);
  }
  EXPECT_TRUE(write_steps("here"));
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_EQ(WEXITSTATUS(status), 0);
  const auto store = CaseStore::open(path_);
  const auto events = store->events(1);
  ASSERT_TRUE(events.ok()) << quantities::describe(events.problems());
  ASSERT_THAT(*events, SizeIs(1 + 2 * steps));
  for (const char* who : {"here", "there"}) {
    int due = 0;
    for (const EventRow& event : *events) {
      if (event.kind == who) {
        EXPECT_EQ(event.body, std::to_string(due++));
      }
    }
    EXPECT_EQ(due, steps) << who;
  }
}

/// The file may not grow past a limit: what SQLite sees is what a full disk shows it.
TEST_F(OpenStore, AFullDiskLosesNothingAcknowledged) {
  make_store(path_);
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{300'000, 300'000};
    setrlimit(RLIMIT_FSIZE, &limit);
    auto store = CaseStore::open(path_);
    for (int seen = 1; store.ok() && seen < 1000; ++seen) {
      const auto written =
          store->append_event(1, seen, {1, "add-note", std::string(2000, 'x')}, CaseFacts{});
      if (!written) {
        const bool worded = !written.problems().front().message.empty();
        _exit(worded && store->events(1).ok() && *store->newest_event(1) == seen ? 0 : 2);
      }
    }
    _exit(3);
  }
  int status = 0;
  waitpid(child, &status, 0);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
  const auto store = CaseStore::open(path_);
  ASSERT_TRUE(store.ok());
  EXPECT_TRUE(store->check_integrity().ok());
}

}  // namespace
}  // namespace dryout::casestore
