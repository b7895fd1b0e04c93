// Numbers as people type them, through the built program: decimal commas, values that cannot be,
// and prints of parts.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

Outcome number_case_in(const Home& home) {
  return home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Larkfield 40",
                   "--year", "1978", "--complaint", "hums"});
}

/// Whether all bytes are printable, a line break or part of a UTF-8 sequence.
bool is_text(const std::string& bytes) {
  for (const char c : bytes) {
    if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') return false;
  }
  return true;
}

TEST(NumberCommands, ADecimalCommaIsOneAndIsTold) {
  const Home home;
  ASSERT_EQ(number_case_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "heed", "1", "reservoirs"}).exit, 0);
  const Outcome kept = home.run({"case", "measure", "1", "reservoirs", ",47", "--limit", "0,3",
                                 "--limit-source", "datasheet"});
  EXPECT_EQ(kept.exit, 0) << kept.err;
  EXPECT_THAT(kept.out, HasSubstr("Understood: 0.47 Ω against 0.3 Ω"));
  const auto shown = home.json({"case", "show", "1"});
  EXPECT_DOUBLE_EQ(number_at(shown, {"readings", "0", "value"}), 0.47);
  const Outcome named = home.run(
      {"case", "name-part", "1", "C12", "reservoirs", "--capacitance", "4,7u", "--volts", "6,3"});
  EXPECT_THAT(named.out, HasSubstr("Understood: 4.7 µF, 6.3 V")) << named.err;
  EXPECT_EQ(home.run({"decide", "1", "--years", "2,5"}).exit, 0);
}

TEST(NumberCommands, WhatMayPartThousandsIsRefusedWithTheTwoWaysToWriteIt) {
  const Home home;
  ASSERT_EQ(number_case_in(home).exit, 0);
  const std::vector<std::vector<std::string>> commands{
      {"case", "measure", "1", "reservoirs", "4,700"},
      {"case", "name-part", "1", "C12", "reservoirs", "--capacitance", "4,700u"},
      {"reading", "--value", "4,700", "--capacitance", "47u", "--volts", "25"},
      {"marking", "4,700"},
      {"decide", "1", "--years", "2,500"}};
  for (const auto& command : commands) {
    const Outcome refused = home.run(command);
    EXPECT_EQ(refused.exit, 2) << command.front();
    EXPECT_THAT(refused.err, AllOf(HasSubstr("for the thousands"), HasSubstr("decimal comma")));
  }
}

TEST(NumberCommands, AZeroInFrontCountsNoThousands) {
  const Home home;
  ASSERT_EQ(number_case_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "heed", "1", "reservoirs"}).exit, 0);
  EXPECT_THAT(home.run({"case", "measure", "1", "reservoirs", "0,047"}).out,
              HasSubstr("Understood: 47 mΩ"));
  EXPECT_THAT(
      home.run({"case", "name-part", "1", "C12", "reservoirs", "--capacitance", "0,047u"}).out,
      HasSubstr("Understood: 47 nF"));
  EXPECT_EQ(home.run({"reading", "--value", "0,047", "--capacitance", "47u", "--volts", "25"}).exit,
            0);
  EXPECT_THAT(home.run({"marking", "0,047", "--body", "film"}).out, HasSubstr("1. 47 nF"));
  EXPECT_EQ(home.run({"decide", "1", "--years", "0,500"}).exit, 0);
}

TEST(NumberCommands, BrothersArePartedBySemicolonsWhereCommasAreDecimal) {
  const Home home;
  const std::vector<std::string> part{"reading", "--value",       "2,4", "--kind",
                                      "esr",     "--capacitance", "47u", "--volts",
                                      "25",      "--limit",       "1,1"};
  std::vector<std::string> points = part;
  points.insert(points.end(), {"--cohort", "2.2,2.5,0.6"});
  std::vector<std::string> commas = part;
  commas.insert(commas.end(), {"--cohort", "2,2;2,5;0,6"});
  EXPECT_EQ(home.run(points).out, home.run(commas).out);
  std::vector<std::string> unclear = part;
  unclear.insert(unclear.end(), {"--cohort", "2,4"});
  const Outcome refused = home.run(unclear);
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("--cohort"), HasSubstr("semicolons")));
}

TEST(NumberCommands, AValueThatCannotBeIsRefusedInPrintableWords) {
  const Home home;
  ASSERT_EQ(number_case_in(home).exit, 0);
  const std::string before = home.run({"case", "export", "1"}).out;
  for (const char* value : {"1e-60", "1e300", "-1e300", "1e-320", "1e308", "-0.1"}) {
    for (const std::vector<std::string>& command : std::vector<std::vector<std::string>>{
             {"case", "measure", "1", "reservoirs", value, "--limit", "1", "--limit-source",
              "datasheet"},
             {"case", "measure", "1", "reservoirs", "1", "--limit", value},
             {"case", "measure", "1", "reservoirs", "1", "--frequency", value},
             {"case", "measure", "1", "reservoirs", "1", "--lead-zero", value},
             {"case", "name-part", "1", "C12", "reservoirs", "--capacitance", value},
             {"case", "name-part", "1", "C12", "reservoirs", "--volts", value},
             {"reading", "--value", value, "--capacitance", "47u", "--volts", "25"},
             {"keep-limit", "--maker", "M", "--series", "S", "--capacitance", "47u", "--volts",
              "25", "--esr", value}}) {
      const Outcome refused = home.run(command);
      EXPECT_EQ(refused.exit, 2) << command.front() << ' ' << value << refused.out;
      EXPECT_THAT(refused.err, HasSubstr("is not possible")) << command.front() << ' ' << value;
      EXPECT_THAT(refused.err, HasSubstr(" to ")) << "the range is named";
      EXPECT_TRUE(is_text(refused.err)) << value;
    }
  }
  EXPECT_EQ(home.run({"case", "export", "1"}).out, before) << "nothing was kept";
}

TEST(NumberCommands, APrintIsReadAsTheStatedPartWouldCarryIt) {
  const Home home;
  const auto first = [&home](std::vector<std::string> words) {
    words.insert(words.begin(), "marking");
    return number_at(home.json(words), {"readings", "0", "capacitance_F"});
  };
  EXPECT_DOUBLE_EQ(first({"476", "--body", "tantalum"}), 47e-6);
  EXPECT_DOUBLE_EQ(first({"330", "--body", "mica"}), 330e-12);
  EXPECT_DOUBLE_EQ(first({"330", "--body", "ceramic"}), 33e-12);
  EXPECT_DOUBLE_EQ(first({"330", "--body", "ceramic", "--year", "1955"}), 330e-12);
  EXPECT_DOUBLE_EQ(first({"0.1F 5.5V"}), 0.1);
  EXPECT_DOUBLE_EQ(first({"brown black orange"}), 10e-9);
  const auto can = home.json({"marking", "40/20/20 450V", "--body", "can"});
  EXPECT_DOUBLE_EQ(number_at(can, {"readings", "0", "sections", "2", "capacitance_F"}), 20e-6);
  const Outcome told = home.run({"marking", "10000 uF 63V", "--body", "can"});
  EXPECT_THAT(told.out, AllOf(HasSubstr("1. 10,000 µF, 63 V"), Not(HasSubstr("10 mF"))));
  const Outcome weak = home.run({"marking", "47/16", "--body", "can", "--volts", "24"});
  EXPECT_THAT(weak.out, HasSubstr("its 16 V lie below the 24 V that stand across it"));
}

}  // namespace
}  // namespace dryout::app_test
