// What the program leaves behind is for its user alone, stays in its folder, and nothing of it goes
// over a network.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <set>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

unsigned rights_of(const fs::path& path) {
  struct stat status {};
  EXPECT_EQ(stat(path.c_str(), &status), 0) << path;
  return status.st_mode & 0777U;
}

std::set<std::string> everything_under(const fs::path& folder) {
  std::set<std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    found.insert(entry.path().string());
  }
  return found;
}

/// The loosest umask there is: what is private must be so by itself.
class Privacy : public testing::Test {
 protected:
  void SetUp() override { before_ = umask(0); }
  void TearDown() override { umask(before_); }

  /// A case, and the file it is exported to.
  void take_a_case_in() const {
    ASSERT_EQ(home_.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Lark"}).exit,
              0);
    ASSERT_EQ(home_.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
    ASSERT_EQ(home_.run({"case", "export", "1", "-o", "case.json"}).exit, 0);
  }
  [[nodiscard]] std::string parts_list() const {
    return home_.file("parts.csv",
                      "Designator;Value;Voltage;Type;Block;Role\n"
                      "C1;10000u;50;electrolytic;rectifier;reservoir\n");
  }

  Home home_;
  mode_t before_ = 0;
};

TEST_F(Privacy, EveryFileIsForItsUserAlone) {
  take_a_case_in();
  ASSERT_EQ(
      home_.run({"describe-set", parts_list(), "--like", "stereo-receiver", "--id", "mine"}).exit,
      0);
  ASSERT_EQ(home_.run({"shop", "history", "on"}).exit, 0);
  ASSERT_EQ(home_.run({"case", "backup", "copy.db"}).exit, 0);
  ASSERT_EQ(home_.run({"report", "1", "-o", "owner.html"}).exit, 0);
  EXPECT_EQ(rights_of(home_.path() / "data/dryout"), 0700U);
  int files = 0;
  for (const std::string& path : everything_under(home_.path() / "data/dryout")) {
    if (fs::is_regular_file(path)) {
      EXPECT_EQ(rights_of(path), 0600U) << path;
      ++files;
    }
  }
  EXPECT_GE(files, 3) << "the store, a setting, an own set";
  for (const char* kept : {"copy.db", "case.json", "owner.html"}) {
    EXPECT_EQ(rights_of(home_.path() / kept), 0600U) << kept;
  }
}

TEST_F(Privacy, NoPathInsideAFileLeadsOutOfItsFolder) {
  take_a_case_in();
  const std::string parts = parts_list();
  const auto before = everything_under(home_.path());
  for (const char* id : {"../escaped", "/tmp/dryout-escaped", "a/b", "..", "."}) {
    EXPECT_EQ(home_.run({"describe-set", parts, "--like", "stereo-receiver", "--id", id}).exit, 2)
        << id;
  }
  std::ifstream exported(home_.path() / "case.json");
  const std::string text{std::istreambuf_iterator<char>(exported), {}};
  for (const char* named : {"\"stereo-receiver\"", "\"identity\": \""}) {
    std::string hostile = text;
    const std::size_t at = hostile.find(named);
    ASSERT_NE(at, std::string::npos) << named;
    hostile.insert(hostile.find_last_of('"', at + std::string(named).size() - 2) + 1, "../../");
    const auto taken = home_.run({"case", "import", home_.file("hostile.json", hostile)});
    EXPECT_EQ(taken.exit, 2) << named << taken.out;
    EXPECT_THAT(taken.err, HasSubstr("hostile.json")) << named;
  }
  auto after = everything_under(home_.path());
  after.erase((home_.path() / "hostile.json").string());
  EXPECT_EQ(after, before);
}

/// OpenGL and the window system speak to the display over sockets of their own; the program itself
/// asks for none.
TEST_F(Privacy, TheProgramImportsNothingThatReachesANetwork) {
  const std::string imports = output_of(std::string("nm -D --undefined-only ") + DRYOUT_BINARY);
  ASSERT_THAT(imports, HasSubstr("sqlite3_open_v2")) << "nm must have read it";
  for (const char* call : {" socket", " connect", " bind", " listen", " accept", " send", " recv",
                           " getaddrinfo", " gethostbyname", " curl_", " SSL_"}) {
    EXPECT_EQ(imports.find(call), std::string::npos) << call;
  }
}

TEST_F(Privacy, NoJobAsksForASocketOfTheInternet) {
  const std::string trace = (home_.path() / "trace").string();
  const std::string under = "strace -f -e trace=network -o " + trace + " ";
  const std::string place =
      "cd " + home_.path().string() + " && HOME=$PWD XDG_DATA_HOME=$PWD/data ";
  if (output_of(under + "true && echo traced 2>/dev/null").find("traced") == std::string::npos) {
    GTEST_SKIP() << "strace is not here or may not trace";
  }
  take_a_case_in();
  ASSERT_EQ(home_.run({"shop", "history", "on"}).exit, 0);
  for (const char* job : {"suspects 1", "guide 1 </dev/null", "report 1 -o owner.pdf",
                          "case import case.json", "snapshot 1 --view probe -o probe.png"}) {
    (void)output_of(place + under + DRYOUT_BINARY + " " + job + " 2>&1");
    std::ifstream stream(trace);
    const std::string calls{std::istreambuf_iterator<char>(stream), {}};
    EXPECT_THAT(calls, HasSubstr("exited with")) << job;
    EXPECT_EQ(calls.find("AF_INET"), std::string::npos) << job << '\n' << calls;
  }
}

}  // namespace
}  // namespace dryout::app_test
