// What the pages of the house print can be run as printed, and what they name is there.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;

const fs::path sources = DRYOUT_SOURCE_DIR;

/// Lines indented by four blanks outside lists, without what follows a #.
std::vector<std::string> printed_commands(const std::string& file) {
  std::ifstream stream(sources / file);
  std::vector<std::string> commands;
  for (std::string line; std::getline(stream, line);) {
    if (line.rfind("    ", 0) == 0 && line.size() > 4 && line[4] != ' ') {
      commands.push_back(std::regex_replace(line.substr(4), std::regex(" +#.*"), ""));
    }
  }
  return commands;
}

/// Words as a shell splits them; double quotes hold words together.
std::vector<std::string> words_of(const std::string& command) {
  std::vector<std::string> words;
  const std::regex word("\"[^\"]*\"|[^ ]+");
  for (std::sregex_iterator at(command.begin(), command.end(), word), end; at != end; ++at) {
    const std::string text = at->str();
    words.push_back(text.front() == '"' ? text.substr(1, text.size() - 2) : text);
  }
  return words;
}

bool is_our_program(const std::string& word) {
  return word == "dryout" || word.ends_with("/src/dryout");
}

TEST(PrintedCommands, OfTheProgramRunAsPrinted) {
  int run = 0;
  for (const char* file : {"README.md", "DEVELOPERS.md"}) {
    const Home home;  // one page is one walk: its commands build on each other
    for (const std::string& command : printed_commands(file)) {
      std::vector<std::string> words = words_of(command);
      if (words.empty() || !is_our_program(words.front())) {
        continue;
      }
      words.erase(words.begin());
      const Outcome outcome = home.run(words);
      EXPECT_EQ(outcome.exit, 0) << file << ": " << command << '\n' << outcome.err;
      ++run;
    }
  }
  EXPECT_GT(run, 10);
}

/// Every page of the house that prints commands.
std::vector<std::string> pages() {
  std::vector<std::string> found{"README.md", "DEVELOPERS.md"};
  for (const char* folder : {"src", "tests", "rules", "symptoms"}) {
    for (const auto& entry : fs::recursive_directory_iterator(sources / folder)) {
      if (entry.path().filename() == "README.md") {
        found.push_back(fs::relative(entry.path(), sources).string());
      }
    }
  }
  return found;
}

bool is_preset(const std::string& name) {
  return read_whole(sources / "CMakePresets.json").find("\"name\": \"" + name + '"') !=
         std::string::npos;
}

/// What stands in the sources, or what a preset builds of them: build/dev/tests/test_circuit.
bool is_there(const std::string& path) {
  std::smatch built;
  static const std::regex in_build("build/([a-z-]+)(/(.*))?");
  if (!std::regex_match(path, built, in_build)) {
    return fs::exists(sources / path);
  }
  const std::string made = built[3];
  if (made.starts_with("tests/test_")) {
    return is_preset(built[1]) && fs::is_directory(sources / "tests" / made.substr(11));
  }
  if (made.starts_with("tests/bench/bench_")) {
    return is_preset(built[1]) &&
           fs::exists(sources / "tests/bench" / (made.substr(18) + "_bench.cpp"));
  }
  return is_preset(built[1]) || built[1] == "package";
}

/// Suites and tests of all test programs: "Suite.Name".
const std::vector<std::string>& tests_there_are() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> found;
    const std::regex test(R"(TEST(?:_[FP])?\(\s*(\w+),\s*(\w+)\))");
    for (const auto& entry : fs::recursive_directory_iterator(sources / "tests")) {
      if (entry.path().extension() == ".cpp") {
        const std::string text = read_whole(entry.path());
        for (std::sregex_iterator at(text.begin(), text.end(), test), end; at != end; ++at) {
          found.push_back(at->str(1) + '.' + at->str(2));
        }
      }
    }
    return found;
  }();
  return all;
}

bool begins_a_test(const std::string& begun) {
  const std::vector<std::string>& all = tests_there_are();
  return std::any_of(all.begin(), all.end(),
                     [&](const std::string& test) { return test.starts_with(begun); });
}

TEST(PrintedCommands, NamePresetsScriptsAndFilesThatExist) {
  int named = 0;
  for (const std::string& page : pages()) {
    for (const std::string& command : printed_commands(page)) {
      const std::vector<std::string> words = words_of(command);
      for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == "--preset" && i + 1 < words.size()) {
          EXPECT_TRUE(is_preset(words[i + 1])) << page << ": " << command;
          ++named;
        }
        if (std::regex_search(words[i], std::regex("^(third_party|tests|build)/"))) {
          EXPECT_TRUE(is_there(words[i])) << page << ": " << command;
          ++named;
        }
        if (words[i].starts_with("--gtest_filter=")) {
          EXPECT_TRUE(begins_a_test(words[i].substr(15, words[i].find('*') - 15)))
              << page << ": " << command;
          ++named;
        }
      }
    }
  }
  EXPECT_GE(named, 20);
}

/// Nothing is printed that no test here looks at: each begins with our program, with what
/// is_there() knows, or with a tool that the page tells how to get.
TEST(PrintedCommands, BeginWithWhatAStrangerHas) {
  const std::regex head(
      "([A-Z_]+=[^ ]+ )*(dryout|cmake|ctest|cpack|ninja|git|cppcheck|"
      "(third_party|tests|build)/[^ ]+)( .*)?");
  for (const char* page : {"README.md", "DEVELOPERS.md"}) {
    for (const std::string& command : printed_commands(page)) {
      EXPECT_TRUE(std::regex_match(command, head)) << page << ": " << command;
    }
  }
}

/// What stands `so` within a line; a line's end in it is a blank.
std::vector<std::string> named_in_passing(const std::string& page) {
  const std::string text = std::regex_replace(read_whole(sources / page), std::regex("\n *"), " ");
  std::vector<std::string> found;
  const std::regex code("`([^`]+)`");
  for (std::sregex_iterator at(text.begin(), text.end(), code), end; at != end; ++at) {
    found.push_back(at->str(1));
  }
  return found;
}

TEST(PrintedCommands, ThoseNamedInPassingHaveTheirOptions) {
  const Home home;
  int named = 0;
  for (const char* page : {"README.md", "DEVELOPERS.md"}) {
    for (const std::string& code : named_in_passing(page)) {
      std::vector<std::string> words = words_of(code);
      if (words.size() < 2 || !is_our_program(words.front())) {
        continue;
      }
      words.erase(words.begin());
      // "case check" is one command of two words, "list symptoms" a command and what it is asked.
      std::vector<std::string> help{words.front()};
      if (words.front() == "case" || words.front() == "shop") {
        help.push_back(words.at(1));
      }
      help.emplace_back("--help");
      const Outcome outcome = home.run(help);
      EXPECT_EQ(outcome.exit, 0) << page << ": " << code << '\n' << outcome.err;
      for (const std::string& word : words) {
        if (word.starts_with("-")) {
          EXPECT_NE(outcome.out.find(word), std::string::npos) << page << ": " << code;
        }
      }
      ++named;
    }
  }
  EXPECT_GT(named, 5);
}

TEST(PrintedCommands, FilesAndTestsNamedInPassingAreThere) {
  const std::regex path("(src|tests|third_party|build)/[a-z_/.-]*");
  const std::regex test("[A-Z][A-Za-z]+\\.[A-Z]\\w+(\\.\\.\\.)?");
  int named = 0;
  for (const std::string& page : pages()) {
    for (const std::string& code : named_in_passing(page)) {
      if (std::regex_match(code, path)) {
        EXPECT_TRUE(is_there(code)) << page << ": " << code;
        ++named;
      } else if (std::regex_match(code, test)) {
        EXPECT_TRUE(begins_a_test(code.substr(0, code.find("...")))) << page << ": " << code;
        ++named;
      }
    }
  }
  EXPECT_GT(named, 50);
}

TEST(PrintedCommands, TestsThatTheTableOfFaultsNamesAreThere) {
  std::ifstream stream(sources / "DEVELOPERS.md");
  const std::regex name("`([A-Z]\\w+(\\.\\w+)?)(\\.\\.\\.)?`");
  bool within = false;
  int named = 0;
  for (std::string line; std::getline(stream, line);) {
    within = line == "| fault | what happens | test |" || (within && line.starts_with('|'));
    if (!within) {
      continue;
    }
    const std::string tests = line.substr(line.rfind('|', line.size() - 2));
    for (std::sregex_iterator at(tests.begin(), tests.end(), name), end; at != end; ++at) {
      EXPECT_TRUE(begins_a_test(at->str(1))) << line;
      ++named;
    }
  }
  EXPECT_GE(named, 15);
}

}  // namespace
}  // namespace dryout::app_test
