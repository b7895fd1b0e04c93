#include "quantities/part_marking.h"

#include <gtest/gtest.h>

#include "quantities/date_code.h"
#include "quantities/preferred_value.h"

namespace dryout::quantities {
namespace {

struct Print {
  const char* text;
  Body body;
  double capacitance;
  double volts;  ///< 0 = none
  double plus;   ///< 0 = none
};

// Value and tolerance codes: IEC 60062, from memory. Voltage letters j 6.3, A 10, C 16, E 25, V 35,
// H 50: Nichicon UCD data sheet; 0J, 1A, 1C, 1E: KEMET A750 data sheet; 2A 100, 1V, 1H, 1J, 1K from
// makers' part numbers; 2D, 2G, 2W from memory.
const Print prints[] = {
    {"104", Body::ceramic_or_film, 100e-9, 0, 0},
    {"104K", Body::ceramic_or_film, 100e-9, 0, 0.10},
    {"472J", Body::ceramic_or_film, 4.7e-9, 0, 0.05},
    {"223Z", Body::ceramic_or_film, 22e-9, 0, 0.80},
    {"101", Body::ceramic_or_film, 100e-12, 0, 0},
    {"479", Body::ceramic_or_film, 4.7e-12, 0, 0},
    {"4n7", Body::ceramic_or_film, 4.7e-9, 0, 0},
    {"n47", Body::ceramic_or_film, 0.47e-9, 0, 0},
    {"p68", Body::ceramic_or_film, 0.68e-12, 0, 0},
    {"4R7", Body::ceramic_or_film, 4.7e-12, 0, 0},
    {"470n", Body::ceramic_or_film, 470e-9, 0, 0},
    {"u1", Body::ceramic_or_film, 0.1e-6, 0, 0},
    {"2A104J", Body::ceramic_or_film, 100e-9, 100, 0.05},
    {"2G473K", Body::ceramic_or_film, 47e-9, 400, 0.10},
    {"1H224J", Body::ceramic_or_film, 220e-9, 50, 0.05},
    {"A475", Body::tantalum, 4.7e-6, 10, 0},
    {"475C", Body::tantalum, 4.7e-6, 16, 0},
    {"V105", Body::tantalum, 1e-6, 35, 0},
    {"J107", Body::tantalum, 100e-6, 6.3, 0},
    {"e476", Body::tantalum, 47e-6, 2.5, 0},
    {"10 16V", Body::electrolytic_can, 10e-6, 16, 0},
    {"47\n25V", Body::electrolytic_can, 47e-6, 25, 0},
    {"220 E", Body::electrolytic_can, 220e-6, 25, 0},
    {"100 6V3", Body::electrolytic_can, 100e-6, 6.3, 0},
    {"0.47 1H", Body::electrolytic_can, 0.47e-6, 50, 0},
    {"2200 2A", Body::electrolytic_can, 2200e-6, 100, 0},
};

class KnownPrint : public testing::TestWithParam<Print> {};

TEST_P(KnownPrint, ReadsFirstAsTheStandardSays) {
  const Print& print = GetParam();
  const auto readings = read_marking(print.text, print.body);
  ASSERT_TRUE(readings.ok()) << describe(readings.problems());
  const MarkingReading& first = readings->front();
  EXPECT_NEAR(first.capacitance.si(), print.capacitance, 1e-9 * print.capacitance) << first.how;
  EXPECT_DOUBLE_EQ(first.rated.value_or(Volt(0)).si(), print.volts);
  EXPECT_DOUBLE_EQ(first.tolerance.value_or(Tolerance{}).plus, print.plus);
}

INSTANTIATE_TEST_SUITE_P(PartMarking, KnownPrint, testing::ValuesIn(prints));

TEST(PartMarking, AnAmbiguousPrintGivesEveryReading) {
  const auto readings = read_marking("100", Body::unknown);
  ASSERT_TRUE(readings.ok());
  ASSERT_EQ(readings->size(), 3U);  // 10 pF by code, 100 pF plain, 100 uF plain
  EXPECT_DOUBLE_EQ(readings->at(0).capacitance.si(), 10e-12);
}

// IEC 60384-14: the rated voltage of classes X1 to Y4 is an r.m.s. value (from memory).
TEST(PartMarking, VoltsBesideASafetyClassAreAlternatingUnlessDirectIsPrinted) {
  for (const char* print : {"0.22 X2 275V", "X2 0.47 305V", "2n2 Y1 400V", "0.1u X1 250"}) {
    EXPECT_TRUE(read_marking(print)->front().alternating) << print;
  }
  for (const char* print : {"0.1u X2 630VDC", "0.22 MKP 275V", "470n 400V"}) {
    EXPECT_FALSE(read_marking(print)->front().alternating) << print;
  }
}

TEST(PartMarking, RefusesWhatHoldsNoCapacitance) {
  for (const char* text : {"", "16V", "hello", "0",
                           "1234567890123456789012345678901234567890123456789"
                           "01234567890123456789"}) {
    EXPECT_FALSE(read_marking(text).ok()) << text;
  }
}

TEST(ToleranceLetter, IsAbsoluteBelowTenPicofarads) {
  EXPECT_DOUBLE_EQ(tolerance_of('C', farads(4.7e-12))->plus, 0.25e-12);
  EXPECT_TRUE(tolerance_of('C', farads(4.7e-12))->absolute_farads);
  EXPECT_DOUBLE_EQ(tolerance_of('M', microfarads(47))->minus, 0.20);
  EXPECT_FALSE(tolerance_of('X', microfarads(1)).has_value());
}

TEST(DateCode, LettersRepeatEveryTwentyYears) {
  // Year cycle and month letters of IEC 60062 (A 1990 and 2010, H 2016, X 2009), from memory.
  const auto dates = read_date_code("H5", 2026);
  ASSERT_TRUE(dates.ok());
  ASSERT_EQ(dates->size(), 3U);
  EXPECT_EQ(dates->at(0).year, 2016);
  EXPECT_EQ(dates->at(1).year, 1996);
  EXPECT_EQ(dates->at(2).year, 1976);
  EXPECT_EQ(dates->at(0).month, 5);
  EXPECT_EQ(read_date_code("AN", 2026)->at(1).year, 1990);
  EXPECT_EQ(read_date_code("AN", 2026)->at(0).month, 11);
}

TEST(DateCode, FiguresAreYearAndWeek) {
  EXPECT_EQ(read_date_code("8512", 2026)->front().year, 1985);
  EXPECT_EQ(read_date_code("8512", 2026)->front().week, 12);
  EXPECT_EQ(read_date_code("512", 2026)->front().year, 2025);
  EXPECT_FALSE(read_date_code("8560", 2026).ok());
  EXPECT_FALSE(read_date_code("I5", 2026).ok());
}

TEST(DateCode, AYearMayHaveAFiftyThirdWeekButNoMore) {  // ISO 8601: 1992 had one
  EXPECT_EQ(read_date_code("9253", 2026)->front().week, 53);
  EXPECT_EQ(read_date_code("9201", 2026)->front().week, 1);
  EXPECT_FALSE(read_date_code("9254", 2026).ok());
  EXPECT_FALSE(read_date_code("9200", 2026).ok());
}

TEST(PreferredNumbers, FollowIec60063) {
  EXPECT_TRUE(is_preferred(microfarads(47), Series::e6));
  EXPECT_FALSE(is_preferred(microfarads(50), Series::e24));
  EXPECT_NEAR(nearest_preferred(microfarads(50), Series::e6).si(), 47e-6, 1e-12);
  EXPECT_NEAR(preferred_not_below(microfarads(50), Series::e6).si(), 68e-6, 1e-12);
  EXPECT_NEAR(preferred_not_below(microfarads(8.5), Series::e12).si(), 10e-6, 1e-12);
  // E12 as the standard prints it.
  for (const double figure : {1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2}) {
    EXPECT_TRUE(is_preferred(microfarads(figure), Series::e12)) << figure;
  }
  for (const double figure : {1.0, 2.2, 4.7}) {
    EXPECT_TRUE(is_preferred(microfarads(figure), Series::e3)) << figure;
  }
}

}  // namespace
}  // namespace dryout::quantities
