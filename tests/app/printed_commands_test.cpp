// Every command that README.md and DEVELOPERS.md print runs as printed.
#include <gtest/gtest.h>

#include <fstream>
#include <regex>
#include <sstream>

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

TEST(PrintedCommands, NamePresetsScriptsAndFilesThatExist) {
  std::ifstream stream(sources / "CMakePresets.json");
  std::ostringstream presets;
  presets << stream.rdbuf();
  int named = 0;
  for (const char* file : {"README.md", "DEVELOPERS.md"}) {
    for (const std::string& command : printed_commands(file)) {
      const std::vector<std::string> words = words_of(command);
      for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == "--preset" && i + 1 < words.size()) {
          EXPECT_NE(presets.str().find("\"name\": \"" + words[i + 1] + '"'), std::string::npos)
              << file << ": " << command;
          ++named;
        }
        if (words[i].rfind("third_party/", 0) == 0 || words[i].rfind("tests/", 0) == 0) {
          EXPECT_TRUE(fs::exists(sources / words[i])) << file << ": " << command;
          ++named;
        }
      }
    }
  }
  EXPECT_GE(named, 4);
}

}  // namespace
}  // namespace dryout::app_test
