// What the program says of itself for packaging: held against man(7) and against bash itself.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(ManualPage, NamesEveryCommandAndOptionOfTheHelp) {
  const Home home;
  const std::string page = home.run({"manual"}).out;
  for (const char* section : {".TH DRYOUT 1", ".SH NAME", ".SH SYNOPSIS", ".SH COMMANDS",
                              ".SH ENVIRONMENT", ".SH FILES", ".SH EXIT STATUS", ".SH SAFETY"}) {
    EXPECT_THAT(page, HasSubstr(section));
  }
  for (const char* command : {"suspects", "next", "explain", "case measure", "infer", "lint"}) {
    EXPECT_THAT(page, HasSubstr(".SS dryout " + std::string(command)));
  }
  EXPECT_THAT(page, HasSubstr("\\fB\\-\\-json\\fR"));
}

TEST(ManualPage, SaysWhatMayBeLeftOutAndRangesInWords) {
  const Home home;
  const std::string page = home.run({"manual"}).out;
  for (const char* usage : {".SS dryout window [case]", ".SS dryout guide [case]",
                            ".SS dryout case export [case]", ".SS dryout explain case suspect"}) {
    EXPECT_THAT(page, HasSubstr(usage));
  }
  EXPECT_THAT(page, HasSubstr("320 to 8192"));
  for (const char* parsers : {"INT:", "FLOAT:", "TEXT:", "in ["}) {
    EXPECT_THAT(page, Not(HasSubstr(parsers)));
  }
}

TEST(ManualPage, NoLineBeginsWithARequestThatRoffDoesNotKnow) {
  const Home home;
  const std::string page = home.run({"manual"}).out;
  for (std::size_t at = page.find("\n."); at != std::string::npos; at = page.find("\n.", at + 1)) {
    const std::string request = page.substr(at + 1, 3);
    EXPECT_TRUE(request == ".SH" || request == ".SS" || request == ".TP") << request;
  }
}

TEST(Completion, BashOffersTheWordsOfTheCommandInHand) {
  const Home home;
  const std::string script = home.file("dryout.bash", home.run({"completion"}).out);
  const auto offered = [&](const std::string& typed, int at) {
    return output_of("bash -c 'source " + script + "; COMP_WORDS=(" + typed + "); COMP_CWORD=" +
                     std::to_string(at) + "; _dryout; echo \"${COMPREPLY[*]}\"'");
  };
  EXPECT_EQ(offered("dryout susp", 1), "suspects\n");
  EXPECT_EQ(offered("dryout case mea", 2), "measure\n");
  EXPECT_THAT(offered("dryout case measure --fre", 3), HasSubstr("--frequency"));
  EXPECT_THAT(offered("dryout case ''", 2), Not(HasSubstr("suspects")));
}

}  // namespace
}  // namespace dryout::app_test
