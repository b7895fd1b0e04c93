// Names and notes that steer a terminal, turn the reading order or forge rows: seen as escapes
// wherever people read, untouched in what is stored and what programs read.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::string evil_name = "Lark\u202Efoo\u2069\u200B\n     9  2026-03-04 10:22  open    forged";
const std::string shown_name = "Lark\\u202efoo\\u2069\\u200b\\n     9  2026-03-04";
const std::string evil_note = "paint\u009b31m it";
const std::string shown_note = "paint\\u009b31m it";

/// Nothing that a terminal would obey or that nobody would see.
auto is_tame() {
  return AllOf(Not(HasSubstr("\x1b")), Not(HasSubstr("\u202E")), Not(HasSubstr("\u2069")),
               Not(HasSubstr("\u200B")), Not(HasSubstr("\u009b")));
}

class HostileNames : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(home_
                  .run({"case", "new", "--equipment", "stereo-receiver", "--set", evil_name,
                        "--owner", evil_name, "--complaint", evil_note})
                  .exit,
              0);
    ASSERT_EQ(home_.run({"case", "note", "1", evil_note}).exit, 0);
  }
  Home home_;
};

TEST_F(HostileNames, AreSeenOnTheTerminal) {
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{"case", "list"},
                                             {"case", "show", "1"},
                                             {"case", "log", "1"},
                                             {"case", "list", "--find", "Lark"}}) {
    const Outcome told = home_.run(command);
    EXPECT_EQ(told.exit, 0);
    EXPECT_THAT(told.out, AllOf(HasSubstr(shown_name), is_tame())) << command[1];
  }
  EXPECT_THAT(home_.run({"case", "show", "1"}).out, HasSubstr(shown_note));
  const Outcome refused = home_.run({"case", "show", "\x1b]0;title\x07"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, is_tame());
  EXPECT_THAT(home_.run({"\x1b[2J"}).err, is_tame());
}

TEST_F(HostileNames, AreStoredAndHandedOnAsTheyWereTyped) {
  EXPECT_EQ(text_at(home_.json({"case", "show", "1"}), {"set_name"}), evil_name);
  EXPECT_EQ(text_at(home_.json({"case", "list"}), {"cases", "0", "set_name"}), evil_name);
  EXPECT_THAT(home_.run({"case", "export", "1"}).out, HasSubstr("Lark\u202Efoo"));
}

TEST_F(HostileNames, AreSeenOnPaper) {
  for (const char* reader : {"owner", "bench"}) {
    const std::string html = (home_.path() / (std::string(reader) + ".html")).string();
    ASSERT_EQ(home_.run({"report", "1", "-o", html, "--for", reader}).exit, 0);
    EXPECT_THAT(read_whole(html), AllOf(HasSubstr(shown_name), is_tame())) << reader;
  }
}

TEST_F(HostileNames, AnEscapeOrANulIsRefusedAtEntry) {
  const Outcome refused = home_.run({"case", "note", "1", "a\x1b[2Jb"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("without control characters"), is_tame()));
  const std::string file = home_.file(
      "nul.json",
      R"({"dryout_case":1,"journal":[{"at":1,"do":"take-in","equipment":"stereo-receiver",)"
      R"("set":"a\u0000b"}]})");
  EXPECT_EQ(home_.run({"case", "import", file}).exit, 2);
}

}  // namespace
}  // namespace dryout::app_test
