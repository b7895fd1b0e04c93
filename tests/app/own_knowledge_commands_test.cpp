// describe-set, list and the shop's meters, as a stranger runs them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using ::testing::HasSubstr;

constexpr const char* parts =
    "Designator;Value;Voltage;Type;Block;Role\n"
    "\"C1,C2\";10000u;50;electrolytic;rectifier;reservoir\n"
    "C3;22u;35;electrolytic;power-left;bootstrap\n"
    "C4;1u;35;electrolytic;power-left;humming\n"
    "R1;10k;;;;\n";

TEST(DescribeSetCommand, KeepsAnEquipmentThatCasesCanStandOn) {
  const Home home;
  const std::string file = home.file("parts.csv", parts);
  const auto answer = home.json(
      {"describe-set", file, "--like", "stereo-receiver", "--id", "my-set", "--title", "My set"});
  EXPECT_EQ(text_at(answer, {"id"}), "my-set");
  EXPECT_EQ(number_at(answer, {"placed"}), 3.0);
  EXPECT_EQ(number_at(answer, {"other_parts", "R"}), 1.0);
  EXPECT_TRUE(std::filesystem::exists(text_at(answer, {"written"})));
  EXPECT_THAT(home.run({"list", "equipment", "--find", "my-set"}).out, HasSubstr("My set"));
  const Outcome lint = home.run({"lint"});
  EXPECT_EQ(lint.exit, 0) << lint.out << lint.err;
  EXPECT_THAT(lint.out, HasSubstr("missing: unknown role \"humming\"; found C4, 1u"));
  EXPECT_EQ(home.run({"case", "new", "--equipment", "my-set", "--set", "One"}).exit, 0);
}

TEST(DescribeSetCommand, WritesNothingOnADryRunOrARefusal) {
  const Home home;
  const std::string file = home.file("parts.csv", parts);
  EXPECT_EQ(
      home.run({"describe-set", file, "--like", "stereo-receiver", "--id", "my-set", "--dry-run"})
          .exit,
      0);
  const std::string bad = home.file("bad.csv", "Ref,Value\nC1,470\n");
  const Outcome refused = home.run({"describe-set", bad, "--id", "other"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, HasSubstr("bad.csv:2 (column 2, Value)"));
  EXPECT_THAT(refused.err, HasSubstr("found \"470\""));
  EXPECT_EQ(home.run({"list", "equipment", "--find", "my-set"}).out, "");
}

TEST(DescribeSetCommand, OverwritesOnlyWhenTold) {
  const Home home;
  const std::string file = home.file("parts.csv", parts);
  const std::vector<std::string> once = {"describe-set",    file,   "--like",
                                         "stereo-receiver", "--id", "my-set"};
  EXPECT_EQ(home.run(once).exit, 0);
  EXPECT_EQ(home.run(once).exit, 2);
  std::vector<std::string> again = once;
  again.emplace_back("--replace");
  EXPECT_EQ(home.run(again).exit, 0);
}

TEST(ReadingCommand, TheShopsMeterSettlesTestVolts) {
  const Home home;
  const std::vector<std::string> reading = {"reading", "--value",      "0.9",    "--capacitance",
                                            "47u",     "--volts",      "25",     "--limit",
                                            "1.1",     "--in-circuit", "--meter"};
  const auto with = [&](const char* meter) {
    std::vector<std::string> arguments = reading;
    arguments.emplace_back(meter);
    return home.run(arguments);
  };
  EXPECT_THAT(with("component-bridge-100k").out, HasSubstr("junctions-turn-on"));
  EXPECT_THAT(with("esr-meter-100k").out, ::testing::Not(HasSubstr("junctions-turn-on")));
  EXPECT_THAT(with("esr-meter").err, HasSubstr("esr-meter-100k"));
  EXPECT_THAT(with("leakage-tester").err, HasSubstr("does not show this kind"));
}

TEST(ReadingCommand, AMeterOfTheShopsOwnTakesThePlaceOfTheShippedOne) {
  const Home home;
  std::filesystem::create_directories(home.path() / "own/rules/meters");
  (void)home.file("own/rules/meters/bench.json", R"({"schema": 1, "meters": [
    {"id": "esr-meter-100k", "title": "The one with the red clip", "shows": ["esr"],
     "accuracy": 0.05, "floor": 0.02, "lead_zero_ohm": 0.12, "test_V": 0.8}]})");
  const Outcome outcome =
      home.run({"--knowledge", DRYOUT_SOURCE_DIR, "--knowledge", (home.path() / "own").string(),
                "reading", "--value", "0.9", "--capacitance", "47u", "--volts", "25", "--limit",
                "1.1", "--in-circuit", "--meter", "esr-meter-100k"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("junctions-turn-on"));
}

TEST(ListCommand, CountsSourcesAndSearchesEverything) {
  const Home home;
  const auto counts = home.json({"list", "--sources"});
  EXPECT_GT(number_at(counts, {"sources", "symptoms", "published"}) +
                number_at(counts, {"sources", "symptoms", "common_practice"}) +
                number_at(counts, {"sources", "symptoms", "judgement"}),
            59.0);
  const Outcome found = home.run({"list", "--find", "reservoir rectifier", "--full"});
  EXPECT_THAT(found.out, HasSubstr("touched by"));
  EXPECT_THAT(found.out, HasSubstr("Source: "));
}

}  // namespace
}  // namespace dryout::app_test
