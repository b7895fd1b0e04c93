// describe-set, list and the shop's meters, as a stranger runs them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

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

TEST(KeepLimit, KeepsWhatASheetStatesOfDirectCurrent) {
  const Home home;
  const auto keep = [&](std::vector<std::string> more) {
    std::vector<std::string> words = {"keep-limit", "--maker", "Invented", "--series", "IV"};
    words.insert(words.end(), more.begin(), more.end());
    return home.run(words);
  };
  EXPECT_EQ(keep({"--technology", "film", "--capacitance", "22n", "--volts", "400", "--insulation",
                  "40G", "--insulation-volts", "100"})
                .exit,
            0);
  EXPECT_EQ(keep({"--capacitance", "47u", "--volts", "25", "--leakage", "11uA"}).exit, 0);
  EXPECT_EQ(keep({"--technology", "supercap", "--capacitance", "0.22", "--volts", "5.5", "--dc-esr",
                  "30"})
                .exit,
            0);
  EXPECT_EQ(home.run({"lint"}).exit, 0);
  const auto leak = home.json({"reading", "--kind", "leakage-current", "--value", "15u",
                               "--capacitance", "47u", "--volts", "25", "--test-volts", "25"});
  EXPECT_NEAR(number_at(leak, {"limit", "value"}), 11e-6, 1e-9);
  // What is wrong is named, and nothing is kept of it.
  EXPECT_THAT(
      keep({"--technology", "filn", "--capacitance", "1u", "--volts", "400", "--insulation", "1G"})
          .err,
      AllOf(HasSubstr("--technology"), HasSubstr("film")));
  EXPECT_THAT(keep({"--capacitance", "1u", "--volts", "400"}).err, HasSubstr("--insulation"));
  EXPECT_THAT(
      keep({"--capacitance", "1u", "--volts", "400", "--insulation-volts", "100", "--esr", "1"})
          .err,
      HasSubstr("--insulation as well"));
}

std::vector<std::string> keep_limit(std::vector<std::string> more) {
  std::vector<std::string> words = {"keep-limit", "--maker", "Invented", "--series", "IV"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(KeepLimit, ASecondRowOfAPartNeedsToBeWanted) {
  const Home home;
  EXPECT_EQ(home.run(keep_limit({"--capacitance", "47u", "--volts", "25", "--esr", "1.1",
                                 "--leakage", "12uA"}))
                .exit,
            0);
  // However the same part is typed.
  const std::vector<std::string> second =
      keep_limit({"--capacitance", "0.000047", "--volts", "25.0", "--impedance", "0.9"});
  const Outcome refused = home.run(second);
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("1.1"), HasSubstr("12 µA"), HasSubstr("--replace")));
  EXPECT_THAT(home.run({"list", "limits", "--find", "Invented", "--full"}).out,
              AllOf(HasSubstr("ESR at most: 1.1"), HasSubstr("Leakage at most: 12 µA at 25 V")));
  std::vector<std::string> wanted = second;
  wanted.emplace_back("--replace");
  EXPECT_EQ(home.run(wanted).exit, 0);
  const Outcome listed = home.run({"list", "limits", "--find", "Invented", "--full"});
  EXPECT_THAT(listed.out, AllOf(HasSubstr("|Z| at most: 0.9 "), Not(HasSubstr("Leakage"))));
}

TEST(KeepLimit, ListsWhatItKeptOfDirectCurrent) {
  const Home home;
  EXPECT_EQ(home.run(keep_limit({"--technology", "film", "--capacitance", "22n", "--volts", "400",
                                 "--insulation", "40G", "--insulation-volts", "100"}))
                .exit,
            0);
  EXPECT_EQ(home.run(keep_limit({"--technology", "supercap", "--capacitance", "0.22", "--volts",
                                 "5.5", "--dc-esr", "30"}))
                .exit,
            0);
  EXPECT_THAT(home.run({"list", "limits", "--find", "Invented", "--full"}).out,
              AllOf(HasSubstr("Insulation at least: 40 G"), HasSubstr("at 100 V"),
                    HasSubstr("D.c. resistance at most: 30")));
}

TEST(KeepLimit, WritesNothingThatItsOwnReaderRefuses) {
  const Home home;
  const std::vector<std::pair<std::vector<std::string>, std::string>> wrongs = {
      {{"--capacitance", "47u", "--volts", "25", "--tan-delta", "12"}, "--tan-delta"},
      {{"--capacitance", "1000u", "--volts", "25", "--impedance", "23"}, "--impedance"},
      {{"--capacitance", "5", "--volts", "25", "--esr", "0.01"}, "--capacitance"},
      {{"--capacitance", "47u", "--volts", "2500", "--esr", "1"}, "--volts"},
  };
  for (const auto& [words, option] : wrongs) {
    const Outcome refused = home.run(keep_limit(words));
    EXPECT_EQ(refused.exit, 2) << option << refused.out;
    EXPECT_THAT(refused.err, HasSubstr(option));
  }
  EXPECT_EQ(home.run(keep_limit({"--capacitance", "47u", "--volts", "25", "--esr", "1"})).exit, 0);
  EXPECT_EQ(home.run({"lint"}).exit, 0);
}

/// Wherever the program keeps them below the home of the test.
std::filesystem::path bench_file(const Home& home) {
  for (const auto& each : std::filesystem::recursive_directory_iterator(home.path())) {
    if (each.path().filename() == "bench.json") return each.path();
  }
  return {};
}

TEST(KeepLimit, AnEmptyOwnFolderIsNoFault) {
  const Home home;
  const auto words = keep_limit({"--capacitance", "47u", "--volts", "25", "--esr", "1"});
  ASSERT_EQ(home.run(words).exit, 0);
  const std::filesystem::path file = bench_file(home);
  ASSERT_FALSE(file.empty());
  std::filesystem::remove(file);
  EXPECT_EQ(home.run(words).exit, 0) << "an empty folder of limits";
  const std::filesystem::path own = file.parent_path().parent_path().parent_path();
  std::filesystem::remove_all(own / "rules");
  const Outcome listed = home.run({"list", "symptoms", "--find", "hum"});
  EXPECT_EQ(listed.exit, 0);
  EXPECT_EQ(listed.err, "") << "an empty own folder";
  EXPECT_EQ(home.run({"lint"}).exit, 0);
  EXPECT_EQ(home.run(words).exit, 0);
}

TEST(KeepLimit, AnotherOwnFileIsLeftAsItIs) {
  const Home home;
  ASSERT_EQ(home.run(keep_limit({"--capacitance", "47u", "--volts", "25", "--esr", "1"})).exit, 0);
  const std::filesystem::path file = bench_file(home);
  std::filesystem::rename(file, file.parent_path() / "mine.json");
  const Outcome refused =
      home.run(keep_limit({"--capacitance", "47u", "--volts", "25", "--esr", "2", "--replace"}));
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, HasSubstr("mine.json"));
  EXPECT_EQ(home.run(keep_limit({"--capacitance", "100u", "--volts", "25", "--esr", "1"})).exit, 0);
  EXPECT_EQ(home.run({"lint"}).exit, 0) << "no id stands twice";
}

TEST(LintCommand, WarnsOfASymptomThatNoEquipmentHas) {
  const Home home;
  (void)std::filesystem::create_directories(home.path() / "own/symptoms");
  (void)home.file("own/symptoms/mine.json", R"({"schema": 1, "symptoms": [{
    "id": "whistle-follows-tuning", "title": "A whistle that follows the tuning",
    "family": "receive", "because": "Invented for a test.", "source": "judgement",
    "owner_words": ["it whistles"], "quick_test": "Turn the tuning knob.",
    "discriminates": "Invented for a test.", "leak": 0.005,
    "shows": [{"phenomenon": "regenerates", "kinds": ["if-amplifier"], "strength": 0.8}]}]})");
  const Outcome lint = home.run(
      {"--knowledge", DRYOUT_SOURCE_DIR, "--knowledge", (home.path() / "own").string(), "lint"});
  EXPECT_EQ(lint.exit, 0) << lint.out;
  EXPECT_THAT(lint.out, AllOf(HasSubstr("no equipment has this symptom"), HasSubstr("mine.json"),
                              HasSubstr("whistle-follows-tuning"), HasSubstr("\"symptoms\"")));
}

/// A row of nobody's sheet, laid over the shipped ones: a slip of a power of ten.
TEST(LintCommand, RefusesRowsThatNoSheetCanState) {
  const std::vector<std::array<std::string, 3>> wrongs = {
      {R"("technology": "wet-aluminium", "capacitance_F": 1000, "rated_V": 25, "esr_ohm": 0.1)",
       "/limits/0/capacitance_F", "to 1 F"},
      {R"("technology": "film", "capacitance_F": 0.1, "rated_V": 250, "tan_delta": 0.01)",
       "/limits/0/capacitance_F", "to 1000 µF"},
      {R"("technology": "solid-tantalum", "rated_V": 350, "tan_delta": 0.06)", "/limits/0/rated_V",
       "up to 150 V"},
      {R"("technology": "wet-aluminium", "capacitance_F": 0.001, "rated_V": 25,
          "impedance_ohm": 23)",
       "/limits/0/impedance_ohm", "factor of 100"},
      {R"("technology": "polymer", "capacitance_F": 0.0001, "rated_V": 16, "esr_ohm": 24)",
       "/limits/0/esr_ohm", "factor of 100"},
      {R"("technology": "wet-aluminium", "rated_V": 25, "tan_delta": 0.0014)",
       "/limits/0/tan_delta", "factor of 100"},
  };
  for (const auto& [row, pointer, accepted] : wrongs) {
    const Home home;
    (void)std::filesystem::create_directories(home.path() / "own/rules/limits");
    (void)home.file("own/rules/limits/bench.json",
                    R"({"schema": 1, "limits": [{"id": "x", "maker": "M", "series": "S",
                        "document": "d", "mark": "read", )" +
                        row + "}]}");
    const Outcome lint = home.run(
        {"--knowledge", DRYOUT_SOURCE_DIR, "--knowledge", (home.path() / "own").string(), "lint"});
    EXPECT_EQ(lint.exit, 1) << row << lint.out << lint.err;
    EXPECT_THAT(lint.out, AllOf(HasSubstr("bench.json:"), HasSubstr(pointer), HasSubstr(accepted),
                                HasSubstr("found"), HasSubstr("accepted")));
  }
  // What is large for its kind and yet made stays.
  const Home home;
  (void)std::filesystem::create_directories(home.path() / "own/rules/limits");
  (void)home.file("own/rules/limits/bench.json", R"({"schema": 1, "limits": [
    {"id": "x", "maker": "M", "series": "S", "document": "d", "mark": "read",
     "technology": "supercap", "capacitance_F": 3000, "rated_V": 2.7, "dc_esr_ohm": 0.0003},
    {"id": "y", "maker": "M", "series": "S", "document": "d", "mark": "read",
     "technology": "wet-aluminium", "capacitance_F": 0.47, "rated_V": 16, "esr_ohm": 0.005}]})");
  EXPECT_EQ(home.run({"--knowledge", DRYOUT_SOURCE_DIR, "--knowledge",
                      (home.path() / "own").string(), "lint"})
                .exit,
            0);
}

TEST(LintCommand, RefusesNamesThatNothingHasAndEmptyConditions) {
  const std::string row = R"({"schema": 1, "limits": [{"id": "x", "maker": "M", "series": "S",
    "rated_V": 25, "esr_ohm": 1, "document": "d", "mark": "read", )";
  const std::string fit = R"({"schema": 1, "substitution": [{"id": "x", "title": "T",
    "because": "Invented for a test.", "source": "judgement", )";
  const std::string caveat = R"({"schema": 1, "caveats": [{"id": "x", "title": "T", "effect": "e",
    "because": "Invented for a test.", "source": "judgement", "when": {)";
  const std::vector<std::array<std::string, 5>> wrongs = {
      {"limits", row + R"("technology": "wet-aluminum"}]})", "/limits/0/technology", "wet-aluminum",
       "\"wet-aluminium\""},
      {"limits", row + R"("technology": "film", "grade": "polyesther"}]})", "/limits/0",
       "polyesther", "\"polyester\""},
      {"limits", row + R"("technology": "film", "body": "radiall"}]})", "/limits/0", "radiall",
       "\"radial\""},
      {"limits", row + R"("technology": "film", "where": []}]})", "/limits/0", "where", ""},
      {"substitution", fit + R"("technologies": ["papper"]}]})", "/substitution/0/technologies/0",
       "papper", "\"paper\""},
      {"substitution", fit + R"("roles": ["mains-xx"]}]})", "/substitution/0/roles/0", "mains-xx",
       "\"mains-x\""},
      {"substitution", fit + R"("rails": ["high-tensoin"]}]})", "/substitution/0/rails/0",
       "high-tensoin", "\"high-tension\""},
      {"substitution", fit + R"("fit": "fillm"}]})", "/substitution/0/fit", "fillm", "\"film\""},
      {"substitution", fit + R"("rails": []}]})", "/substitution/0/rails", "[]", "leave it out"},
      {"caveats", caveat + R"("technologies": ["papper"]}}]})", "/caveats/0/when/technologies/0",
       "papper", "\"paper\""},
      {"caveats", caveat + R"("kinds": []}}]})", "/caveats/0/when/kinds", "[]", "leave it out"},
      {"caveats", caveat + R"("verdicts": ["maskd"]}}]})", "/caveats/0/when", "maskd",
       "\"masked\""},
  };
  for (const auto& [folder, text, pointer, found, accepted] : wrongs) {
    const Home home;
    const auto own = home.path() / "own";
    std::filesystem::create_directories(own / "rules" / folder);
    (void)home.file("own/rules/" + folder + "/bench.json", text);
    const Outcome lint =
        home.run({"--knowledge", DRYOUT_SOURCE_DIR, "--knowledge", own.string(), "lint"});
    EXPECT_EQ(lint.exit, 1) << text << lint.out << lint.err;
    EXPECT_THAT(lint.out, AllOf(HasSubstr("bench.json"), HasSubstr(pointer), HasSubstr(found),
                                HasSubstr(accepted)))
        << text;
  }
}

}  // namespace
}  // namespace dryout::app_test
