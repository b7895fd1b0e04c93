// What was acknowledged survives the death of the writer. A child appends events and says so down a
// pipe after each acknowledgement; it is killed at a random moment, and the store is then opened
// and held against what it said.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <random>
#include <thread>

#include "casestore/case_store.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

/// DRYOUT_KILLS=1000 takes longer and looks closer.
int kills() {
  const char* asked = std::getenv("DRYOUT_KILLS");
  return asked == nullptr ? 100 : std::max(1, std::atoi(asked));
}

/// noexcept: an exception must not carry the child back into the tests of its parent.
[[noreturn]] void write_until_killed(const std::string& path, std::int64_t number,
                                     int pipe_end) noexcept {
  auto store = CaseStore::open(path);
  if (!store) {
    _exit(1);
  }
  int seen = *store->newest_event(number);
  CaseFacts facts;
  for (;;) {
    facts.notes = "reading " + std::to_string(seen + 1);
    const auto written = store->append_event(number, seen, {1, "reading", facts.notes}, facts);
    if (!written || *written != Appended::written) {
      _exit(2);
    }
    ++seen;
    if (write(pipe_end, &seen, sizeof seen) != sizeof seen) {
      _exit(3);
    }
  }
}

/// The last sequence the child acknowledged; 0 = none.
int last_acknowledged(int pipe_end) {
  int last = 0;
  for (int seen = 0; read(pipe_end, &seen, sizeof seen) == sizeof seen;) {
    last = seen;
  }
  return last;
}

TEST(KilledWriter, LosesNothingAcknowledgedAndTheStoreAlwaysOpens) {
  const tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  const std::int64_t number = *CaseStore::open(path)->create_case({}, {{1, "take-in", "{}"}});
  std::mt19937 random(1);  // NOLINT: a fixed seed
  std::uniform_int_distribution<int> delay_us(0, 15'000);
  const int rounds = kills();
  int acknowledged = 1;  // the case was taken in
  for (int round = 0; round < rounds; ++round) {
    std::array<int, 2> ends{};
    ASSERT_EQ(pipe(ends.data()), 0);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      close(ends[0]);
      write_until_killed(path, number, ends[1]);
    }
    close(ends[1]);
    if (round % 2 == 1) {  // every other writer gets to write, however slow the machine
      int seen = 0;
      ASSERT_EQ(read(ends[0], &seen, sizeof seen), static_cast<ssize_t>(sizeof seen));
      acknowledged = std::max(acknowledged, seen);
    }
    std::this_thread::sleep_for(std::chrono::microseconds(delay_us(random)));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the writer stopped by itself with " << status;
    acknowledged = std::max(acknowledged, last_acknowledged(ends[0]));
    close(ends[0]);

    const auto store = CaseStore::open(path);
    ASSERT_TRUE(store.ok()) << quantities::describe(store.problems());
    const int newest = *store->newest_event(number);
    ASSERT_GE(newest, acknowledged) << "round " << round;
    // One event may have reached the disk just before its acknowledgement was said.
    ASSERT_LE(newest, acknowledged + 1) << "round " << round;
    acknowledged = newest;
  }
  const auto store = CaseStore::open(path);
  const auto events = store->events(number);
  ASSERT_EQ(static_cast<int>(events->size()), acknowledged);
  for (int i = 1; i < acknowledged; ++i) {
    ASSERT_EQ((*events)[static_cast<std::size_t>(i)].body, "reading " + std::to_string(i + 1));
  }
  EXPECT_TRUE(store->check_integrity().ok());
  EXPECT_GT(acknowledged, rounds / 4) << "the writer must get somewhere for this to prove anything";
  RecordProperty("events", acknowledged);
}

}  // namespace
}  // namespace dryout::casestore
