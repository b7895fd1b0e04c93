// From a damaged store back to work, with nothing but what the program says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class DamagedStore : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(home_.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Lark"}).exit,
              0);
    ASSERT_EQ(home_.run({"case", "note", "1", "measured-2.4-ohm"}).exit, 0);
    ASSERT_EQ(home_.run({"case", "backup", "copy.db"}).exit, 0);
  }

  /// Everything the damaged store says, and then the way back.
  void expect_way_back(const std::string& complaint, bool shown) const {
    const Outcome checked = home_.run({"case", "check"});
    EXPECT_NE(checked.exit, 0);
    EXPECT_THAT(checked.err, testing::AllOf(HasSubstr(complaint), HasSubstr(store_.string()),
                                            HasSubstr("dryout case restore")));
    EXPECT_EQ(home_.run({"case", "show", "1"}).exit == 0, shown);
    const Outcome restored = home_.run({"case", "restore", "copy.db"});
    EXPECT_EQ(restored.exit, 0) << restored.err;
    EXPECT_THAT(restored.out, HasSubstr("What was there before is in"));
    EXPECT_EQ(home_.run({"case", "check"}).exit, 0);
    EXPECT_THAT(home_.run({"case", "export", "1"}).out, HasSubstr("measured-2.4-ohm"));
  }

  Home home_;
  fs::path store_ = home_.path() / "data/dryout/cases.db";
};

TEST_F(DamagedStore, CutShortItPointsToABackupThatWorks) {
  for (const auto size : {fs::file_size(store_) / 2, std::uintmax_t{100}}) {
    fs::resize_file(store_, size);
    expect_way_back("damaged", false);
  }
}

TEST_F(DamagedStore, WithADigitTurnedItDoesNotReadADifferentValue) {
  std::fstream file(store_, std::ios::in | std::ios::out | std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  const std::string body = R"("measured-2.4-ohm")";
  const std::size_t at = bytes.find(body);
  ASSERT_NE(at, std::string::npos);
  file.clear();
  file.seekp(static_cast<std::streamoff>(at + body.find('2')));
  file.put('6');
  file.close();
  EXPECT_THAT(home_.run({"case", "show", "1"}).out,
              testing::AllOf(HasSubstr("Step 2 is damaged"), testing::Not(HasSubstr("6.4-ohm"))));
  expect_way_back("a step of this case is damaged", true);
}

}  // namespace
}  // namespace dryout::app_test
