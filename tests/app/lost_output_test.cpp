// Every command of the program with nowhere to print to: a full disk, a pipe whose reader is gone,
// no standard output at all. Whatever has something to say must then end with 4 and say that it was
// not heard, but for a reader that went by itself: that one ends quietly. The commands are those
// that the program itself lists, so that a new one is not forgotten.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <map>
#include <regex>
#include <set>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::Not;

using Words = std::vector<std::string>;

/// One way to run each command so that it answers. FILE:x stands for a file of the home.
const std::map<std::string, Words>& ways() {
  static const std::map<std::string, Words> all = {
      {"guide", {"guide", "1"}},
      {"practice", {"practice", "--equipment", "stereo-receiver", "--seed", "2", "--show"}},
      {"snapshot", {"snapshot", "1", "--view", "probe", "-o", "page.png"}},
      {"case new", {"case", "new", "--equipment", "stereo-receiver", "--set", "Lark"}},
      {"case list", {"case", "list"}},
      {"case show", {"case", "show", "1"}},
      {"case log", {"case", "log", "1"}},
      {"case export", {"case", "export", "1"}},
      {"case import", {"case", "import", "FILE:case.json"}},
      {"case backup", {"case", "backup", "another.db"}},
      {"case restore", {"case", "restore", "FILE:backup.db"}},
      {"case rescue", {"case", "rescue", "FILE:backup.db", "-o", "saved"}},
      {"case check", {"case", "check"}},
      {"case take-back", {"case", "take-back", "1", "3"}},
      {"case undo", {"case", "undo", "1"}},
      {"case redo", {"case", "redo", "2"}},
      {"case symptom", {"case", "symptom", "1", "hum-steady", "no"}},
      {"case outcome", {"case", "outcome", "1", "outside-hum@phono", "bad"}},
      {"case measure", {"case", "measure", "1", "reservoirs", "2.4"}},
      {"case acknowledge", {"case", "acknowledge", "1", "outside-hum@phono"}},
      {"case decline", {"case", "decline", "1", "outside-hum@phono"}},
      {"case reconsider", {"case", "reconsider", "1", "outside-hum@phono"}},
      {"case open", {"case", "open", "1", "lid"}},
      {"case close-access", {"case", "close-access", "1", "lid"}},
      {"case name-part", {"case", "name-part", "1", "C12", "reservoirs"}},
      {"case judge", {"case", "judge", "1", "reservoirs", "at-fault"}},
      {"case repair", {"case", "repair", "1", "reservoirs", "replaced"}},
      {"case retest", {"case", "retest", "4", "hum-steady"}},
      {"case proof", {"case", "proof", "4", "first-power", "passed"}},
      {"case note", {"case", "note", "1", "heard"}},
      {"case close", {"case", "close", "1"}},
      {"case reopen", {"case", "reopen", "3"}},
      {"case correct", {"case", "correct", "1", "--owner", "Widow Brandt"}},
      {"shop find", {"shop", "find", "Lark"}},
      {"shop readings", {"shop", "readings"}},
      {"shop last-time", {"shop", "last-time", "Lark"}},
      {"shop causes", {"shop", "causes"}},
      {"shop learned", {"shop", "learned", "stereo-receiver"}},
      {"shop history", {"shop", "history"}},
      {"shop figures", {"shop", "figures"}},
      {"shop words", {"shop", "words"}},
      {"complaint", {"complaint", "hums, volume down"}},
      {"shop export", {"shop", "export"}},
      {"shop import", {"shop", "import", "FILE:shop.json"}},
      {"suspects", {"suspects", "1"}},
      {"next", {"next", "1"}},
      {"explain", {"explain", "1", "group:reservoirs"}},
      {"decide", {"decide", "1"}},
      {"parts", {"parts", "1"}},
      {"report", {"report", "1", "-o", "report.html"}},
      {"reading",
       {"reading", "--value", "4.5", "--kind", "esr", "--capacitance", "10u", "--volts", "16",
        "--limit", "3", "--limit-source", "datasheet"}},
      {"marking", {"marking", "104K"}},
      {"keep-limit",
       {"keep-limit", "--maker", "Invented", "--series", "IV", "--capacitance", "47u", "--volts",
        "25", "--esr", "0.8", "--frequency", "100k"}},
      {"describe-set",
       {"describe-set", "FILE:parts.csv", "--like", "stereo-receiver", "--dry-run"}},
      {"list", {"list", "meters"}},
      {"discharge", {"discharge", "--capacitance", "470u", "--volts", "400"}},
      {"ripple", {"ripple", "--load", "1.5", "--capacitance", "4700u", "--mains", "50"}},
      {"life", {"life", "--hours", "2000", "--rated-at", "105", "--at", "65"}},
      {"lint", {"lint", DRYOUT_SOURCE_DIR}},
      {"infer", {"infer", "FILE:n.json"}},
      {"circuit", {"circuit", "FILE:c.json"}},
      {"plan", {"plan", "FILE:p.json"}},
      {"simulate", {"simulate", "--equipment", "loudspeaker-system", "--jobs", "2"}},
      {"manual", {"manual"}},
      {"completion", {"completion"}},
  };
  return all;
}

/// What prints nothing when all is well, or needs a display.
const std::set<std::string>& silent() {
  static const std::set<std::string> all = {"window", "snapshot"};
  return all;
}

enum class Sink { file, full, pipe, none };

void lay_output(Sink sink, const fs::path& home) {
  std::array<int, 2> ends{};
  switch (sink) {
    case Sink::file:
      dup2(open((home / "stdout").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDOUT_FILENO);
      return;
    case Sink::full:
      dup2(open("/dev/full", O_WRONLY), STDOUT_FILENO);
      return;
    case Sink::pipe:
      if (pipe(ends.data()) == 0) {
        dup2(ends[1], STDOUT_FILENO);
        close(ends[0]);
        close(ends[1]);
      }
      return;
    case Sink::none:
      close(STDOUT_FILENO);
  }
}

Outcome run_into(Sink sink, const fs::path& home, const Words& words) {
  const pid_t child = fork();
  if (child == 0) {
    if (chdir(home.c_str()) != 0) {
      _exit(126);
    }
    dup2(open("/dev/null", O_RDONLY), STDIN_FILENO);
    dup2(open((home / "stderr").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDERR_FILENO);
    lay_output(sink, home);
    become_program(home, words);
  }
  int status = 0;
  waitpid(child, &status, 0);
  Outcome outcome;
  outcome.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  outcome.out = sink == Sink::file ? read_whole(home / "stdout") : "";
  outcome.err = read_whole(home / "stderr");
  return outcome;
}

class LostOutput : public testing::Test {
 protected:
  /// Case 1 in the middle of its work, case 2 with a step taken back, case 3 closed, case 4 mended.
  void SetUp() override {
    const auto done = [&](const Words& words) {
      const Outcome outcome = home_.run(words);
      ASSERT_EQ(outcome.exit, 0) << words.back() << ": " << outcome.err;
    };
    for (int i = 0; i < 4; ++i) {
      done({"case", "new", "--equipment", "stereo-receiver", "--set", "Lark", "--year", "1978"});
    }
    done({"case", "symptom", "1", "hum-steady", "yes"});
    done({"case", "heed", "1", "reservoirs"});
    done({"case", "note", "1", "a note"});
    done({"case", "note", "2", "a note"});
    done({"case", "undo", "2"});
    done({"case", "finish", "3"});
    done({"case", "symptom", "4", "hum-steady", "yes"});
    done({"case", "repair", "4", "reservoirs", "replaced"});
    done({"case", "export", "1", "-o", "case.json"});
    done({"case", "backup", "backup.db"});
    done({"shop", "export", "-o", "shop.json"});
    (void)home_.file("parts.csv",
                     "reference,value,volts,block,role\nC1,4700u,50,rectifier,reservoir\n");
    (void)home_.file("n.json", R"({
      "items": [ {"id":"A","states":["sound","failed"],"prior":[0.9,0.1]} ],
      "findings": [ {"id":"hum","leak":0.01,
                     "causes":[{"item":"A","state":"failed","strength":0.9}]} ],
      "evidence": { "present":["hum"] } })");
    (void)home_.file("c.json", R"({
      "frequency_Hz":100000, "probe":["a","b"], "meter":"impedance",
      "elements":[ {"id":"C1","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-5,
                    "esr_ohm":4.5,"esl_H":0} ], "target":"C1", "limit_ohm":3.0 })");
    (void)home_.file("p.json", R"({
      "faults": [{"id":"a","prior":0.5},{"id":"b","prior":0.5}], "access": [], "checks": [],
      "repairs": [{"id":"fix-a","fixes":["a"],"minutes":4,"access":[]},
                  {"id":"fix-b","fixes":["b"],"minutes":2,"access":[]}],
      "give_up_minutes": 120 })");
  }

  /// The home as it was prepared, once more.
  [[nodiscard]] fs::path fresh_home() const {
    const fs::path copy = home_.path().string() + "-again";
    fs::remove_all(copy);
    fs::copy(home_.path(), copy, fs::copy_options::recursive);
    return copy;
  }
  void TearDown() override { fs::remove_all(home_.path().string() + "-again"); }

  [[nodiscard]] Words in(const fs::path& home, const Words& words) const {
    Words named;
    for (const std::string& word : words) {
      named.push_back(word.starts_with("FILE:") ? (home / word.substr(5)).string() : word);
    }
    return named;
  }

  Home home_;
};

/// The commands as the program lists them, those with commands below them left out.
std::set<std::string> listed_commands(const Home& home) {
  const std::string script = home.run({"completion"}).out;
  const std::regex line("\"dryout ([a-z -]+)\"\\) words=");
  std::set<std::string> all;
  for (std::sregex_iterator at(script.begin(), script.end(), line), end; at != end; ++at) {
    all.insert((*at)[1]);
  }
  std::set<std::string> leaves;
  for (const std::string& command : all) {
    const auto below = all.upper_bound(command + ' ');
    if (below == all.end() || !below->starts_with(command + ' ')) {
      leaves.insert(command);
    }
  }
  return leaves;
}

TEST_F(LostOutput, EveryCommandSaysThatItWasNotHeard) {
  int heard = 0;
  for (const std::string& command : listed_commands(home_)) {
    if (silent().contains(command)) {
      continue;
    }
    const auto way = ways().find(command);
    ASSERT_NE(way, ways().end()) << "say how to run `dryout " << command << "` in this test";
    SCOPED_TRACE(command);
    const fs::path home = fresh_home();
    const Outcome plain = run_into(Sink::file, home, in(home, way->second));
    EXPECT_LE(plain.exit, 1) << plain.err;
    EXPECT_FALSE(plain.out.empty()) << "it must have something to say for this to prove anything";
    heard += plain.out.empty() ? 0 : 1;
    for (const Sink sink : {Sink::full, Sink::pipe, Sink::none}) {
      const fs::path again = fresh_home();
      const Outcome lost = run_into(sink, again, in(again, way->second));
      EXPECT_EQ(lost.exit, 4) << static_cast<int>(sink) << lost.err;
      const auto said = HasSubstr("what was printed did not reach its place");
      if (sink == Sink::pipe) {  // its reader went by itself, as behind `| head`
        EXPECT_THAT(lost.err, Not(said));
      } else {
        EXPECT_THAT(lost.err, said) << static_cast<int>(sink);
      }
    }
  }
  EXPECT_GT(heard, 50);
}

TEST_F(LostOutput, SoDoesTheHelp) {
  for (const Words& words : {Words{"--help"}, Words{"--version"}, Words{"case", "--help"}}) {
    EXPECT_EQ(run_into(Sink::file, home_.path(), words).exit, 0);
    EXPECT_EQ(run_into(Sink::full, home_.path(), words).exit, 4);
  }
}

TEST_F(LostOutput, WhatIsStoredIsStoredAllTheSame) {
  EXPECT_EQ(run_into(Sink::full, home_.path(), {"case", "note", "1", "kept all the same"}).exit, 4);
  EXPECT_THAT(home_.run({"case", "show", "1"}).out, HasSubstr("kept all the same"));
}

/// A store that is opened while standard output is closed must not become standard output.
TEST_F(LostOutput, NoFileTakesThePlaceOfAClosedStandardOutput) {
  (void)run_into(Sink::none, home_.path(), {"case", "export", "1"});
  EXPECT_EQ(home_.run({"case", "check"}).exit, 0);
}

/// Options that name a file: a disk without room is told from the file.
TEST_F(LostOutput, AFileThatCannotBeWrittenIsNamed) {
  for (const Words& words : {Words{"case", "export", "1", "-o", "/dev/full"},
                             Words{"case", "export", "--all", "-o", "/dev/full"}}) {
    const Outcome outcome = home_.run(words);
    EXPECT_EQ(outcome.exit, 2) << words[1];
    EXPECT_THAT(outcome.err, HasSubstr("/dev/full: cannot be written; found No space left"));
  }
  EXPECT_TRUE(fs::is_character_file("/dev/full"));
}

}  // namespace
}  // namespace dryout::app_test
