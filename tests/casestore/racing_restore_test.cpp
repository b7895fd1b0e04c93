// Backups come back while other processes write. Whatever was acknowledged is afterwards in the
// store or in one of the copies that the restores kept beside it.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <thread>

#include "casestore/case_store.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

/// DRYOUT_RESTORES=500 takes longer and looks closer.
int restores() {
  const char* asked = std::getenv("DRYOUT_RESTORES");
  return asked == nullptr ? 40 : std::max(1, std::atoi(asked));
}

/// Appends marked steps for ever, and says each mark down a pipe once it is acknowledged. Has the
/// store open all the time, as a window has.
[[noreturn]] void write_marks(const std::string& path, int writer, int pipe_end) noexcept {
  auto store = CaseStore::open(path);
  if (!store) {
    _exit(1);
  }
  for (int mark = writer;; mark += 10) {
    const auto seen = store->newest_event(1);
    if (!seen) {
      continue;
    }
    const auto written =
        store->append_event(1, *seen, {1, "add-note", "mark " + std::to_string(mark)}, {});
    if (written && *written == Appended::written &&
        write(pipe_end, &mark, sizeof mark) != sizeof mark) {
      _exit(3);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
}

std::set<std::string> marks_in(const std::string& path) {
  std::set<std::string> marks;
  const auto store = CaseStore::open(path);
  EXPECT_TRUE(store.ok()) << path;
  const auto events = store->events(1);
  EXPECT_TRUE(events.ok()) << path;
  for (const EventRow& event : *events) {
    marks.insert(event.body);
  }
  return marks;
}

TEST(RacingRestore, LosesNoStepThatWasAcknowledged) {
  constexpr int writers = 3;
  const tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  {
    auto store = CaseStore::open(path);
    ASSERT_TRUE(store->create_case({}, {{1, "take-in", "{}"}}).ok());
    ASSERT_TRUE(store->backup(folder.file("backup.db")).ok());
  }
  std::array<int, 2> ends{};
  ASSERT_EQ(pipe(ends.data()), 0);
  std::vector<pid_t> children;
  for (int writer = 0; writer < writers; ++writer) {
    children.push_back(fork());
    ASSERT_GE(children.back(), 0);
    if (children.back() == 0) {
      close(ends[0]);
      write_marks(path, writer, ends[1]);
    }
  }
  close(ends[1]);
  std::set<std::string> acknowledged;
  const auto hear = [&](bool to_the_end) {
    for (int mark = 0; read(ends[0], &mark, sizeof mark) == sizeof mark;) {
      acknowledged.insert("mark " + std::to_string(mark));
      if (!to_the_end) {
        return;
      }
    }
  };
  std::set<std::string> kept;
  int refused = 0;
  const int rounds = restores();
  for (int round = 0; round < rounds; ++round) {
    for (int heard = 0; heard < 5; ++heard) {  // somebody writes between any two
      hear(false);
    }
    const auto restored = CaseStore::restore(folder.file("backup.db"), path);
    refused += restored ? 0 : 1;
    if (restored) {
      kept.merge(marks_in(*restored));
      std::filesystem::remove(*restored);
    }
  }
  for (const pid_t child : children) {
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
  }
  hear(true);
  close(ends[0]);
  kept.merge(marks_in(path));
  std::vector<std::string> lost;
  std::set_difference(acknowledged.begin(), acknowledged.end(), kept.begin(), kept.end(),
                      std::back_inserter(lost));
  EXPECT_EQ(lost.size(), 0U) << "of " << acknowledged.size() << ", the first: " << lost.front();
  EXPECT_LT(refused, rounds / 2 + 1) << "restores must get through for this to prove anything";
  RecordProperty("acknowledged", static_cast<int>(acknowledged.size()));
  RecordProperty("refused", refused);
}

}  // namespace
}  // namespace dryout::casestore
