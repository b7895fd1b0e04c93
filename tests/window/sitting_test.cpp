// One window knows of another on the same store, and of one that ended without being closed.
#include "window/sitting.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
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

TEST_F(SittingTest, WhatWasTypedOutlivesACrashAndAClosing) {
  const std::map<std::int64_t, casework::TypedText> typed{{3, {{"log/note", "half a sen"}}}};
  const pid_t child = fork();
  if (child == 0) {
    Sitting sitting(folder_, "cases.db");
    sitting.keep(typed);
    _exit(0);  // as a crash
  }
  waitpid(child, nullptr, 0);
  {
    const Sitting other_store(folder_, "other.db");
    EXPECT_TRUE(other_store.left().of_case.empty());
  }
  {
    const Sitting sitting(folder_, "cases.db");
    EXPECT_EQ(sitting.left().of_case, typed);
    EXPECT_THAT(sitting.word(), HasSubstr("stands in its field again"));
  }
  Sitting again(folder_, "cases.db");  // the one before was closed, with the text still there
  EXPECT_EQ(again.left().of_case, typed);
  EXPECT_EQ(again.word(), "");
  again.keep({});
}

TEST_F(SittingTest, KeepsTheTextsOfTwoWindowsAndWhatItCannotRead) {
  casework::Drafts drafts;
  drafts.store = "cases.db";
  for (const char* words : {"first words", "other words"}) {
    drafts.of_case[3]["log/note"] = words;
    std::ofstream(folder_ + "/window-" + std::string(words, 5)) << casework::drafts_text(drafts);
  }
  std::ofstream(folder_ + "/window-newer") << R"({"store":"cases.db","closed":false,"newer":1})";
  const Sitting sitting(folder_, "cases.db");
  EXPECT_TRUE(std::filesystem::exists(folder_ + "/window-newer"));
  EXPECT_THAT(sitting.left().of_case.at(3).at("log/note"), HasSubstr("first words"));
  EXPECT_THAT(sitting.left().of_case.at(3).at("log/note"), HasSubstr("other words"));
}

TEST_F(SittingTest, KeepsWhatIsTypedForItsOwnerAlone) {
  Sitting sitting(folder_, "cases.db");
  sitting.keep({{1, {{"log/note", "owner's name"}}}});
  for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
    EXPECT_EQ(entry.status().permissions() & std::filesystem::perms::all,
              std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  }
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_),
                          std::filesystem::directory_iterator()),
            1);
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
