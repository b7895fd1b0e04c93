// Files from a world that may be hostile, and files that are written whole or not at all.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <fstream>

#include "documents/read_text.h"
#include "documents/scratch_file.h"
#include "documents/write_whole.h"
#include "temporary_folder.h"

namespace dryout::documents {
namespace {

namespace fs = std::filesystem;

class Files : public testing::Test {
 protected:
  std::string complaint(const std::string& path, std::size_t bytes_max = 100) const {
    const auto read = read_text(path, "a list", bytes_max);
    return read ? "read: " + *read : describe(read.problems().front());
  }
  tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("list.json");
};

TEST_F(Files, WhatIsWrittenIsReadBackAndPrivate) {
  ASSERT_TRUE(write_whole(path_, "first").ok());
  ASSERT_TRUE(write_whole(path_, std::string("a\0b", 3)).ok());
  EXPECT_EQ(*read_text(path_, "a list", 100), std::string("a\0b", 3));
  struct stat status {};
  ASSERT_EQ(stat(path_.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0600U);
  ASSERT_TRUE(write_whole(path_, "").ok());
  EXPECT_EQ(*read_text(path_, "a list", 100), "");
}

TEST_F(Files, WhatIsNoFileOfOursIsRefusedByName) {
  EXPECT_EQ(complaint(path_), path_ + ": no such file; accepted: a list");
  EXPECT_EQ(complaint(folder_.path().string()),
            folder_.path().string() + ": not a regular file; accepted: a list");
  ASSERT_EQ(mkfifo(path_.c_str(), 0600), 0);  // would wait for a writer for ever
  EXPECT_EQ(complaint(path_), path_ + ": not a regular file; accepted: a list");
}

TEST_F(Files, ALargeFileIsRefusedBeforeItIsRead) {
  ASSERT_TRUE(write_whole(path_, std::string(101, 'x')).ok());
  EXPECT_EQ(complaint(path_), path_ + ": file too large; found 101 bytes; accepted: at most 100");
  EXPECT_EQ(complaint(path_, 101), "read: " + std::string(101, 'x'));
}

TEST_F(Files, WhereNothingCanBeWrittenTheOldFileStays) {
  const auto nowhere = write_whole(folder_.file("missing/list.json"), "text");
  ASSERT_FALSE(nowhere.ok());
  EXPECT_EQ(nowhere.problems().front().message, "cannot be written");
  EXPECT_EQ(nowhere.problems().front().found, "No such file or directory");
  fs::create_directory(path_);
  std::ofstream(path_ + "/kept") << "kept";
  const auto in_the_way = write_whole(path_, "text");
  ASSERT_FALSE(in_the_way.ok());
  EXPECT_EQ(in_the_way.problems().front().place.file, path_);
  EXPECT_TRUE(fs::exists(path_ + "/kept"));
  const auto entries = std::distance(fs::directory_iterator(folder_.path()), {});
  EXPECT_EQ(entries, 1) << "nothing is left beside it";
}

TEST_F(Files, ADeviceIsWrittenToAndNeverReplaced) {
  if (!fs::exists("/dev/full")) {
    GTEST_SKIP() << "no /dev/full here";
  }
  const auto full = write_whole("/dev/full", "text");
  ASSERT_FALSE(full.ok());
  EXPECT_EQ(describe(full.problems().front()),
            "/dev/full: cannot be written; found No space left on device; accepted: a writable "
            "place");
  EXPECT_TRUE(fs::is_character_file("/dev/full"));
  EXPECT_TRUE(write_whole("/dev/null", "text").ok());
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
}

TEST_F(Files, ANewNameIsTakenByOneAlone) {
  constexpr int writers = 8;
  std::array<pid_t, writers> children{};
  for (int i = 0; i < writers; ++i) {
    children[static_cast<std::size_t>(i)] = fork();
    if (children[static_cast<std::size_t>(i)] == 0) {
      const auto written = write_new(path_, std::string(100'000, static_cast<char>('a' + i)));
      _exit(!written ? 2 : *written ? 0 : 1);
    }
  }
  int won = 0;
  for (const pid_t child : children) {
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_NE(WEXITSTATUS(status), 2);
    won += WEXITSTATUS(status) == 0 ? 1 : 0;
  }
  EXPECT_EQ(won, 1);
  const std::string text = *read_text(path_, "a list", 100'000);
  EXPECT_EQ(text, std::string(100'000, text.front()));
}

TEST_F(Files, ALinkLaidInTheWayIsNotFollowed) {
  const std::string victim = folder_.file("victim");
  std::ofstream(victim) << "mine";
  fs::create_symlink(victim, path_);
  EXPECT_FALSE(*write_new(path_, "text"));
  ASSERT_TRUE(write_whole(path_, "text").ok());
  EXPECT_EQ(*read_text(victim, "a list", 100), "mine");
}

TEST_F(Files, WhatAKilledWriterLeftIsSweptAndWhatIsBeingWrittenStays) {
  const pid_t child = fork();
  if (child == 0) {
    const auto begun = ScratchFile::beside(path_);
    (void)begun->write("half");
    _exit(0);  // no destructor: as if it had been killed
  }
  waitpid(child, nullptr, 0);
  const auto held = ScratchFile::beside(path_);
  ASSERT_TRUE(held.ok());
  std::ofstream(folder_.file(".letter.unfinished")) << "somebody else's";
  EXPECT_EQ(sweep_scratch_files(folder_.path().string()), 1);
  EXPECT_TRUE(fs::exists(held->path()));
  EXPECT_TRUE(fs::exists(folder_.file(".letter.unfinished")));
}

}  // namespace
}  // namespace dryout::documents
