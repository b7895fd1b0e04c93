// A whole case from the command line, and what stands in the store afterwards.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "app/run_program.h"
#include "casework/words.h"

namespace dryout::app_test {
namespace {

using documents::Value;

Outcome take_in(const Home& home) {
  return home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Larkfield 40",
                   "--year", "1978", "--complaint", "hums with the volume down"});
}

TEST(CaseCommands, AWholeCaseIsThereAgainTomorrow) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const Value suspects = home.json({"suspects", "1"});
  ASSERT_FALSE(at(suspects, {"suspects"}).array_elements()->empty());
  const std::string leading = text_at(suspects, {"suspects", "0", "id"});
  ASSERT_EQ(home.run({"case", "judge", "1", leading, "at-fault"}).exit, 0);
  ASSERT_EQ(home.run({"case", "repair", "1", leading, "replaced", "--fitted", "4700u 63 V"}).exit,
            0);
  ASSERT_EQ(home.run({"case", "retest", "1", "hum-steady"}).exit, 0);
  ASSERT_EQ(home.run({"case", "finish", "1", "--cause", leading}).exit, 0);
  const Value shown = home.json({"case", "show", "1"});
  EXPECT_EQ(*at(shown, {"closed"}).boolean(), true);
  EXPECT_EQ(text_at(shown, {"cause"}), leading);
  EXPECT_EQ(at(shown, {"log"}).array_elements()->size(), 6U);
}

TEST(CaseCommands, TheNextCheckSaysWhatWhereAndWhy) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const Value next = home.json({"next", "1"});
  for (const char* key : {"title", "place_title", "probes", "good", "bad", "reason", "because"}) {
    EXPECT_NE(text_at(next, {"next", "0", key}), "") << key;
  }
  EXPECT_GT(number_at(next, {"next", "0", "gain_bits"}), 0.0);
}

TEST(CaseCommands, HeedingPrintsTheCautionsAndARefusalTheCommandToTypeFirst) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  const std::vector<std::string> measure{"case", "measure", "1", "reservoirs", "0.1"};
  const Outcome refused = home.run(measure);
  EXPECT_EQ(refused.exit, 2);
  EXPECT_NE(refused.err.find("`dryout case acknowledge 1 reservoirs@esr`"), std::string::npos)
      << refused.err;
  const Outcome heeded = home.run({"case", "heed", "1", "reservoirs@esr"});
  EXPECT_EQ(heeded.exit, 0);
  for (const char* words : {"CAUTION, Capacitors keep their charge", "Switch off, pull the plug",
                            "licensed practice"}) {
    EXPECT_NE(heeded.out.find(words), std::string::npos) << words << '\n' << heeded.out;
  }
  EXPECT_EQ(home.run(measure).exit, 0);
  const Outcome again = home.run({"case", "heed", "1", "reservoirs@esr"});
  EXPECT_EQ(again.out.find("Switch off, pull the plug"), std::string::npos) << "read before";
  EXPECT_NE(again.out.find("Read before: "), std::string::npos) << again.out;
}

TEST(CaseCommands, EverythingAPersonCanDoHasASpelling) {
  const Home home;
  for (const std::string_view word : casework::command_words()) {
    const std::string spelt = word == "take-in" ? "new" : std::string(word);
    EXPECT_EQ(home.run({"case", spelt, "--help"}).exit, 0) << word;
  }
}

TEST(CaseCommands, PlainAndOldWordsOfOneStepAreOneCommand) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const auto log_size = [&] {
    return at(home.json({"case", "show", "1"}), {"log"}).array_elements()->size();
  };
  const std::size_t before = log_size();
  EXPECT_EQ(home.run({"case", "acknowledge", "1", "reservoirs@esr"}).exit, 0);
  EXPECT_EQ(home.run({"case", "heed", "1", "reservoirs@dc-volts"}).exit, 0);
  for (const char* word : {"close-access", "shut"}) {
    EXPECT_EQ(home.run({"case", "open", "1", "lid"}).exit, 0) << word;
    EXPECT_EQ(home.run({"case", word, "1", "lid"}).exit, 0) << word;
  }
  EXPECT_EQ(log_size(), before + 6);
  const std::string leading = text_at(home.json({"suspects", "1"}), {"suspects", "0", "id"});
  for (const char* word : {"close", "finish"}) {
    ASSERT_EQ(home.run({"case", word, "1", "--cause", leading}).exit, 0) << word;
    EXPECT_EQ(text_at(home.json({"case", "show", "1"}), {"cause"}), leading) << word;
    ASSERT_EQ(home.run({"case", "reopen", "1"}).exit, 0);
  }
}

TEST(CaseCommands, TheTreeBeginsWithTheCheckThatComesNext) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const Value next = home.json({"next", "1"});
  const Value plan = home.json({"next", "1", "--tree", "2"});
  EXPECT_EQ(text_at(plan, {"tree", "check"}), text_at(next, {"next", "0", "check"}));
  EXPECT_EQ(text_at(plan, {"tree", "place"}), text_at(next, {"next", "0", "place"}));
  const double bad = number_at(plan, {"tree", "then", "bad", "reached"});
  const double good = number_at(plan, {"tree", "then", "good", "reached"});
  EXPECT_NEAR(bad + good, 1.0, 1e-9);
  EXPECT_EQ(home.run({"next", "1", "--tree", "7"}).exit, 2);
}

std::size_t count_of(const std::string& needle, const std::string& text) {
  std::size_t count = 0;
  for (std::size_t at = text.find(needle); at != std::string::npos;
       at = text.find(needle, at + 1)) {
    ++count;
  }
  return count;
}

std::size_t steps_of(const Value& step) {
  const Value* const then = step.find("then");
  return then == nullptr ? 1 : 1 + steps_of(at(*then, {"bad"})) + steps_of(at(*then, {"good"}));
}

TEST(CaseCommands, TheTreeCanBeDrawnToPrint) {
  const Home home;
  ASSERT_EQ(home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Lark & <field>",
                      "--year", "1978", "--complaint", "hums"})
                .exit,
            0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const std::string path = (home.path() / "plan.svg").string();
  ASSERT_EQ(home.run({"next", "1", "--tree", "3", "-o", path}).exit, 0);
  std::ifstream stream(path);
  const std::string chart{std::istreambuf_iterator<char>(stream), {}};
  EXPECT_EQ(chart.find("<svg "), 0U);
  EXPECT_NE(chart.find("Lark &amp; &lt;field&gt;"), std::string::npos);
  EXPECT_EQ(chart.find("<field>"), std::string::npos);
  // A box for every step of the tree, a line to all but the first, and the paper below.
  const std::size_t steps = steps_of(at(home.json({"next", "1", "--tree", "3"}), {"tree"}));
  EXPECT_EQ(count_of("<rect ", chart), steps + 1);
  EXPECT_EQ(count_of("<path ", chart), steps - 1);
  EXPECT_EQ(home.run({"next", "1", "-o", path}).exit, 2);
}

TEST(SimulateCommand, TheSameSeedPlaysTheSameSets) {
  const Home home;
  const std::vector<std::string> play = {"simulate", "--equipment", "loudspeaker-system",
                                         "--policy", "ours",        "--jobs",
                                         "5",        "--seed",      "3"};
  const Value first = home.json(play);
  EXPECT_EQ(text_at(first, {"runs", "0", "equipment"}), "loudspeaker-system");
  EXPECT_TRUE(first == home.json(play));
}

TEST(PracticeCommand, DrawsTheSameSetForASeedAndTellsTheAdvisedWay) {
  const Home home;
  const auto told = home.json({"practice", "--equipment", "loudspeaker-system", "--seed", "2"});
  EXPECT_FALSE(at(told, {"faults"}).array_elements()->empty());
  EXPECT_GT(number_at(told, {"advised", "seconds"}), 0.0);
  EXPECT_FALSE(at(told, {"advised", "steps"}).array_elements()->empty());
  const auto given_up =
      home.run({"practice", "--equipment", "loudspeaker-system", "--seed", "2"}, "q\n");
  EXPECT_EQ(given_up.exit, 0);
  EXPECT_NE(given_up.out.find("What was wrong"), std::string::npos);
}

TEST(CaseCommands, ADeclinedCheckIsNoLongerProposed) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const Value before = home.json({"next", "1"});
  const std::string check = text_at(before, {"next", "0", "check"});
  const std::string place = text_at(before, {"next", "0", "place"});
  ASSERT_EQ(home.run({"case", "decline", "1", check + (place.empty() ? "" : "@" + place)}).exit, 0);
  const Value after = home.json({"next", "1"});
  for (const Value& candidate : *at(after, {"next"}).array_elements()) {
    EXPECT_FALSE(text_at(candidate, {"check"}) == check && text_at(candidate, {"place"}) == place);
  }
}

TEST(CaseCommands, AHazardousCheckIsRefusedUntilItsCautionsAreHeeded) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const Value next = home.json({"next", "1"});
  const auto& candidates = *at(next, {"next"}).array_elements();
  const auto risky = std::find_if(candidates.begin(), candidates.end(), [](const Value& check) {
    return *at(check, {"dangerous"}).boolean();
  });
  ASSERT_NE(risky, candidates.end()) << "a receiver without a single dangerous check?";
  const std::string place = text_at(*risky, {"place"});
  const std::string name = text_at(*risky, {"check"}) + (place.empty() ? "" : "@" + place);
  EXPECT_EQ(home.run({"case", "outcome", "1", name, "bad"}).exit, 2);
  EXPECT_EQ(home.run({"case", "heed", "1", name}).exit, 0);
  EXPECT_EQ(home.run({"case", "outcome", "1", name, "bad"}).exit, 0);
}

TEST(CaseCommands, AReadingAtAHazardousPartIsRefusedUntilItsCautionsAreHeeded) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  const Outcome refused = home.run({"case", "measure", "1", "reservoirs", "2.4"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_NE(refused.err.find("its cautions must be read and heeded first"), std::string::npos)
      << refused.err;
  const Outcome told = home.run({"explain", "1", "group:reservoirs"});
  EXPECT_NE(told.out.find("CAUTION"), std::string::npos) << told.out;
  EXPECT_EQ(home.run({"case", "heed", "1", "reservoirs"}).exit, 0);
  EXPECT_EQ(home.run({"case", "measure", "1", "reservoirs", "2.4"}).exit, 0);
}

TEST(CaseCommands, UndoAndRedoComeBackToTheSamePlace) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  const Value with = home.json({"suspects", "1"});
  ASSERT_EQ(home.run({"case", "undo", "1"}).exit, 0);
  const Value without = home.json({"suspects", "1"});
  EXPECT_FALSE(at(with, {"suspects"}) == at(without, {"suspects"}));
  ASSERT_EQ(home.run({"case", "redo", "1"}).exit, 0);
  EXPECT_TRUE(at(with, {"suspects"}) == at(home.json({"suspects", "1"}), {"suspects"}));
}

TEST(CaseCommands, ExportAndImportAreARoundTripToTheByte) {
  const Home bench;
  const Home other;
  ASSERT_EQ(take_in(bench).exit, 0);
  ASSERT_EQ(bench.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
  ASSERT_EQ(bench.run({"case", "heed", "1", "reservoirs"}).exit, 0);
  ASSERT_EQ(bench
                .run({"case", "measure", "1", "reservoirs", "2.4", "--limit", "0.3",
                      "--limit-source", "datasheet", "--across", "nothing"})
                .exit,
            0);
  const std::string first = bench.run({"case", "export", "1"}).out;
  ASSERT_EQ(other.run({"case", "import", other.file("case.json", first)}).exit, 0);
  EXPECT_EQ(other.run({"case", "export", "1"}).out, first);
  EXPECT_EQ(bench.run({"suspects", other.file("case.json", first)}).exit, 0);
}

struct Wrong {
  std::vector<std::string> arguments;
  const char* named;  ///< must stand in the complaint
};

TEST(CaseCommands, WrongInputIsNamedAndNothingIsWritten) {
  const Home home;
  ASSERT_EQ(take_in(home).exit, 0);
  const std::string before = home.run({"case", "export", "1"}).out;
  const std::vector<Wrong> wrongs = {
      {{"case", "symptom", "1", "hum-stedy", "yes"}, "hum-steady"},
      {{"case", "symptom", "1", "hum-steady", "maybe"}, "unclear"},
      {{"case", "outcome", "1", "no-such-check", "bad"}, "no-such-check"},
      {{"case", "measure", "1", "reservoirs", "-3"}, "-3"},
      {{"case", "measure", "1", "reservoirs", "4,700"}, "4,7 for the decimal comma"},
      {{"case", "measure", "1", "nowhere", "3"}, "nowhere"},
      {{"case", "open", "1", "no-lid"}, "no-lid"},
      {{"case", "symptom", "77", "hum-steady", "yes"}, "77"},
      {{"case", "new", "--equipment", "toaster", "--set", "x"}, "toaster"},
      {{"explain", "1", "group:nothing"}, "group:nothing"},
      {{"case", "import", "/no/such/file"}, "/no/such/file"},
  };
  for (const Wrong& wrong : wrongs) {
    const Outcome outcome = home.run(wrong.arguments);
    EXPECT_EQ(outcome.exit, 2) << wrong.named << outcome.out << outcome.err;
    EXPECT_NE(outcome.err.find(wrong.named), std::string::npos) << outcome.err;
  }
  EXPECT_EQ(home.run({"case", "export", "1"}).out, before);
}

TEST(CaseCommands, ADamagedStoreIsRefusedAndLeftAsItIs) {
  const Home home;
  const std::string path = home.file("cases.db", std::string(4096, 'x'));
  const Outcome outcome = home.run({"--store", path, "case", "list"});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("cases.db"), std::string::npos) << outcome.err;
  EXPECT_EQ(std::filesystem::file_size(path), 4096U);
}

TEST(Knowledge, TheShippedTreeIsCleanAndListed) {
  const Home home;
  const Outcome lint = home.run({"lint"});
  EXPECT_EQ(lint.exit, 0) << lint.out;
  for (const char* what : {"symptoms", "equipment", "checks", "rules", "limits"}) {
    const Value list = home.json({"list", what});
    EXPECT_GT(at(list, {what}).array_elements()->size(), 15U) << what;
  }
}

TEST(Knowledge, TheHundredCommonestValuesAreHeldAgainstTheLimits) {
  const Home home;
  const Value told = home.json({"list", "limits", "--covered"});
  EXPECT_EQ(at(told, {"covered"}).array_elements()->size(), 100U);
  const Outcome lines = home.run({"list", "limits", "--covered"});
  EXPECT_EQ(lines.exit, 0) << lines.err;
  EXPECT_NE(lines.out.find("100 common values:"), std::string::npos) << lines.out;
  EXPECT_NE(lines.out.find("by own row"), std::string::npos);
  const Outcome other = home.run({"list", "symptoms", "--covered"});
  EXPECT_NE(other.exit, 0);
  EXPECT_NE(other.err.find("dryout list limits --covered"), std::string::npos) << other.err;
}

TEST(Guide, LeadsThroughIntakeSymptomAndProbing) {
  const Home home;
  // Words narrow the list of equipment, the first is taken; then a symptom by its owner's words.
  const std::string answers =
      "1\nstereo receiver\n1\nLarkfield 40\n1978\nMs Ferry\nit hums\n"
      "hum steady\n1\ny\n\n"
      "g\nq\n";
  const Outcome outcome = home.run({"guide"}, answers);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_NE(outcome.out.find("Do this next"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("CAUTION"), std::string::npos);
  EXPECT_EQ(text_at(home.json({"case", "show", "2"}), {"complaint"}), "it hums");
}

TEST(Guide, AFirstLookFindsTheDemoSetOnTheBench) {
  const Home home;
  const Outcome outcome = home.run({"guide"}, "2\nq\n");
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_NE(outcome.out.find("demo"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("Do this next"), std::string::npos) << outcome.out;
}

TEST(Guide, TheEndOfTheInputLosesNothing) {
  const Home home;
  const Outcome outcome = home.run({"guide"}, "1\nstereo receiver\n1\nLarkfield 40\n\n\nit hums\n");
  EXPECT_EQ(outcome.exit, 0);
  // The demo set, laid out in an empty store, and the one taken in.
  EXPECT_EQ(at(home.json({"case", "list"}), {"cases"}).array_elements()->size(), 2U);
}

TEST(CaseCommands, IdsToTypeArePrintedAndTakenShort) {
  const Home home;
  ASSERT_EQ(
      home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Lark", "--year", "1978"})
          .exit,
      0);
  EXPECT_THAT(home.run({"suspects", "1"}).out, testing::HasSubstr("[lid]"));
  EXPECT_EQ(home.run({"case", "open", "1", "lid"}).exit, 0);
  EXPECT_EQ(home.run({"explain", "1", "reservoirs"}).out,
            home.run({"explain", "1", "group:reservoirs"}).out);
  EXPECT_EQ(home.run({"explain", "1", "reservoirs"}).exit, 0);
  EXPECT_THAT(home.run({"explain", "1", "reservoirz"}).err, testing::HasSubstr("did you mean"));
  EXPECT_THAT(home.run({"case", "new", "--equipment", "foo", "--set", "L"}).err,
              testing::HasSubstr("dryout list equipment"));
  EXPECT_THAT(home.run({"case", "symptom", "1", "foo", "yes"}).err,
              testing::HasSubstr("dryout list symptoms"));
  EXPECT_THAT(home.run({"case", "heed", "1", "foo"}).err, testing::HasSubstr("dryout "));
  EXPECT_THAT(home.run({"case", "judge", "1", "foo", "at-fault"}).err,
              testing::HasSubstr("dryout suspects"));
}

TEST(CaseCommands, ACorrectionOfNothingIsRefused) {
  const Home home;
  ASSERT_EQ(home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Lark"}).exit, 0);
  const std::string before = home.run({"case", "export", "1"}).out;
  const Outcome refused = home.run({"case", "correct", "1"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, testing::HasSubstr("--owner"));
  EXPECT_EQ(home.run({"case", "export", "1"}).out, before);
}

}  // namespace
}  // namespace dryout::app_test
