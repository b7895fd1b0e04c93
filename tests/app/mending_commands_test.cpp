// decide, parts and the proof from the command line, on the shipped knowledge.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using documents::Value;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

class MendingCommands : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(home_
                  .run({"case", "new", "--equipment", "stereo-receiver", "--set", "Larkfield 40",
                        "--year", "1978"})
                  .exit,
              0);
  }
  void convict() {
    ASSERT_EQ(home_.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
    ASSERT_EQ(home_.run({"case", "judge", "1", "reservoirs", "at-fault"}).exit, 0);
  }
  [[nodiscard]] static std::size_t size_of(const Value& value, const char* key) {
    return at(value, {key}).array_elements()->size();
  }

  Home home_;
};

TEST_F(MendingCommands, DecideWeighsTheWaysOfMending) {
  convict();
  const Value mending = home_.json({"decide", "1", "--years", "3"});
  EXPECT_EQ(number_at(mending, {"horizon_years"}), 3.0);
  EXPECT_EQ(text_at(mending, {"currency"}), "EUR");
  ASSERT_GE(size_of(mending, "options"), 3U);
  EXPECT_LE(number_at(mending, {"options", "0", "expected_cost"}),
            number_at(mending, {"options", "1", "expected_cost"}));
  EXPECT_NE(text_at(mending, {"options", "0", "scope"}), "nothing");
  EXPECT_EQ(size_of(mending, "reasons"), 3U);
  const Outcome plain = home_.run({"decide", "1"});
  EXPECT_THAT(plain.out, HasSubstr("Over 5 years the least expected cost is to"));
  EXPECT_THAT(plain.out, HasSubstr("CAUTION"));
}

TEST_F(MendingCommands, AHorizonThatIsNoneIsRefused) {
  for (const char* years : {"0", "-3", "99", "nan"}) {
    const Outcome refused = home_.run({"decide", "1", "--years", years});
    EXPECT_EQ(refused.exit, 2) << years;
  }
}

TEST_F(MendingCommands, APreventiveJobNamesTheBatchesToSample) {
  const Value mending = home_.json({"decide", "1"});
  EXPECT_EQ(*at(mending, {"preventive"}).boolean(), true);
  EXPECT_GE(size_of(mending, "sampling"), 2U);
  EXPECT_GT(number_at(mending, {"sampling", "0", "mean_if_sound"}), 0.0);
  EXPECT_THAT(home_.run({"decide", "1"}).out, HasSubstr("Batches to sample"));
}

TEST_F(MendingCommands, TheProofIsRecordedAndShown) {
  convict();
  ASSERT_EQ(home_.run({"case", "repair", "1", "reservoirs", "replaced"}).exit, 0);
  ASSERT_EQ(home_.run({"case", "proof", "1", "soak", "passed", "--remark", "an hour"}).exit, 0);
  EXPECT_EQ(home_.run({"case", "proof", "1", "soak", "nearly"}).exit, 2);
  EXPECT_EQ(home_.run({"case", "proof", "1", "prayer", "passed"}).exit, 2);
  EXPECT_THAT(home_.run({"decide", "1"}).out, HasSubstr("[x] Soak"));
}

TEST_F(MendingCommands, AShopsOwnFiguresAreLaidOverTheShippedOnes) {
  convict();
  const auto own = home_.path() / "data/dryout/own/rules/decision";
  const Value shipped = home_.json({"decide", "1"});
  std::filesystem::create_directories(own);
  std::ofstream(own / "shop.json") << R"({"schema": 1, "currency": "CHF", "labour_per_hour":
      {"value": 180, "because": "Our rate.", "source": "own"}})";
  const Value dearer = home_.json({"decide", "1"});
  EXPECT_EQ(text_at(dearer, {"currency"}), "CHF");
  const auto cost = [](const Value& mending) {
    double most = 0.0;
    for (std::size_t i = 0; i < size_of(mending, "options"); ++i) {
      most = std::max(most, number_at(mending, {"options", std::to_string(i), "cost_now"}));
    }
    return most;
  };
  EXPECT_GT(cost(dearer), 2.0 * cost(shipped));
  std::ofstream(own / "shop.json") << R"({"schema": 1, "labour_per_hour": {"value": -1,
      "because": "x", "source": "own"}})";
  // A fault in an own file costs that file, with a word, not every command.
  const Outcome left_out = home_.run({"decide", "1"});
  EXPECT_EQ(left_out.exit, 0);
  EXPECT_THAT(left_out.err, HasSubstr("labour_per_hour"));
}

TEST_F(MendingCommands, AFigureOfTheShopIsSetAndTakenBackByACommand) {
  convict();
  const auto own = home_.path() / "data/dryout/own/rules/decision/shop.json";
  const Value shipped = home_.json({"shop", "figures", "labour_per_hour"});
  EXPECT_EQ(number_at(shipped, {"0", "value"}), 60.0);
  const Value all = home_.json({"shop", "figures"});
  ASSERT_NE(all.array_elements(), nullptr);
  EXPECT_GT(all.array_elements()->size(), 5U);
  const double before = number_at(home_.json({"decide", "1"}), {"options", "0", "cost_now"});
  const Value set = home_.json({"shop", "figures", "labour_per_hour", "180"});
  EXPECT_EQ(number_at(set, {"0", "value"}), 180.0);
  EXPECT_EQ(number_at(set, {"0", "shipped"}), 60.0);
  EXPECT_GT(number_at(home_.json({"decide", "1"}), {"options", "0", "cost_now"}), 2.0 * before);
  const std::string kept = read_whole(own.string());
  for (const char* wrong : {"-1", "1e9", "ten"}) {
    const Outcome refused = home_.run({"shop", "figures", "labour_per_hour", "--", wrong});
    EXPECT_EQ(refused.exit, 2) << wrong;
    EXPECT_EQ(read_whole(own.string()), kept) << "nothing half-written";
  }
  EXPECT_EQ(home_.run({"shop", "figures", "labor", "3"}).exit, 2);
  EXPECT_EQ(home_.run({"shop", "figures", "--shipped"}).exit, 2);
  ASSERT_EQ(home_.run({"shop", "figures", "labour_per_hour", "--shipped"}).exit, 0);
  EXPECT_EQ(number_at(home_.json({"decide", "1"}), {"options", "0", "cost_now"}), before);
}

TEST_F(MendingCommands, WhatMustFitStandsOnTheList) {
  convict();
  ASSERT_EQ(home_
                .run({"case", "name-part", "1", "C801", "reservoirs", "--capacitance", "10000u",
                      "--volts", "50", "--body", "35x50 snap-in pitch 10 105C 4A"})
                .exit,
            0);
  ASSERT_EQ(home_.run({"case", "judge", "1", "C801", "at-fault"}).exit, 0);
  EXPECT_THAT(home_.run({"parts", "1"}).out,
              AllOf(HasSubstr("snap-in, pitch 10 mm, at most 35 x 50 mm"),
                    HasSubstr("ripple at least 4 A"), HasSubstr("10,000")));
  const Outcome refused =
      home_.run({"case", "name-part", "1", "C802", "reservoirs", "--body", "big"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, HasSubstr("10x16"));
}

TEST_F(MendingCommands, PartsListsWhatAnyScopeWouldBuy) {
  convict();
  const Value one = home_.json({"parts", "1", "--for", "convicted-part"});
  const Value all = home_.json({"parts", "1", "--for", "all-electrolytics"});
  EXPECT_EQ(size_of(home_.json({"parts", "1", "--for", "nothing"}), "shopping"), 0U);
  EXPECT_GE(size_of(one, "shopping"), 1U);
  EXPECT_GT(size_of(all, "shopping"), size_of(one, "shopping"));
  EXPECT_GE(number_at(one, {"shopping", "0", "spares"}), 1.0);
  EXPECT_EQ(home_.run({"parts", "1", "--for", "everything"}).exit, 2);
}

TEST_F(MendingCommands, AfterARepairItSpeaksOfWhatElseToDo) {
  convict();
  EXPECT_THAT(home_.run({"decide", "1"}).out, HasSubstr("replace nothing"));
  ASSERT_EQ(home_.run({"case", "repair", "1", "reservoirs", "replaced"}).exit, 0);
  const std::string after = home_.run({"decide", "1"}).out;
  EXPECT_THAT(after, HasSubstr("Mended so far"));
  EXPECT_THAT(after, HasSubstr("leave it as it now is"));
  EXPECT_THAT(after, Not(HasSubstr("replace nothing")));
}

TEST_F(MendingCommands, TheShopsNameStandsOnItsPapers) {
  convict();
  const auto own = home_.path() / "data/dryout/own/rules/decision";
  std::filesystem::create_directories(own);
  std::ofstream(own / "shop.json") << R"({"schema": 1, "name": "Harbour Radio"})";
  const std::string sheet = (home_.path() / "parts.html").string();
  const std::string letter = (home_.path() / "owner.html").string();
  ASSERT_EQ(home_.run({"parts", "1", "-o", sheet}).exit, 0);
  EXPECT_THAT(read_whole(sheet), HasSubstr("Harbour Radio"));
  ASSERT_EQ(home_.run({"report", "1", "-o", letter, "--shop", "Quay Radio"}).exit, 0);
  EXPECT_THAT(read_whole(letter), AllOf(HasSubstr("Quay Radio"), Not(HasSubstr("Harbour"))));
}

TEST_F(MendingCommands, TheListIsPrintedAsASheet) {
  convict();
  const std::string path = (home_.path() / "parts.pdf").string();
  const Value said = home_.json({"parts", "1", "--for", "all-electrolytics", "-o", path});
  EXPECT_EQ(text_at(said, {"what"}), "parts");
  EXPECT_GE(number_at(said, {"pages"}), 1.0);
  EXPECT_EQ(read_whole(path).substr(0, 5), "%PDF-");
  const Outcome refused = home_.run({"parts", "1", "-o", "parts.doc"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_THAT(refused.err, HasSubstr(".pdf, .html or .csv"));
}

/// Reads a CSV with Python's csv module (RFC 4180), outside of the project: one JSON-ish line a
/// row, or an error.
std::string read_by_python(const std::string& path) {
  const std::string out = path + ".rows";
  const std::string script =
      "import csv,sys\n"
      "rows=list(csv.reader(open(sys.argv[1],newline='',encoding='utf-8'),strict=True))\n"
      "assert len({len(r) for r in rows})==1, 'ragged'\n"
      "bad=[f for r in rows for f in r if f[:1] in ('=','+','-','@','\\t','\\r')]\n"
      "assert not bad, bad\n"
      "print(len(rows),len(rows[0]))\n";
  std::ofstream(path + ".py") << script;
  const std::string command = "python3 '" + path + ".py' '" + path + "' > '" + out + "' 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0);  // NOLINT: paths of our own making
  std::ostringstream text;
  text << std::ifstream(out).rdbuf();
  return text.str();
}

TEST_F(MendingCommands, TheCsvOpensCleanAndCarriesNoFormula) {
  convict();
  const std::string path = (home_.path() / "parts.csv").string();
  ASSERT_EQ(home_.run({"parts", "1", "--for", "all-electrolytics", "-o", path}).exit, 0);
  const Value all = home_.json({"parts", "1", "--for", "all-electrolytics"});
  EXPECT_EQ(read_by_python(path), std::to_string(size_of(all, "shopping") + 1) + " 13\n");
  EXPECT_EQ(home_.run({"parts", "1", "-o", "/nowhere/parts.csv"}).exit, 2);
}

}  // namespace
}  // namespace dryout::app_test
