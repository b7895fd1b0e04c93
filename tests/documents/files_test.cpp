// Files from a world that may be hostile, and files that are written whole or not at all.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "documents/read_text.h"
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
  fs::create_directory(path_);
  std::ofstream(path_ + "/kept") << "kept";
  const auto in_the_way = write_whole(path_, "text");
  ASSERT_FALSE(in_the_way.ok());
  EXPECT_EQ(in_the_way.problems().front().place.file, path_);
  EXPECT_TRUE(fs::exists(path_ + "/kept"));
  EXPECT_FALSE(fs::exists(path_ + ".part")) << "nothing is left beside it";
}

}  // namespace
}  // namespace dryout::documents
