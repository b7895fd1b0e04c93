#include "quantities/measure.h"

#include <gtest/gtest.h>

#include <limits>

#include "quantities/value_list.h"

namespace dryout::quantities {
namespace {

TEST(Measure, WhatNoBenchCanMeetIsRefusedWithItsRange) {
  for (const char* text : {"1e-60", "1e300", "-1", "2G"}) {
    const auto value = parse_measure(text, Measure::esr);
    ASSERT_FALSE(value.ok()) << text;
    EXPECT_EQ(value.problems().front().accepted, "an ESR of 0 Ω, or 1 nΩ to 1 GΩ") << text;
  }
  EXPECT_TRUE(parse_measure("0.00", Measure::esr).ok()) << "a meter may show nothing";
  EXPECT_FALSE(parse_limit("0", Measure::esr).ok()) << "a limit of nothing is none";
  EXPECT_TRUE(parse_measure("-12", Measure::dc_volts).ok());
  EXPECT_FALSE(parse_measure("0", Measure::marked_capacitance).ok());
  EXPECT_FALSE(parse_measure("1e-60", Measure::marked_capacitance).ok());
  EXPECT_TRUE(parse_measure("-40", Measure::temperature).ok());
}

TEST(Measure, EveryRangeHoldsItsOwnBoundsAndNoNonsense) {
  for (int i = 0; i <= static_cast<int>(Measure::circuit_frequency); ++i) {
    const PhysicalRange& range = range_of(static_cast<Measure>(i));
    EXPECT_TRUE(range.contains(range.most)) << range.title;
    EXPECT_EQ(range.contains(0.0), range.zero && range.least <= 0.0) << range.title;
    EXPECT_FALSE(range.contains(range.most * 1.01)) << range.title;
    EXPECT_FALSE(range.contains(std::numeric_limits<double>::quiet_NaN())) << range.title;
    EXPECT_FALSE(range.contains(std::numeric_limits<double>::infinity())) << range.title;
    EXPECT_FALSE(range.describe().empty());
    if (!range.word.empty()) {
      EXPECT_EQ(measure_of(range.word), range.measure);
    }
  }
}

TEST(Measure, TellsWhatWasUnderstoodWhileItIsTyped) {
  EXPECT_EQ(understood(",47", range_of(Measure::esr))->told, "= 0.47 Ω");
  EXPECT_EQ(understood("4,7u", range_of(Measure::capacitance))->told, "= 4.7 µF");
  EXPECT_EQ(understood("10m", range_of(Measure::capacitance))->told, "= 10,000 µF");
  EXPECT_EQ(understood("0.12345", range_of(Measure::esr))->told, "= 0.12345 Ω");
  EXPECT_FALSE(understood("4,700", range_of(Measure::esr))->taken);
  EXPECT_FALSE(understood("1e12", range_of(Measure::esr))->taken);
  EXPECT_FALSE(understood("", range_of(Measure::esr)).has_value());
}

using Values = std::vector<double>;

TEST(ValueList, CommasPartValuesOnlyWhereTheyCanBeNothingElse) {
  EXPECT_EQ(*parse_list("2.2,2.5,0.6", Unit::ohm), (Values{2.2, 2.5, 0.6}));
  EXPECT_EQ(*parse_list("2k2,3k", Unit::ohm), (Values{2200.0, 3000.0}));
  EXPECT_EQ(*parse_list("2,2; 2,5;0,6", Unit::ohm), (Values{2.2, 2.5, 0.6}));
  EXPECT_EQ(*parse_list("2,2 2,5", Unit::ohm), (Values{2.2, 2.5}));
  EXPECT_EQ(*parse_list("0,047", Unit::ohm), (Values{0.047}));
  EXPECT_EQ(*parse_list("0,047;0,120", Unit::ohm), (Values{0.047, 0.120}));
  EXPECT_EQ(*parse_list("2.2, 2.5", Unit::ohm), (Values{2.2, 2.5}));
  EXPECT_EQ(*parse_list("4", Unit::ohm), (Values{4.0}));
  EXPECT_TRUE(parse_list("", Unit::ohm)->empty());
  for (const char* text : {"2,4", "2,2,2,5", "1,2k"}) {
    const auto refused = parse_list(text, Unit::ohm);
    ASSERT_FALSE(refused.ok()) << text;
    EXPECT_NE(refused.problems().front().accepted.find("semicolons"), std::string::npos);
  }
  EXPECT_FALSE(parse_list("4,700;2", Unit::ohm).ok());
}

}  // namespace
}  // namespace dryout::quantities
