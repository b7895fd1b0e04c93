// What a workshop showed survives the death of its process: a child records readings and says so
// down a pipe once it has been shown the case with the reading in it.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <random>
#include <thread>

#include "casework/invented_bench.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

/// noexcept: an exception must not carry the child back into the tests of its parent.
[[noreturn]] void note_until_killed(const std::string& store, std::int64_t number,
                                    int pipe_end) noexcept {
  const auto workshop = open_workshop(store);
  for (;;) {
    const auto view = workshop->apply(number, AddNote{"a reading worth keeping"});
    if (!view) {
      _exit(1);
    }
    const int lines = static_cast<int>(view->log.size());
    if (write(pipe_end, &lines, sizeof lines) != sizeof lines) {
      _exit(2);
    }
  }
}

TEST(KilledWorkshop, LosesNothingThatWasShown) {
  const dryout::tests::TemporaryFolder folder;
  const std::string store = folder.file("cases.db");
  const auto number = start_lantern(*open_workshop(store));
  std::mt19937 random(3);  // NOLINT: a fixed seed
  int shown = 1;
  for (int round = 0; round < 20; ++round) {
    std::array<int, 2> ends{};
    ASSERT_EQ(pipe(ends.data()), 0);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      close(ends[0]);
      note_until_killed(store, number, ends[1]);
    }
    close(ends[1]);
    if (round % 2 == 1) {  // every other child gets to note something, however slow the machine
      int lines = 0;
      ASSERT_EQ(::read(ends[0], &lines, sizeof lines), static_cast<ssize_t>(sizeof lines));
      shown = std::max(shown, lines);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(20 + random() % 60));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the child stopped by itself with " << status;
    for (int lines = 0; ::read(ends[0], &lines, sizeof lines) == sizeof lines;) {
      shown = std::max(shown, lines);
    }
    close(ends[0]);
    const auto view = open_workshop(store)->view(number);
    ASSERT_TRUE(view.ok()) << quantities::describe(view.problems());
    ASSERT_GE(static_cast<int>(view->log.size()), shown) << "round " << round;
    ASSERT_LE(static_cast<int>(view->log.size()), shown + 1) << "round " << round;
    shown = static_cast<int>(view->log.size());
  }
  EXPECT_GT(shown, 10) << "the children must get somewhere for this to prove anything";
}

}  // namespace
}  // namespace dryout::casework
