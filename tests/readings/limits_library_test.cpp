#include "readings/limits_library.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>

#include "documents/parse.h"
#include "priors.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using namespace quantities;  // NOLINT: makers of quantities, in a test

const LimitsLibrary& shipped() { return shipped_knowledge().limits; }

/// A tree of its own with one file of limits.
class OwnTree {
 public:
  explicit OwnTree(const std::string& text) {
    std::filesystem::create_directories(root_ / "rules" / "limits");
    std::ofstream(root_ / "rules" / "limits" / "own.json") << text;
  }
  ~OwnTree() { std::filesystem::remove_all(root_); }
  OwnTree(const OwnTree&) = delete;
  OwnTree& operator=(const OwnTree&) = delete;
  [[nodiscard]] std::string path() const { return root_.string(); }

 private:
  std::filesystem::path root_ =
      std::filesystem::temp_directory_path() /
      ("dryout-limits-" +
       std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
};

TEST(LimitsLibrary, ShipsAtLeastAHundredAndTwentyRowsOfSeveralMakersThatWereRead) {
  std::set<std::string> makers;
  std::set<std::string> technologies;
  std::size_t read = 0;
  for (const LimitRow& row : shipped().rows) {
    if (row.mark == Mark::memory) {
      continue;
    }
    ++read;
    makers.insert(row.maker);
    technologies.insert(row.technology);
  }
  EXPECT_GE(read, 120U);
  EXPECT_GE(makers.size(), 6U);
  for (const char* technology :
       {"wet-aluminium", "surface-mount-aluminium", "solid-tantalum", "polymer"}) {
    EXPECT_EQ(technologies.count(technology), 1U) << technology;
  }
}

// Nichicon HE (UHE) sheet: tan delta .22 .19 .16 .14 .12 .10 .09 .08 from 6.3 to 100 V.
TEST(LimitsLibrary, HoldsWhatTheSheetSays) {
  std::map<double, double> columns;
  for (const LimitRow& row : shipped().rows) {
    if (row.series == "HE (UHE)" && row.tan_delta_max) {
      columns[row.rated.si()] = *row.tan_delta_max;
    }
  }
  const std::map<double, double> sheet{{6.3, .22}, {10, .19}, {16, .16}, {25, .14},
                                       {35, .12},  {50, .10}, {63, .09}, {100, .08}};
  EXPECT_EQ(columns, sheet);
}

TEST(LimitsLibrary, FindsTheNearestLookAlikeFirst) {
  const auto found =
      look_alikes(shipped(), {"wet-aluminium", Body::radial, microfarads(470.0), volts(35.0)});
  ASSERT_FALSE(found.empty());
  EXPECT_THAT(found.front().row->series, HasSubstr("UHE"));
  for (std::size_t i = 1; i < found.size(); ++i) {
    EXPECT_LE(found[i - 1].distance, found[i].distance);
  }
}

TEST(LimitsLibrary, ALookAlikeIsOfTheSameTechnology) {
  for (const LookAlike& found :
       look_alikes(shipped(), {"solid-tantalum", Body::smd, microfarads(10.0), volts(16.0)})) {
    EXPECT_EQ(found.row->technology, "solid-tantalum");
  }
}

TEST(LimitsLibrary, FallsBackOnTanDeltaAndSaysSo) {
  const auto limit =
      chosen_limit(shipped(), {"wet-aluminium", Body::radial, microfarads(4.7), volts(63.0)});
  ASSERT_TRUE(limit.has_value());
  EXPECT_EQ(limit->source, LimitSource::tan_delta);
  EXPECT_EQ(limit->frequency, hertz(120.0));
}

// tan delta = 2 pi f R C (IEC 60384-1 defines it as the quotient of resistance and reactance):
// 0.16 (the 25 V column of general-purpose sheets, from memory) at 120 Hz and 100 uF are 2.12 ohm.
TEST(LimitsLibrary, WithoutAnySeriesAWetPartHasTheUsualTanDeltaAndADryOneNothing) {
  const PartDescription wet{"wet-aluminium", Body::radial, microfarads(100.0), volts(25.0)};
  const auto limit = chosen_limit(LimitsLibrary{}, wet);
  ASSERT_TRUE(limit.has_value());
  EXPECT_NEAR(limit->value, 2.1221, 1e-4);
  EXPECT_GT(limit->extra_log_spread, 0.0);
  EXPECT_THAT(limit->document, HasSubstr("no series known"));
  EXPECT_FALSE(chosen_limit(LimitsLibrary{}, {"film", {}, microfarads(1.0), volts(63.0)}));
  EXPECT_FALSE(chosen_limit(LimitsLibrary{}, {"wet-aluminium", {}, {}, volts(63.0)}));
}

// Polymer series promise 0.1 (tantalum) to 0.2 CV (aluminium): KEMET T520, A765, second-hand.
TEST(LimitsLibrary, LeakageOfAPolymerPartIsNoneOfAWetOnes) {
  const PartDescription part{"polymer", Body::radial, microfarads(10.0), volts(16.0)};
  EXPECT_NEAR(leakage_limit(LimitsLibrary{}, part).value, 0.2 * 10e-6 * 16.0, 1e-12);
}

// 0.01 CV or 3 uA: the rule of most sheets; Chemi-Con's FAQ works it for 35 V 2200 uF: 770 uA.
TEST(LimitsLibrary, LeakageFollowsTheMakersRule) {
  const PartDescription part{"wet-aluminium", Body::radial, microfarads(2200.0), volts(35.0)};
  EXPECT_NEAR(leakage_limit(LimitsLibrary{}, part).value, 770e-6, 1e-9);
  EXPECT_NEAR(
      leakage_limit(LimitsLibrary{}, {"wet-aluminium", Body::radial, microfarads(1.0), volts(16.0)})
          .value,
      3e-6, 1e-12);
  EXPECT_GT(leakage_limit(shipped(), part).value, 100e-6);
  const Limit unmarked = leakage_limit(LimitsLibrary{}, {"wet-aluminium", {}, {}, {}});
  EXPECT_DOUBLE_EQ(unmarked.value, 3e-6);
  EXPECT_GT(unmarked.extra_log_spread, 0.0);
}

// Nippon Chemi-Con SMH snap-in sheet: 0.02 CV or 3 mA, whichever is smaller, 5 minutes. Nichicon AD
// sheet: 3 root(CV) uA with C in uF: 560 uF 250 V, its example of a part number, 1.12 mA.
TEST(LimitsLibrary, LeakageOfACanHasACeilingOrGoesByTheRoot) {
  const LeakageRule smh{0.02, 0.0, 0.0, 5.0, 3e-3, 0.0};
  EXPECT_NEAR(leakage_allowed(smh, microfarads(1000.0), volts(50.0)), 1e-3, 1e-12);
  EXPECT_NEAR(leakage_allowed(smh, microfarads(10000.0), volts(63.0)), 3e-3, 1e-12);
  const LeakageRule ad{0.0, 0.0, 0.0, 5.0, 0.0, 0.003};
  EXPECT_NEAR(leakage_allowed(ad, microfarads(560.0), volts(250.0)),
              3e-6 * std::sqrt(560.0 * 250.0), 1e-12);
}

// Rows that state both: how far the resistance derived from tan delta at 120 Hz stands above the
// limit at 100 kHz. This is the measurement behind the rung's factor of a sixth and its spread.
TEST(LimitsLibrary, TheTanDeltaRungIsWhatItsOwnRowsShow) {
  double sum = 0.0;
  double square = 0.0;
  int count = 0;
  for (const LimitRow& row : shipped().rows) {
    const bool both = row.tan_delta_max && (row.esr_max || row.impedance_max) && row.capacitance;
    if (!both || !is_wet(row.technology) || *row.capacitance < microfarads(10.0)) {
      continue;
    }
    const double derived =
        derive_from_tan_delta(*row.tan_delta_max, row.tan_delta_frequency, *row.capacitance, "")
            .value;
    const double stated = row.esr_max ? row.esr_max->si() : row.impedance_max->si();
    sum += std::log(stated / derived);
    square += std::log(stated / derived) * std::log(stated / derived);
    ++count;
  }
  ASSERT_GE(count, 10);
  const double mean = sum / count;
  const double spread = std::sqrt(square / count - mean * mean);
  const Rung& rung = rung_of(LimitSource::tan_delta);
  std::printf("tan delta rung: %d rows, factor %.3f (used %.3f), spread %.2f (used %.2f)\n", count,
              std::exp(mean), rung.factor, spread, rung.log_spread);
  EXPECT_NEAR(mean, std::log(rung.factor), rung.log_spread);
  EXPECT_LE(spread, 1.5 * rung.log_spread);
}

TEST(LimitsLibrary, ARowTypedByTheTechnicianIsKeptAndTakesTheShippedOnesPlace) {
  LimitRow row = shipped().rows.front();
  row.document = "sheet in hand";
  row.esr_max = ohms(0.77);
  const OwnTree own(documents::to_text(to_json(std::vector<LimitRow>{row})));
  const auto both = load_limits({DRYOUT_SOURCE_DIR, own.path()});
  ASSERT_TRUE(both.ok()) << describe(both.problems());
  EXPECT_EQ(both->rows.size(), shipped().rows.size());
  EXPECT_EQ(both->rows.front().document, "sheet in hand");
  EXPECT_EQ(both->rows.front().esr_max, ohms(0.77));
}

TEST(LimitsLibrary, ARowReadsBackAsWritten) {
  LimitRow row;
  row.id = "mine";
  row.maker = "M";
  row.series = "S";
  row.technology = "wet-aluminium";
  row.body = Body::radial;
  row.capacitance = microfarads(100.0);
  row.rated = volts(25.0);
  row.impedance_max = ohms(0.3);
  row.tan_delta_max = 0.14;
  row.leakage = LeakageRule{0.02, 4e-6, 1e-6, 5.0, 3e-3, 0.003};
  row.tan_delta_per_1000uF = 0.02;
  row.insulation = InsulationRule{15e9, 5e3, 100.0, 1.0};
  row.dc_esr_max = ohms(50.0);
  row.document = "sheet in hand";
  row.mark = Mark::memory;
  const documents::Value written = to_json(std::vector<LimitRow>{row});
  const OwnTree own(documents::to_text(written));
  const auto back = load_limits({own.path()});
  ASSERT_TRUE(back.ok()) << describe(back.problems());
  EXPECT_EQ(back->rows.front().impedance_max, row.impedance_max);
  ASSERT_TRUE(back->rows.front().leakage.has_value());
  EXPECT_EQ(back->rows.front().leakage->plus, row.leakage->plus);
  EXPECT_EQ(back->rows.front().tan_delta_per_1000uF, 0.02);
  ASSERT_TRUE(back->rows.front().insulation.has_value());
  EXPECT_EQ(back->rows.front().insulation->ohm_farad, 5e3);
  EXPECT_EQ(back->rows.front().insulation->test_volts, 100.0);
  EXPECT_EQ(back->rows.front().dc_esr_max, ohms(50.0));
  EXPECT_TRUE(to_json(back->rows) == written);
  EXPECT_THAT(told(back->rows.front()), HasSubstr("from memory"));
}

// Nichicon RZ (URZ) sheet: 0.10 at 63 V, and 0.02 more for each 1,000 uF above 1,000 uF. For
// 10,000 uF that is 0.28, by tan delta = 2 pi f R C (IEC 60384-1) 37.1 mOhm at 120 Hz.
TEST(LimitsLibrary, TanDeltaGrowsAboveAThousandMicrofaradsWhereTheSheetSaysSo) {
  LimitRow row;
  row.tan_delta_max = 0.10;
  row.tan_delta_per_1000uF = 0.02;
  EXPECT_DOUBLE_EQ(*tan_delta_allowed(row, microfarads(470.0)), 0.10);
  EXPECT_DOUBLE_EQ(*tan_delta_allowed(row, microfarads(1000.0)), 0.10);
  EXPECT_NEAR(*tan_delta_allowed(row, microfarads(10000.0)), 0.28, 1e-12);
  EXPECT_FALSE(tan_delta_allowed(LimitRow{}, microfarads(470.0)).has_value());

  row.technology = "wet-aluminium";
  row.body = Body::radial;
  row.rated = volts(63.0);
  const auto limit = chosen_limit(LimitsLibrary{{row}},
                                  {"wet-aluminium", Body::radial, microfarads(1e4), volts(63.0)});
  ASSERT_TRUE(limit.has_value());
  EXPECT_NEAR(limit->value, 37.1e-3, 0.1e-3);
}

// The form of film sheets: 15 GOhm up to 0.33 uF, 5,000 s (MOhm uF) above: 1 uF at least 5 GOhm.
TEST(LimitsLibrary, InsulationIsAResistanceForSmallPartsAndATimeForLargeOnes) {
  LimitRow row;
  EXPECT_FALSE(insulation_floor(row, microfarads(1.0)).has_value());
  row.insulation = InsulationRule{15e9, 5e3, 100.0, 1.0};
  EXPECT_EQ(insulation_floor(row, microfarads(0.1)), ohms(15e9));
  EXPECT_NEAR(insulation_floor(row, microfarads(1.0))->si(), 5e9, 1.0);
  EXPECT_EQ(insulation_floor(row, microfarads(0.0)), ohms(15e9));
  row.insulation = InsulationRule{15e9, 0.0, 0.0, 0.0};
  EXPECT_EQ(insulation_floor(row, microfarads(10.0)), ohms(15e9));
  row.insulation = InsulationRule{0.0, 5e3, 0.0, 0.0};
  EXPECT_NEAR(insulation_floor(row, microfarads(10.0))->si(), 5e8, 1.0);
  EXPECT_FALSE(insulation_floor(row, microfarads(0.0)).has_value());
}

TEST(LimitsLibrary, AnEmptyRuleOfInsulationIsNamed) {
  const OwnTree own(R"({"schema":1,"limits":[{"id":"x","maker":"M","series":"S",
    "technology":"film","rated_V":100,"document":"d","mark":"read",
    "insulation":{"test_V":100}}]})");
  const auto loaded = load_limits({own.path()});
  ASSERT_FALSE(loaded.ok());
  EXPECT_THAT(describe(loaded.problems()), HasSubstr("least_ohm or ohm_farad"));
}

TEST(LimitsLibrary, AFileThatIsTornIsNamed) {
  const OwnTree torn("{\"schema\":1,");
  const auto loaded = load_limits({torn.path()});
  ASSERT_FALSE(loaded.ok());
  EXPECT_THAT(describe(loaded.problems()), HasSubstr("own.json"));
}

TEST(LimitsLibrary, ABodyThatThereIsNotIsNamed) {
  const OwnTree own(R"({"schema":1,"limits":[{"id":"x","maker":"M","series":"S",
    "technology":"film","body":"round","rated_V":5,"document":"d","mark":"read","esr_ohm":1}]})");
  const auto round = load_limits({own.path()});
  ASSERT_FALSE(round.ok());
  EXPECT_THAT(describe(round.problems()), HasSubstr("round"));
}

TEST(LimitsLibrary, SaysWhatIsWrongWithARowAndWhere) {
  const OwnTree own(R"({"schema":1,"limits":[
    {"id":"x","maker":"M","series":"S","technology":"film","rated_V":-5,"document":"d",
     "mark":"read",
     "esr_ohm":1},
    {"id":"x","maker":"M","series":"S","technology":"film","rated_V":5,"document":"d",
     "mark":"seen"},
    {"id":"y","maker":"M","series":"S","technology":"film","rated_V":5,"document":"d","mark":"read",
     "esr_ohms":1}]})");
  const auto loaded = load_limits({own.path()});
  ASSERT_FALSE(loaded.ok());
  const std::string said = describe(loaded.problems());
  for (const char* part :
       {"own.json", "rated_V", "used twice", "seen", "at least one limit", "esr_ohms"}) {
    EXPECT_THAT(said, HasSubstr(part));
  }
}

TEST(LimitsLibrary, ATreeWithoutLimitsIsAProblem) { EXPECT_FALSE(load_limits({"/nowhere"}).ok()); }

}  // namespace
}  // namespace dryout::readings
