// infer, circuit, plan, marking, reading: the commands that need no case, as a stranger runs them.
#include <gtest/gtest.h>

#include <cmath>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

constexpr const char* two_causes = R"({
  "items": [ {"id":"A","states":["sound","failed"],"prior":[0.9,0.1]},
             {"id":"B","states":["sound","failed"],"prior":[0.9,0.1]} ],
  "findings": [ {"id":"hum","leak":0,"causes":[{"item":"A","state":"failed","strength":0.9},
                                               {"item":"B","state":"failed","strength":0.9}]} ],
  "evidence": { "present":["hum"] } })";

TEST(InferCommand, ExplainsAway) {
  // Two causes with prior .1 and strength .9, no leak: 0.0909/0.1719. Computed by hand from the
  // noisy-OR of Pearl, Probabilistic Reasoning in Intelligent Systems, 1988.
  const Home home;
  const auto answer = home.json({"infer", home.file("n.json", two_causes)});
  EXPECT_NEAR(number_at(answer, {"items", "0", "posterior", "failed"}), 0.0909 / 0.1719, 1e-9);
  EXPECT_NEAR(number_at(answer, {"log_evidence"}), std::log(0.1719), 1e-9);
  EXPECT_DOUBLE_EQ(number_at(answer, {"findings", "0", "present"}), 1.0);
}

TEST(InferCommand, EvidenceOfProbabilityZeroIsTheAnswerNo) {
  const Home home;
  std::string text = two_causes;
  text.replace(text.find("\"present\":[\"hum\"]"), 17,
               R"("present":["hum"], "readings":[{"item":"A","likelihood":[1,0]},
                                              {"item":"B","likelihood":[1,0]}])");
  const Outcome outcome = home.run({"infer", home.file("n.json", text), "--json"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(outcome.out, "");
  EXPECT_NE(outcome.err.find("hum"), std::string::npos) << outcome.err;
}

TEST(InferCommand, NamesFileLinePointerFoundAndAccepted) {
  const Home home;
  std::string text = two_causes;
  text.replace(text.find("\"strength\":0.9"), 14, "\"strength\":1.9");
  const Outcome outcome = home.run({"infer", home.file("n.json", text)});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("n.json:4 (/findings/0/causes/0/strength)"), std::string::npos)
      << outcome.err;
  EXPECT_NE(outcome.err.find("found 1.9"), std::string::npos) << outcome.err;
}

TEST(InferCommand, HostileFilesAreRefusedWithoutACrash) {
  const Home home;
  const std::string deep(200'000, '[');
  const std::vector<std::string> hostile = {
      "",
      "nul",
      deep,
      "{\"items\":NaN}",
      "[]",
      "{\"items\":[1e999]}",
      "{\"items\":{}}",
      "\xff\xfe",
      "{\"cohorts\":[],\"items\":[],\"findings\":[],\"surprise\":1}"};
  for (const std::string& text : hostile) {
    const Outcome outcome = home.run({"infer", home.file("n.json", text), "--json"});
    EXPECT_EQ(outcome.exit, 2) << text.substr(0, 40);
    EXPECT_EQ(outcome.out, "") << text.substr(0, 40);
    EXPECT_NE(outcome.err.find("n.json"), std::string::npos) << outcome.err;
  }
}

TEST(InferCommand, AHundredMegabytesAreRefusedUnread) {
  const Home home;
  const std::string path = home.file("big.json", "[");
  std::filesystem::resize_file(path, 100'000'000);
  const Outcome outcome = home.run({"infer", path});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("too large"), std::string::npos) << outcome.err;
}

TEST(CircuitCommand, AnOpenPartBehindACeramicReadsTheCeramic) {
  // 10 uF open with 100 nF across it at 100 kHz: 1/(2 pi f C) = 15.915 ohm, the definition of
  // capacitive reactance.
  const Home home;
  const auto answer = home.json({"circuit", home.file("c.json", R"({
      "frequency_Hz":100000, "probe":["a","b"], "meter":"impedance",
      "elements":[ {"id":"C1","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-5,"esr_ohm":4.5,"esl_H":0},
                   {"id":"C2","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-7,"esr_ohm":0,"esl_H":0} ],
      "target":"C1", "limit_ohm":3.0 })")});
  EXPECT_NEAR(number_at(answer, {"reading_if_open_ohm"}), 15.915494309, 1e-6);
  EXPECT_EQ(*at(answer, {"masked"}).boolean(), false);
}

TEST(PlanCommand, PutsTheLikeliestPerMinuteFirst) {
  // Probability over cost: p = .5 .3 .2, costs 4 2 1, order third, second, first (Heckerman, Breese
  // and Rommelse, CACM 38(3), 1995, the rule). With the last repair also paid: 1 + .8*2 + .5*4.
  const Home home;
  const std::string problem = home.file("p.json", R"({
      "faults": [{"id":"a","prior":0.5},{"id":"b","prior":0.3},{"id":"c","prior":0.2}],
      "access": [], "checks": [],
      "repairs": [{"id":"fix-a","fixes":["a"],"minutes":4,"access":[]},
                  {"id":"fix-b","fixes":["b"],"minutes":2,"access":[]},
                  {"id":"fix-c","fixes":["c"],"minutes":1,"access":[]}],
      "give_up_minutes": 120 })");
  for (const char* policy :
       {"ours", "look-ahead", "optimal", "probability-over-cost", "information-gain"}) {
    const auto answer = home.json({"plan", problem, "--policy", policy});
    EXPECT_NEAR(number_at(answer, {"expected_minutes"}), 4.6, 1e-9) << policy;
    EXPECT_EQ(text_at(answer, {"policy", "do"}), "fix-c") << policy;
    EXPECT_TRUE(at(answer, {"policy", "then", "still-faulty", "then", "still-faulty", "then",
                            "still-faulty"})
                    .is_null());
  }
  // In the order of probability, which is also the printed one: 4 + .5*2 + .2*1.
  for (const char* policy : {"probability-first", "fixed-order"}) {
    const auto answer = home.json({"plan", problem, "--policy", policy});
    EXPECT_NEAR(number_at(answer, {"expected_minutes"}), 5.2, 1e-9) << policy;
  }
}

TEST(MarkingCommand, ReadsACodeAndADate) {
  const Home home;
  const auto code = home.json({"marking", "2A104J"});
  EXPECT_NEAR(number_at(code, {"readings", "0", "capacitance_F"}), 100e-9, 1e-15);
  EXPECT_NEAR(number_at(code, {"readings", "0", "rated_V"}), 100.0, 1e-9);
  const auto short_print = home.json({"marking", "0931"});
  EXPECT_NEAR(number_at(short_print, {"readings", "0", "capacitance_F"}), 931e-12, 1e-15);
  EXPECT_DOUBLE_EQ(number_at(short_print, {"dates", "0", "year"}), 2009.0);
  EXPECT_DOUBLE_EQ(number_at(short_print, {"dates", "0", "week"}), 31.0);
  const auto date = home.json({"marking", "8512", "--date"});
  EXPECT_DOUBLE_EQ(number_at(date, {"dates", "0", "year"}), 1985.0);
}

TEST(ReadingCommand, TheDataSheetConvictsWhereAGeneralTableProvesNothing) {
  // A 10 uF 16 V surface-mount part whose maker allows 3 ohm at 100 kHz: 4.5 in circuit convicts;
  // against a general table (16 ohm) the same number proves nothing. Common practice, no source.
  const Home home;
  const std::vector<std::string> part = {"reading", "--value",       "4.5", "--kind",
                                         "esr",     "--capacitance", "10u", "--volts",
                                         "16",      "--body",        "smd", "--in-circuit"};
  auto sheet = part;
  sheet.insert(sheet.end(), {"--limit", "3", "--limit-source", "datasheet"});
  EXPECT_EQ(text_at(home.json(sheet), {"verdict"}), "over-limit");
  auto table = part;
  table.insert(table.end(), {"--limit", "16", "--limit-source", "general-table"});
  EXPECT_EQ(text_at(home.json(table), {"verdict"}), "not-proven");
}

TEST(ReadingCommand, RefusesACommaThatMayPartThousands) {
  const Home home;
  const Outcome outcome = home.run({"reading", "--value", "4,700", "--limit", "3"});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("--value"), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find("4,7 for the decimal comma"), std::string::npos) << outcome.err;
}

TEST(CommandLine, WrongUsageEndsWithTwoAndHelpWithZero) {
  const Home home;
  EXPECT_EQ(home.run({"no-such-command"}).exit, 2);
  EXPECT_EQ(home.run({"infer"}).exit, 2);
  EXPECT_EQ(home.run({"--help"}).exit, 0);
  EXPECT_EQ(home.run({"infer", "/no/such/file.json"}).exit, 2);
}

TEST(CommandLine, WithoutADisplayTheGuidedSessionIsNamed) {
  const Home home;
  const Outcome outcome = home.run({});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("dryout guide"), std::string::npos) << outcome.err;
}

}  // namespace
}  // namespace dryout::app_test
