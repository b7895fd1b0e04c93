// The house's one-way doors: every #include "room/..." in src is held against the table of
// src/README.md. Link order alone would not see a header-only leak.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using Rooms = std::set<std::string>;

const std::map<std::string, Rooms>& doors() {
  static const std::map<std::string, Rooms> table = {
      {"quantities", {}},
      {"documents", {"quantities"}},
      {"casestore", {"documents", "quantities"}},
      {"circuit", {"documents", "quantities"}},
      {"knowledge", {"documents", "quantities"}},
      {"readings", {"circuit", "knowledge", "documents", "quantities"}},
      {"diagnosis", {"readings", "circuit", "knowledge", "documents", "quantities"}},
      {"planning", {"diagnosis", "readings", "circuit", "knowledge", "documents", "quantities"}},
      {"decision", {"documents", "quantities"}},
      {"complaints", {"knowledge", "documents", "quantities"}},
      {"casework",
       {"casestore", "complaints", "planning", "decision", "diagnosis", "readings", "circuit",
        "knowledge", "documents", "quantities"}},
      {"report", {"casework", "documents", "quantities"}},
      {"window", {"casework", "complaints", "report", "quantities"}},
      {"app",
       {"casework", "complaints", "report", "planning", "decision", "diagnosis", "readings",
        "circuit", "knowledge", "documents", "quantities"}},
  };
  return table;
}

std::vector<fs::path> sources() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(DRYOUT_SOURCE_DIR) / "src")) {
    const auto extension = entry.path().extension();
    if (extension == ".h" || extension == ".cpp") {
      files.push_back(entry.path());
    }
  }
  return files;
}

std::string room_of(const fs::path& file) {
  return fs::relative(file, fs::path(DRYOUT_SOURCE_DIR) / "src").begin()->string();
}

std::vector<std::string> lines_of(const fs::path& file) {
  std::ifstream stream(file);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

TEST(House, EveryIncludeGoesThroughADoor) {
  const std::regex include(R"(^\s*#include\s+"([a-z_]+)/)");
  int seen = 0;
  for (const fs::path& file : sources()) {
    const std::string room = room_of(file);
    ASSERT_TRUE(doors().contains(room)) << file << ": a room that is not on the map";
    for (const std::string& line : lines_of(file)) {
      std::smatch match;
      if (!std::regex_search(line, match, include) || match[1] == room) {
        continue;
      }
      ++seen;
      const bool main_opens_window = match[1] == "window" && file.filename() == "main.cpp";
      EXPECT_TRUE(doors().at(room).contains(match[1]) || main_opens_window)
          << file << " includes " << match[1] << ": no such door";
    }
  }
  EXPECT_GT(seen, 50) << "the test read no sources";
}

TEST(House, ThirdPartiesStayInTheirRooms) {
  const std::map<std::string, Rooms> homes = {
      {"nlohmann/", {"documents"}},  {"sqlite3.h", {"casestore"}},
      {"Eigen/", {"circuit"}},       {"imgui", {"window"}},
      {"GLFW/", {"window"}},         {"cairo", {"report"}},
      {"pango", {"report"}},         {"CLI/", {"app"}},
      {"libstemmer", {"complaints"}}};
  for (const fs::path& file : sources()) {
    for (const std::string& line : lines_of(file)) {
      if (line.rfind("#include", 0) != 0) {
        continue;
      }
      for (const auto& [name, rooms] : homes) {
        if (line.find('<' + name) != std::string::npos ||
            line.find('"' + name) != std::string::npos) {
          EXPECT_TRUE(rooms.contains(room_of(file))) << file << ": " << line;
        }
      }
    }
  }
}

TEST(House, NoNameIsTakenInThatIsNotUsed) {
  const std::regex taken_in(R"(^using (?:\w+::)+(\w+);$)");
  int seen = 0;
  for (const fs::path& file : sources()) {
    const std::vector<std::string> lines = lines_of(file);
    for (const std::string& line : lines) {
      std::smatch match;
      if (file.extension() != ".cpp" || !std::regex_match(line, match, taken_in)) {
        continue;
      }
      ++seen;
      const std::regex name("\\b" + match[1].str() + "\\b");
      const bool used = std::any_of(lines.begin(), lines.end(), [&](const std::string& other) {
        return other != line && std::regex_search(other, name);
      });
      EXPECT_TRUE(used) << file << ": " << line;
    }
  }
  EXPECT_GT(seen, 50) << "the test read no using-declarations";
}

TEST(House, FilesStaySmallEnoughToHoldInTheHead) {
  for (const fs::path& file : sources()) {
    const std::size_t lines_max = file.extension() == ".h" ? 300 : 500;
    EXPECT_LE(lines_of(file).size(), lines_max) << file;
  }
}

TEST(House, ADoubleIsPrintedInOnePlaceOnly) {
  const std::regex banned(
      R"(\b(v?s?n?printf|std::to_chars|std::lround)\b|std::to_string\(std::(round|floor|ceil))");
  // A count of minutes and of years, both bounded before they are rounded.
  const std::set<std::string> whole{
      "engineering_notation.cpp", "owner_advice.cpp", "bench_mending.cpp",
      "weigh_mending.cpp",        "recommend.cpp",    "assess_ratio.cpp"};
  for (const fs::path& file : sources()) {
    if (file.stem() == "printed_number") continue;
    for (const std::string& line : lines_of(file)) {
      const std::string code = line.substr(0, line.find("//"));
      const bool rounds = code.find("lround") != std::string::npos;
      EXPECT_TRUE(!std::regex_search(code, banned) ||
                  (rounds && whole.contains(file.filename().string())))
          << file << ": " << line << "\nquantities/printed_number.h prints any double";
    }
  }
}

TEST(House, NamesSayWhatAThingIs) {
  const std::regex banned("(^|_)(utils?|helpers?|common|misc|manager|toolbox|tmp|stuff)(_|\\.)");
  for (const fs::path& file : sources()) {
    EXPECT_FALSE(std::regex_search(file.filename().string(), banned)) << file;
  }
}

TEST(House, OwnershipIsByValueOrUniquePointer) {
  const std::regex banned(R"(std::shared_ptr|\bnew [A-Z]|\bdelete [a-z])");
  for (const fs::path& file : sources()) {
    for (const std::string& line : lines_of(file)) {
      const std::string code = line.substr(0, line.find("//"));
      EXPECT_FALSE(std::regex_search(code, banned)) << file << ": " << line;
    }
  }
}

}  // namespace
