// The shop's memory and the keeping of cases, from the command line.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using documents::Value;

std::size_t count(const Value& value, const std::vector<std::string>& path) {
  return at(value, path).array_elements()->size();
}

/// A stereo receiver that hums, closed with its reservoirs to blame.
void close_one(const Home& home, const std::string& name = "Larkfield 40") {
  const Value taken = home.json({"case", "new", "--equipment", "stereo-receiver", "--set", name,
                                 "--year", "1978", "--complaint", "hums"});
  const std::string number = std::to_string(static_cast<int>(number_at(taken, {"case"})));
  ASSERT_EQ(home.run({"case", "symptom", number, "hum-steady", "yes"}).exit, 0);
  const Value suspects = home.json({"suspects", number});
  ASSERT_EQ(
      home.run({"case", "finish", number, "--cause", text_at(suspects, {"suspects", "0", "id"})})
          .exit,
      0);
}

TEST(ShopCommands, AnswerFromClosedCases) {
  const Home home;
  close_one(home);
  EXPECT_EQ(count(home.json({"shop", "find", "--symptom", "hum"}), {"cases"}), 1U);
  EXPECT_EQ(count(home.json({"shop", "find", "nothing like it"}), {"cases"}), 0U);
  const Value last = home.json({"shop", "last-time", "lark"});
  EXPECT_EQ(text_at(last, {"cases", "0", "set_name"}), "Larkfield 40");
  EXPECT_NE(text_at(last, {"cases", "0", "cause"}), "");
  const Value causes = home.json({"shop", "causes", "--equipment", "stereo-receiver"});
  EXPECT_EQ(number_at(causes, {"families", "0", "closed"}), 1.0);
  EXPECT_EQ(count(home.json({"shop", "readings", "--capacitance", "4700u"}), {"ages"}), 0U);
  EXPECT_EQ(home.run({"shop", "readings", "--capacitance", "lots"}).exit, 2);
  EXPECT_EQ(home.run({"shop", "causes", "--equipment", "toaster"}).exit, 2);
  for (const char* command : {"find", "causes", "readings"}) {
    EXPECT_EQ(home.run({"shop", command}).exit, 0) << command;
  }
}

TEST(ShopCommands, HistoryIsOffUntilItIsSwitchedOnAndSaysSo) {
  const Home home;
  close_one(home);
  EXPECT_EQ(*at(home.json({"shop", "history"}), {"in_the_figures"}).boolean(), false);
  EXPECT_EQ(*at(home.json({"shop", "learned", "stereo-receiver"}), {"in_the_figures"}).boolean(),
            false);
  const std::string before = home.run({"case", "show", "1", "--json"}).out;
  ASSERT_EQ(home.run({"shop", "history", "on"}).exit, 0);
  EXPECT_EQ(*at(home.json({"shop", "learned", "stereo-receiver"}), {"in_the_figures"}).boolean(),
            true);
  EXPECT_NE(home.run({"case", "show", "1", "--json"}).out, before);
  ASSERT_EQ(home.run({"shop", "history", "off"}).exit, 0);
  EXPECT_EQ(home.run({"case", "show", "1", "--json"}).out, before);
  EXPECT_EQ(home.run({"shop", "history", "perhaps"}).exit, 2);
}

TEST(CaseKeeping, AllCasesGoToAnotherBenchAndBackWithoutDoubles) {
  const Home here;
  const Home there;
  close_one(here);
  close_one(here, "Tidelight");
  const std::string file = (there.path() / "all.json").string();
  ASSERT_EQ(here.run({"case", "export", "--all", "-o", file}).exit, 0);
  const Value first = there.json({"case", "import", file});
  EXPECT_EQ(text_at(first, {"cases", "1", "arrival"}), "added");
  const Value second = there.json({"case", "import", file});
  EXPECT_EQ(text_at(second, {"cases", "0", "arrival"}), "known");
  EXPECT_EQ(count(there.json({"case", "list"}), {"cases"}), 2U);

  const std::filesystem::path folder = there.path() / "cases";
  std::filesystem::create_directory(folder);
  ASSERT_EQ(here.run({"case", "export", "--all", "-o", folder.string()}).exit, 0);
  EXPECT_EQ(count(there.json({"case", "import", folder.string()}), {"cases"}), 2U);
  EXPECT_EQ(count(there.json({"case", "list"}), {"cases"}), 2U);
  EXPECT_EQ(here.run({"case", "export"}).exit, 2) << "neither a case nor all";
  EXPECT_EQ(here.run({"case", "export", "1", "--all"}).exit, 2) << "both";
}

TEST(CaseKeeping, ABackupComesBack) {
  const Home home;
  close_one(home);
  const std::string file = (home.path() / "backup.db").string();
  ASSERT_EQ(home.run({"case", "backup", file}).exit, 0);
  EXPECT_EQ(home.run({"case", "backup", file}).exit, 2) << "never overwrites";
  close_one(home, "Tidelight");
  EXPECT_EQ(home.run({"case", "check", "--rebuild"}).exit, 0);
  const Value restored = home.json({"case", "restore", file});
  EXPECT_TRUE(std::filesystem::exists(text_at(restored, {"kept"})));
  EXPECT_EQ(count(home.json({"case", "list"}), {"cases"}), 1U);
  EXPECT_EQ(home.run({"case", "check"}).exit, 0);
}

TEST(CaseKeeping, ADamagedBackupIsRefusedAndChangesNothing) {
  const Home home;
  close_one(home);
  const std::filesystem::path file = home.path() / "backup.db";
  ASSERT_EQ(home.run({"case", "backup", file.string()}).exit, 0);
  std::filesystem::resize_file(file, std::filesystem::file_size(file) / 2);
  const Outcome refused = home.run({"case", "restore", file.string()});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_NE(refused.err.find("damaged, perhaps cut short"), std::string::npos) << refused.err;
  EXPECT_EQ(count(home.json({"case", "list"}), {"cases"}), 1U);
}

}  // namespace
}  // namespace dryout::app_test
