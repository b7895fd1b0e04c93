// One window knows of another on the same store, and of one that ended without being closed.
#include "window/sitting.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <optional>

namespace dryout::window {
namespace {

using testing::HasSubstr;

class SittingTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = testing::TempDir() + "dryout-sitting-XXXXXX";
    folder_ = mkdtemp(pattern.data());
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  [[nodiscard]] bool empty() const { return std::filesystem::is_empty(folder_); }
  std::string folder_;
};

TEST_F(SittingTest, AloneSaysNothingAndLeavesNothing) {
  {
    const Sitting sitting(folder_);
    EXPECT_EQ(sitting.word(), "");
    EXPECT_FALSE(empty());
  }
  EXPECT_TRUE(empty());
}

TEST_F(SittingTest, TellsOfAWindowThatEndedWithoutBeingClosedOnce) {
  const pid_t child = fork();
  if (child == 0) {
    const Sitting sitting(folder_);
    _exit(0);  // as a crash: nothing is put away
  }
  waitpid(child, nullptr, 0);
  {
    const Sitting sitting(folder_);
    EXPECT_THAT(sitting.word(), HasSubstr("without being closed"));
  }
  const Sitting again(folder_);
  EXPECT_EQ(again.word(), "");
}

TEST_F(SittingTest, TellsOfAnotherWindowStillOpen) {
  int ready[2];
  int leave[2];
  ASSERT_EQ(pipe(ready), 0);
  ASSERT_EQ(pipe(leave), 0);
  const pid_t child = fork();
  if (child == 0) {
    std::optional<Sitting> sitting(folder_);
    char byte = 1;
    (void)!write(ready[1], &byte, 1);
    (void)!read(leave[0], &byte, 1);
    sitting.reset();
    _exit(0);
  }
  char byte = 0;
  ASSERT_EQ(read(ready[0], &byte, 1), 1);
  {
    const Sitting sitting(folder_);
    EXPECT_THAT(sitting.word(), HasSubstr("Another window"));
  }
  ASSERT_EQ(write(leave[1], &byte, 1), 1);
  waitpid(child, nullptr, 0);
  EXPECT_TRUE(empty());
}

TEST_F(SittingTest, NeedsNoFolder) {
  const Sitting nowhere("");
  EXPECT_EQ(nowhere.word(), "");
  const Sitting missing(folder_ + "/none");
  EXPECT_EQ(missing.word(), "");
}

}  // namespace
}  // namespace dryout::window
