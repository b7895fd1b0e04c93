// Cases out of stores and files that the program cannot open, or may not write; exports that go on
// past damage and never over another bench's files; rules of one's own that are at fault.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

class RescueCommands : public testing::Test {
 protected:
  void SetUp() override {
    for (const char* name : {"Lark", "Tarn"}) {
      ASSERT_EQ(home_.run({"case", "new", "--equipment", "stereo-receiver", "--set", name}).exit,
                0);
    }
    ASSERT_EQ(home_.run({"case", "note", "1", "walnut-cabinet"}).exit, 0);
    ASSERT_EQ(home_.run({"case", "note", "1", "second-note"}).exit, 0);
  }

  /// Turns the first place where `word` stands into `other`, of the same length.
  void turn(const std::string& word, const std::string& other) const {
    std::fstream file(store_, std::ios::in | std::ios::out | std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    file.clear();
    for (std::size_t at = bytes.find(word); at != std::string::npos;
         at = bytes.find(word, at + 1)) {
      file.seekp(static_cast<std::streamoff>(at));
      file << other;
    }
  }
  static std::vector<std::string> names_in(const fs::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder)) {
      names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
  }

  Home home_;
  fs::path store_ = home_.path() / "data/dryout/cases.db";
};

TEST_F(RescueCommands, ADamagedStepCostsThatStep) {
  turn("{\"do\":\"note\",\"text\":\"walnut", "{\"do\":\"note\",\"text\":\"walnur");
  const Outcome shown = home_.run({"case", "show", "1"});
  EXPECT_EQ(shown.exit, 0) << shown.err;
  EXPECT_THAT(shown.out, AllOf(HasSubstr("Step 2 is damaged"), HasSubstr("second-note"),
                               Not(HasSubstr("walnur"))));
  EXPECT_EQ(home_.run({"case", "check"}).exit, 1);
  const Outcome exported = home_.run({"case", "export", "--all"});
  EXPECT_EQ(exported.exit, 1);
  EXPECT_THAT(exported.err, HasSubstr("case 1, step 2: damaged"));
  EXPECT_THAT(exported.out, AllOf(HasSubstr("second-note"), HasSubstr("Tarn")));
  const Outcome log = home_.run({"case", "log", "1"});
  EXPECT_EQ(log.exit, 0);
  EXPECT_THAT(log.out, AllOf(HasSubstr("take-in: "), HasSubstr("2  damaged or missing"),
                             HasSubstr("second-note")));
}

TEST_F(RescueCommands, EveryCommandOnADamagedCaseTellsIt) {
  turn("{\"do\":\"note\",\"text\":\"walnut", "{\"do\":\"note\",\"text\":\"walnur");
  const std::vector<std::vector<std::string>> commands = {
      {"case", "note", "1", "third"},
      {"case", "show", "1"},
      {"suspects", "1"},
      {"next", "1"},
      {"next", "1", "--tree", "1"},
      {"explain", "1", "group:reservoirs"},
      {"decide", "1"},
      {"parts", "1"},
      {"case", "symptom", "1", "hum-steady", "yes"},
      {"report", "1", "-o", "r.html"}};
  for (const auto& command : commands) {
    const Outcome told = home_.run(command);
    EXPECT_EQ(told.exit, 0) << told.err;
    EXPECT_THAT(told.out, HasSubstr("Step 2 is damaged")) << command[0] << ' ' << command[1];
    if (command[0] != "report") {
      auto with_json = command;
      with_json.emplace_back("--json");
      EXPECT_THAT(home_.run(with_json).out, HasSubstr("Step 2 is damaged")) << command[0];
    }
  }
}

TEST_F(RescueCommands, ADeviceOrAPipeIsRefusedAndNotReadForEver) {
  ASSERT_EQ(mkfifo((home_.path() / "pipe").c_str(), 0600), 0);
  for (const char* endless : {"/dev/zero", "pipe"}) {
    const Outcome refused = home_.run({"case", "rescue", endless, "-o", "saved"});
    EXPECT_EQ(refused.exit, 2);
    EXPECT_THAT(refused.err, HasSubstr("not a regular file"));
    EXPECT_NE(home_.run({"case", "import", endless}).exit, 0);
    EXPECT_NE(home_.run({"shop", "import", endless}).exit, 0);
  }
}

TEST_F(RescueCommands, OfAStoreThatDoesNotOpenEverySoundStepIsSavedAndComesBack) {
  {
    std::fstream file(store_, std::ios::in | std::ios::out | std::ios::binary);
    file << std::string(100, '\0');  // the header is gone: no database at all
  }
  EXPECT_NE(home_.run({"case", "list"}).exit, 0);
  const Outcome saved = home_.run({"case", "rescue", store_.string(), "-o", "saved"});
  EXPECT_EQ(saved.exit, 0) << saved.out << saved.err;
  EXPECT_THAT(saved.out, HasSubstr("2 cases, 4 steps saved, nothing lost."));
  EXPECT_THAT(names_in(home_.path() / "saved"), ElementsAre("case-1.json", "case-2.json"));
  const Outcome again = home_.run({"case", "rescue", store_.string(), "-o", "saved"});
  EXPECT_EQ(again.exit, 0);
  EXPECT_EQ(names_in(home_.path() / "saved").size(), 4U) << "nothing is overwritten";
  const Outcome back = home_.run({"--store", "new.db", "case", "import", "saved/case-1.json"});
  EXPECT_EQ(back.exit, 0) << back.err;
  EXPECT_THAT(home_.run({"--store", "new.db", "case", "show", "1"}).out,
              HasSubstr("walnut-cabinet"));
}

TEST_F(RescueCommands, WhatCouldNotBeSavedIsListed) {
  turn("{\"do\":\"note\",\"text\":\"walnut", "{\"do\":\"note\",\"text\":\"walnur");
  const Outcome saved = home_.run({"case", "rescue", store_.string(), "-o", "saved"});
  EXPECT_EQ(saved.exit, 1);
  EXPECT_THAT(saved.out, HasSubstr("not saved: case 1, step 2: damaged or missing"));
  const std::string list = read_whole(home_.path() / "saved/not-saved.txt");
  EXPECT_THAT(list, AllOf(HasSubstr("case 1, step 2"), HasSubstr("walnur")));
  const Outcome nothing =
      home_.run({"case", "rescue", home_.file("letter", "Dear Sir"), "-o", "x"});
  EXPECT_EQ(nothing.exit, 1);
  EXPECT_THAT(nothing.err, HasSubstr("no step of a case can be found in it"));
  EXPECT_EQ(home_.run({"case", "rescue", "missing", "-o", "x"}).exit, 2);
}

TEST_F(RescueCommands, ACaseOfEquipmentNobodyKnowsHasItsLog) {
  turn("stereo-receiver", "stereo-receivex");
  const fs::path empty = home_.path() / "no-rules";
  fs::create_directories(empty);
  EXPECT_NE(home_.run({"--knowledge", empty.string(), "case", "show", "1"}).exit, 0);
  const Outcome log = home_.run({"--knowledge", empty.string(), "case", "log", "1"});
  EXPECT_EQ(log.exit, 0) << log.err;
  EXPECT_THAT(log.out, HasSubstr("walnut-cabinet"));
  const std::string file = home_.file("half.json", home_.run({"case", "log", "1"}).out);
  EXPECT_EQ(home_.run({"case", "log", file}).exit, 2) << "no case file";
}

TEST_F(RescueCommands, TwoBenchesExportIntoOneFolder) {
  const fs::path folder = home_.path() / "shared";
  fs::create_directory(folder);
  const Home other;
  ASSERT_EQ(other.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Other"}).exit, 0);
  ASSERT_EQ(home_.run({"case", "export", "--all", "-o", folder.string()}).exit, 0);
  ASSERT_EQ(other.run({"case", "export", "--all", "-o", folder.string()}).exit, 0);
  EXPECT_EQ(names_in(folder).size(), 3U);
  // Again, with a step more: the bench's own files take the new state, nobody else's.
  ASSERT_EQ(home_.run({"case", "note", "2", "later"}).exit, 0);
  ASSERT_EQ(home_.run({"case", "export", "--all", "-o", folder.string()}).exit, 0);
  EXPECT_EQ(names_in(folder).size(), 3U);
  // A store that was copied with its bench's name, and went on by itself.
  ASSERT_EQ(home_.run({"case", "backup", "twin.db"}).exit, 0);
  ASSERT_EQ(home_.run({"--store", "twin.db", "case", "note", "1", "of-the-twin"}).exit, 0);
  ASSERT_EQ(home_.run({"case", "note", "1", "of-the-first"}).exit, 0);
  ASSERT_EQ(home_.run({"case", "export", "--all", "-o", folder.string()}).exit, 0);
  ASSERT_EQ(
      home_.run({"--store", "twin.db", "case", "export", "--all", "-o", folder.string()}).exit, 0);
  std::string all;
  for (const auto& entry : fs::directory_iterator(folder)) {
    all += read_whole(entry.path());
  }
  EXPECT_THAT(all, AllOf(HasSubstr("of-the-twin"), HasSubstr("of-the-first"), HasSubstr("Other")));
}

/// As another user, who may read and not write; root would be let through everywhere.
class ReadOnlyStore : public RescueCommands {
 protected:
  [[nodiscard]] Outcome as_reader(const std::vector<std::string>& words) const {
    constexpr uid_t nobody = 65534;
    const pid_t child = fork();
    if (child == 0) {
      const bool wired = chdir("/") == 0 &&
                         std::freopen((out_ / "out").c_str(), "wb", stdout) != nullptr &&
                         std::freopen((out_ / "err").c_str(), "wb", stderr) != nullptr;
      if (!wired || (geteuid() == 0 && setuid(nobody) != 0)) {
        _exit(126);
      }
      become_program(home_.path(), words);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_whole(out_ / "out"),
            read_whole(out_ / "err")};
  }
  void SetUp() override {
    RescueCommands::SetUp();
    fs::create_directory(out_);
    chmod(home_.path().c_str(), 0555);
    for (const auto& entry : fs::recursive_directory_iterator(home_.path() / "data")) {
      chmod(entry.path().c_str(), entry.is_directory() ? 0555 : 0444);
    }
    chmod((home_.path() / "data").c_str(), 0555);
  }
  void TearDown() override {
    chmod(home_.path().c_str(), 0755);
    for (const auto& entry : fs::recursive_directory_iterator(home_.path() / "data")) {
      chmod(entry.path().c_str(), entry.is_directory() ? 0755 : 0644);
    }
    fs::remove_all(out_);
  }
  fs::path out_ = home_.path().string() + "-said";
};

TEST_F(ReadOnlyStore, IsListedShownAndExportedAndNothingElse) {
  const Outcome listed = as_reader({"case", "list"});
  if (listed.exit == 126) {
    GTEST_SKIP() << "cannot become another user here";
  }
  EXPECT_EQ(listed.exit, 0) << listed.err;
  EXPECT_THAT(listed.out, AllOf(HasSubstr("Lark"), HasSubstr("Tarn")));
  EXPECT_THAT(listed.err, HasSubstr("The case store can only be read"));
  EXPECT_THAT(as_reader({"case", "show", "1"}).out, HasSubstr("walnut-cabinet"));
  EXPECT_THAT(as_reader({"case", "export", "--all"}).out, HasSubstr("walnut-cabinet"));
  EXPECT_EQ(as_reader({"suspects", "1"}).exit, 0);
  EXPECT_EQ(as_reader({"case", "check"}).exit, 0);
  EXPECT_THAT(as_reader({"case", "log", "1"}).out, HasSubstr("walnut-cabinet"));
  const Outcome noted = as_reader({"case", "note", "1", "into-stone"});
  EXPECT_EQ(noted.exit, 2);
  EXPECT_THAT(noted.err, HasSubstr("the case store cannot be written to"));
  EXPECT_THAT(as_reader({"case", "show", "1"}).out, Not(HasSubstr("into-stone")));
}

TEST_F(RescueCommands, AFaultInAnOwnRuleDisablesThatRuleAlone) {
  const fs::path own = home_.path() / "data/dryout/own/symptoms";
  fs::create_directories(own);
  std::ofstream(own / "mine.json") << R"({"schema": 1, "symptoms": [
    {"id": "whistles-at-tea-time", "title": 7},
    {"id": "also-wrong"}]})";
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"case", "list"},
        {"case", "show", "1"},
        {"suspects", "1"},
        {"list", "symptoms"},
        {"case", "note", "1", "goes-on"},
        {"reading", "--value", "4.5", "--kind", "esr", "--capacitance", "10u", "--volts", "16"}}) {
    const Outcome outcome = home_.run(words);
    EXPECT_EQ(outcome.exit, 0) << words.front() << outcome.err;
    EXPECT_THAT(outcome.err, AllOf(HasSubstr("left out: "), HasSubstr("mine.json")))
        << words.front();
  }
  EXPECT_THAT(home_.run({"case", "show", "1"}).out, HasSubstr("Left out of your own rules"));
  EXPECT_EQ(home_.run({"lint"}).exit, 1) << "lint still tells all of it";
}

TEST_F(RescueCommands, ABrokenOwnFileOrSettingDisablesThatFileAlone) {
  fs::create_directories(home_.path() / "data/dryout/own/rules/links");
  std::ofstream(home_.path() / "data/dryout/own/rules/links/mine.json") << "{ half of a";
  std::ofstream(home_.path() / "data/dryout/shop_history.json") << "not JSON";
  const Outcome outcome = home_.run({"case", "show", "1"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_THAT(outcome.err, AllOf(HasSubstr("mine.json"), HasSubstr("the shop's own history")));
}

}  // namespace
}  // namespace dryout::app_test
