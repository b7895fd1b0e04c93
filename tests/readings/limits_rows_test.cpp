// The rows that ship: how many of each family, that each is plausible, and that what a sheet says
// is what the library says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <functional>
#include <map>

#include "priors.h"
#include "readings/coverage.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using namespace quantities;  // NOLINT: makers of quantities, in a test

const std::vector<LimitRow>& rows() { return shipped_knowledge().limits.rows; }

int count_of(const std::function<bool(const LimitRow&)>& wanted) {
  return static_cast<int>(std::count_if(rows().begin(), rows().end(), wanted));
}

bool is(const LimitRow& row, const char* technology) { return row.technology == technology; }

TEST(LimitsRows, ThereAreEnoughOfEachFamilyThatABenchMeets) {
  EXPECT_GE(rows().size(), 450U);
  // Above 1,000 uF: cans, and upright series whose sheet says how the loss goes on from there.
  EXPECT_GE(count_of([](const LimitRow& r) {
              const bool above = r.capacitance ? *r.capacitance > microfarads(1000.0)
                                               : r.body == Body::can || r.tan_delta_per_1000uF > 0;
              return is(r, "wet-aluminium") && above &&
                     (r.body == Body::can || r.body == Body::radial);
            }),
            60);
  EXPECT_GE(count_of([](const LimitRow& r) { return r.body == Body::can; }), 60);
  EXPECT_GE(count_of([](const LimitRow& r) { return r.body == Body::axial; }), 30);
  EXPECT_GE(count_of([](const LimitRow& r) { return is(r, "bipolar-aluminium"); }), 20);
  EXPECT_GE(count_of([](const LimitRow& r) {
              return is(r, "film") || is(r, "mains-film") || is(r, "paper");
            }),
            40);
  EXPECT_GE(count_of([](const LimitRow& r) { return is(r, "solid-tantalum"); }), 30);
  EXPECT_GE(count_of([](const LimitRow& r) { return is(r, "polymer"); }), 20);
  EXPECT_GE(count_of([](const LimitRow& r) { return is(r, "supercap"); }), 10);
  // Most were read in their sheet; what was not says so.
  EXPECT_GE(count_of([](const LimitRow& r) { return r.mark == Mark::read; }), 400);
  EXPECT_LE(count_of([](const LimitRow& r) { return r.mark == Mark::memory; }), 100);
}

TEST(LimitsRows, OneMakerIsNotAmongThem) {
  for (const LimitRow& row : rows()) {
    EXPECT_THAT(row.maker + row.document + row.id, Not(HasSubstr("Panasonic"))) << row.id;
    EXPECT_THAT(row.id, Not(HasSubstr("panasonic")));
  }
}

TEST(LimitsRows, EveryRowIsPlausible) {
  for (const LimitRow& row : rows()) {
    const bool film = is(row, "film") || is(row, "mains-film") || is(row, "paper");
    if (row.tan_delta_max) {
      EXPECT_GE(*row.tan_delta_max, film ? 0.0002 : 0.005) << row.id;
      EXPECT_LE(*row.tan_delta_max, 0.6) << row.id;
      EXPECT_NEAR(row.tan_delta_frequency.si(), film || is(row, "ceramic") ? 10e3 : 110.0,
                  film || is(row, "ceramic") ? 95e3 : 15.0)
          << row.id;
    }
    EXPECT_GT(row.rated.si(), 2.0) << row.id;
    EXPECT_LE(row.rated.si(), 2500.0) << row.id;
    EXPECT_FALSE(row.document.empty()) << row.id;
    if (row.leakage) {
      // 1 uF to 10,000 uF at rated volts: between 10 nA and 0.1 A.
      EXPECT_GT(leakage_allowed(*row.leakage, microfarads(1.0), row.rated), 1e-8) << row.id;
      EXPECT_LT(leakage_allowed(*row.leakage, microfarads(1e4), row.rated), 0.5) << row.id;
    }
    if (row.insulation) {
      EXPECT_GE(insulation_floor(row, microfarads(0.1))->si(), 1e10) << row.id;
    }
  }
}

// R = tan delta / (2 pi f C) at 120 Hz (IEC 60384-1) is never below the resistance at 100 kHz: the
// oxide's loss only falls. And |Z| is no less than the reactance it holds (a fifth of tolerance).
TEST(LimitsRows, ResistanceFallsWithFrequencyAndImpedanceHoldsItsReactance) {
  int both = 0;
  for (const LimitRow& row : rows()) {
    const auto stated = row.esr_max ? row.esr_max : row.impedance_max;
    if (!row.capacitance || !stated || row.frequency.si() < 8e3) {
      continue;
    }
    const double x = 1.0 / (2.0 * M_PI * row.frequency.si() * row.capacitance->si());
    if (row.impedance_max) {
      EXPECT_GE(row.impedance_max->si(), 0.8 * x) << row.id;
    }
    if (row.tan_delta_max) {
      const double low = *tan_delta_allowed(row, *row.capacitance) /
                         (2.0 * M_PI * row.tan_delta_frequency.si() * row.capacitance->si());
      const double high = row.esr_max
                              ? stated->si()
                              : std::sqrt(std::max(0.0, stated->si() * stated->si() - x * x));
      // Two maxima of one sheet need not be of one part: beads of 220 uF state 0.60 and 0.90 ohm.
      EXPECT_GE(low, (is(row, "solid-tantalum") ? 0.6 : 0.75) * high) << row.id;
      ++both;
    }
  }
  EXPECT_GE(both, 90);
}

struct Spot {
  const char* id;
  const char* what;
  double says;
};

double value_of(const LimitRow& row, std::string_view what) {
  if (what == "tan") return row.tan_delta_max.value_or(-1.0);
  if (what == "z") return row.impedance_max ? row.impedance_max->si() : -1.0;
  if (what == "esr") return row.esr_max ? row.esr_max->si() : -1.0;
  if (what == "per") return row.tan_delta_per_1000uF;
  if (what == "cv") return row.leakage ? row.leakage->per_cv : -1.0;
  if (what == "plus") return row.leakage ? row.leakage->plus : -1.0;
  if (what == "most") return row.leakage ? row.leakage->most : -1.0;
  if (what == "seconds") return row.insulation ? row.insulation->ohm_farad : -1.0;
  return row.insulation ? row.insulation->least_ohm : -1.0;
}

// Typed a second time from the documents, which are named with each row.
TEST(LimitsRows, SaysWhatTheSheetsSay) {
  const Spot spots[]{
      {"nichicon-vr-25v", "tan", 0.16},                // Nichicon VR (UVR) sheet
      {"nichicon-vr-450v", "tan", 0.25},               // the same
      {"nichicon-vr-63v", "per", 0.02},                // the same: 0.02 for every 1,000 uF
      {"nichicon-rs-400v", "tan", 0.25},               // Nichicon RS (URS) sheet
      {"chemi-con-kmq-6p3v", "tan", 0.34},             // Chemi-Con KMQ sheet
      {"chemi-con-kmq-250v", "plus", 25e-6},           // the same: 0.02 CV + 25 uA after 5 minutes
      {"epcos-b41851-100v", "tan", 0.10},              // EPCOS B41851, January 2009
      {"tdk-b41858-63v", "tan", 0.10},                 // TDK B41858, October 2015
      {"sharma-lx-100v", "tan", 0.07},                 // Sharma LX
      {"sharma-lx-100v", "cv", 0.002},                 // the same
      {"nichicon-ux-63v", "tan", 0.10},                // Nichicon UX (UUX)
      {"lelon-ve-large-16v", "tan", 0.30},             // Lelon VE, 12.5 to 16 mm
      {"nichicon-un-100v", "tan", 0.09},               // Nichicon UN, bi-polarized
      {"teapo-sn-16v", "tan", 0.17},                   // Teapo SN, non polar: D.F. 17 %
      {"kp-chip-50v", "cv", 0.05},                     // KP: 0.05 CV or 10 uA
      {"chemi-con-smh-6p3v", "tan", 0.60},             // Chemi-Con SMH snap-in
      {"chemi-con-smh-63v", "most", 3e-3},             // the same: or 3 mA, whichever is smaller
      {"epcos-b41505-16v", "tan", 0.15},               // EPCOS B41505, November 2008, 100 Hz
      {"epcos-b43505-450v", "tan", 0.17},              // the same
      {"tdk-b43516-450v", "tan", 0.20},                // TDK B43516, October 2015
      {"vishay-050-63v", "plus", 4e-6},                // Vishay 050/052: 0.002 CV + 4 uA, 5 minutes
      {"sharma-sh-10u-16v", "z", 3.2},                 // Sharma SH dipped tantalum, 100 kHz
      {"sharma-sh-4p7u-35v", "z", 3.0},                // the same
      {"sharma-sh-100n-35v", "z", 26.0},               // the same
      {"sharma-sh-22u-6p3v", "tan", 0.08},             // the same: 10 to 68 uF
      {"nichicon-upw-1000u-35v-12-5x25", "z", 0.030},  // Nichicon catalogue CAT.8100N, page 2
      {"cde-381lx-470u-450v-35x50", "esr", 0.123},     // 381LX catalogue, page 10, 20 kHz
      {"cde-tcx-1000u-15v", "most", 2e-3},             // CDE TCX: 2 root(CV) uA, at most 2 mA
      {"cde-tcg-5000u-10v", "tan", 0.309},             // CDE TCG: 0.082 ohm at 120 Hz
      {"rfe-tn-25v", "tan", 0.16},                     // RFE TN, axial, non-polar
      {"nec-fr-220mf-5p5v", "esr", 180.0},             // NEC Tokin FR, 1 kHz
      {"icel-mtb-400v-10khz", "tan", 0.015},           // ICEL MTB: 150 e-4
      {"icel-mpl-250v-1khz", "tan", 0.0006},           // ICEL MPL: 6 e-4
      {"icel-ppb-630v", "seconds", 30000.0},           // ICEL PPB: over 0.33 uF
      {"kemet-r41-300v", "ohm", 1e11},                 // KEMET R41: 1 e5 MOhm up to 0.33 uF
      {"vishay-mkp1848-900v", "seconds", 10000.0},     // Vishay MKP 1848
  };
  std::map<std::string, const LimitRow*> by_id;
  for (const LimitRow& row : rows()) {
    by_id[row.id] = &row;
  }
  for (const Spot& spot : spots) {
    ASSERT_EQ(by_id.count(spot.id), 1U) << spot.id;
    EXPECT_DOUBLE_EQ(value_of(*by_id[spot.id], spot.what), spot.says) << spot.id << spot.what;
  }
}

// United States specification JAN-C-62 (second-hand): about 1.1 mA for 20 uF at 450 V.
TEST(LimitsRows, ACanOfTheValveYearsMayLeakAMilliampere) {
  const auto jan = std::find_if(rows().begin(), rows().end(),
                                [](const LimitRow& row) { return row.id == "jan-c-62-can-450v"; });
  ASSERT_NE(jan, rows().end());
  EXPECT_NEAR(leakage_allowed(*jan->leakage, microfarads(20.0), volts(450.0)), 1.1e-3, 1e-6);
}

TEST(LimitsRows, APartsOwnRowSpeaksForItsNeighboursAndAnotherGradeLittle) {
  LimitsLibrary library;
  for (const LimitRow& row : rows()) {
    if (row.id == "cde-tcg-2500u-10v-22x29" || row.id == "nichicon-vr-10v") {
      library.rows.push_back(row);
      library.rows.back().grade = "general";
    }
  }
  ASSERT_EQ(library.rows.size(), 2U);
  PartDescription part{"wet-aluminium", Body::axial, microfarads(2200.0), volts(10.0)};
  EXPECT_THAT(chosen_limit(library, part)->document, HasSubstr("TCG"));
  part.capacitance = microfarads(100.0);
  EXPECT_THAT(chosen_limit(library, part)->document, HasSubstr("VR"));
  // 134 uA would pass a leaky 10 uF 50 V of a radio: a computer's sheet isn't its own.
  part = {"wet-aluminium", Body::axial, microfarads(10.0), volts(50.0)};
  EXPECT_LT(leakage_limit(shipped_knowledge().limits, part).value, 20e-6);
}

TEST(LimitsRows, AFilmIsNotJudgedByItsResistance) {
  EXPECT_FALSE(chosen_limit(shipped_knowledge().limits,
                            {"film", Body::radial, microfarads(0.1), volts(250.0)})
                   .has_value());
}

TEST(Coverage, KnowsMostOfTheHundredCommonestValues) {
  const auto common = load_common_parts({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(common.ok()) << describe(common.problems());
  ASSERT_EQ(common->size(), 100U);
  std::map<Covered, int> counts;
  for (const Coverage& each : coverage_of(shipped_knowledge().limits, *common)) {
    ++counts[each.by];
    EXPECT_EQ(each.document.empty(), each.by == Covered::nothing);
  }
  EXPECT_EQ(counts[Covered::nothing], 0);
  std::printf("own row %d, look-alike %d, series %d, usual %d\n", counts[Covered::own_row],
              counts[Covered::look_alike], counts[Covered::series], counts[Covered::usual]);
  // A row of the value is asked before a series only where its grade is the part's: less often than
  // one would think, which is what the list must say.
  EXPECT_GE(counts[Covered::own_row] + counts[Covered::look_alike] + counts[Covered::series], 75);
  for (const Coverage& each : coverage_of(LimitsLibrary{}, *common)) {
    EXPECT_TRUE(each.by == Covered::nothing || each.by == Covered::usual) << each.document;
  }
}

// One way to one limit: the list and a reading of the part name the same source.
TEST(Coverage, NamesWhatAReadingOfThePartIsHeldAgainst) {
  const auto common = load_common_parts({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(common.ok()) << describe(common.problems());
  for (const Coverage& each : coverage_of(shipped_knowledge().limits, *common)) {
    const PartDescription& part = each.common.part;
    ReadingInput input;
    input.kind = each.kind;
    input.technology = part.technology;
    input.body = part.body;
    input.capacitance = part.capacitance;
    input.rated = part.rated;
    input.in_circuit = false;
    const Assessment a = assessed(input, each.kind == Kind::insulation ? 1e9 : 1.0);
    ASSERT_EQ(a.limit.has_value(), each.by != Covered::nothing) << each.document;
    EXPECT_EQ(a.limit ? a.limit->document : "", each.document);
    EXPECT_TRUE(each.document.empty() || a.limit_told.find(each.document) != std::string::npos);
  }
}

}  // namespace
}  // namespace dryout::readings
