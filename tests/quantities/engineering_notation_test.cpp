#include "quantities/engineering_notation.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

#include "quantities/printed_number.h"

namespace dryout::quantities {
namespace {

struct Form {
  const char* text;
  Unit unit;
  double value;
};

// Letter in the place of the point: IEC 60062 (resistance and capacitance code), from memory.
// Prefixes: SI Brochure, 9th edition, table 7.
const Form accepted_forms[] = {
    {"10u", Unit::farad, 10e-6},
    {"10uF", Unit::farad, 10e-6},
    {"10µF", Unit::farad, 10e-6},
    {"10μF", Unit::farad, 10e-6},
    {"10 µF", Unit::farad, 10e-6},
    {"4u7", Unit::farad, 4.7e-6},
    {"100n", Unit::farad, 100e-9},
    {"3n3", Unit::farad, 3.3e-9},
    {"47p", Unit::farad, 47e-12},
    {"1F", Unit::farad, 1.0},
    {"0.047F", Unit::farad, 0.047},
    {"4R7", Unit::ohm, 4.7},
    {"0R22", Unit::ohm, 0.22},
    {"2k2", Unit::ohm, 2200.0},
    {"2K2", Unit::ohm, 2200.0},
    {"1M", Unit::ohm, 1e6},
    {"4M7", Unit::ohm, 4.7e6},
    {"35m", Unit::ohm, 0.035},
    {"0.35", Unit::ohm, 0.35},
    {".35", Unit::ohm, 0.35},
    {"470R", Unit::ohm, 470.0},
    {"470 ohm", Unit::ohm, 470.0},
    {"470Ω", Unit::ohm, 470.0},
    {"470\u2126", Unit::ohm, 470.0},
    {"100k", Unit::hertz, 100e3},
    {"100kHz", Unit::hertz, 100e3},
    {"6V3", Unit::volt, 6.3},
    {"16V", Unit::volt, 16.0},
    {"50mV", Unit::volt, 0.05},
    {"23", Unit::celsius, 23.0},
    {"-10°C", Unit::celsius, -10.0},
    {"3u", Unit::ampere, 3e-6},
    {"1e-5", Unit::farad, 1e-5},
    {"1.5E3", Unit::ohm, 1500.0},
    {"2.2G", Unit::ohm, 2.2e9},
    {"4R7", Unit::none, 4.7},
    {"2.40", Unit::none, 2.4},
    {"10m", Unit::henry, 0.01},
    // Decimal commas, as half the world writes them (SI Brochure, 9th edition, 5.4.4: either sign).
    {"2,4", Unit::ohm, 2.4},
    {",47", Unit::ohm, 0.47},
    {"4,7u", Unit::farad, 4.7e-6},
    {"0,47 Ω", Unit::ohm, 0.47},
    {"4,7000", Unit::ohm, 4.7},
    {",470", Unit::ohm, 0.47},
    {"-3,5", Unit::volt, -3.5},
    // A zero in front counts no thousands.
    {"0,047", Unit::ohm, 0.047},
    {"0,047u", Unit::farad, 0.047e-6},
    {"-0,250", Unit::volt, -0.25},
    {"00,470 Ω", Unit::ohm, 0.47},
    {"\u22123,5V", Unit::volt, -3.5},
    {"1,5e3", Unit::ohm, 1500.0},
    {"4,", Unit::ohm, 4.0},
};

class AcceptedForm : public testing::TestWithParam<Form> {};

TEST_P(AcceptedForm, ReadsAsTheValueItMeans) {
  const auto value = parse_engineering(GetParam().text, GetParam().unit);
  ASSERT_TRUE(value.ok()) << describe(value.problems());
  EXPECT_NEAR(*value, GetParam().value, 1e-12 * std::abs(GetParam().value));
}

INSTANTIATE_TEST_SUITE_P(EngineeringNotation, AcceptedForm, testing::ValuesIn(accepted_forms));

struct Refusal {
  const char* text;
  Unit unit;
  const char* hint;  ///< must stand somewhere in the description
};

const Refusal refused_forms[] = {
    {"4,700", Unit::ohm, "4700 for the thousands, 4,7 for the decimal comma"},
    {"4,700u", Unit::farad, "4700 for the thousands"},
    {"1,234", Unit::ohm, "1234 for the thousands, 1.234 for the decimal comma"},
    {"1,000", Unit::ohm, "1000 for the thousands, 1,0 for the decimal comma"},
    {"-4,700", Unit::volt, "may part thousands"},
    {"1,2,3", Unit::ohm, "more than one comma"},
    {"1.2,3", Unit::ohm, "a comma and a point"},
    {"2k2,5", Unit::ohm, "end of a value"},
    {",", Unit::ohm, "not a value"},
    {"", Unit::ohm, "4R7"},
    {"ohm", Unit::ohm, "4R7"},
    {"4.7.1", Unit::ohm, "end of a value"},
    {"4k7k", Unit::ohm, "end of a value"},
    {"10uu", Unit::farad, "end of a value"},
    {"10uV", Unit::farad, "end of a value"},
    {"1 0", Unit::ohm, "end of a value"},
    {"nan", Unit::ohm, "4R7"},
    {"inf", Unit::ohm, "4R7"},
    {"1e999", Unit::ohm, "finite"},
    {"0x10", Unit::ohm, "end of a value"},
    {"--4", Unit::ohm, "not a value"},
    {"10μ\n", Unit::farad, "end of a value"},
};

class RefusedForm : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedForm, SaysWhatWouldBeAccepted) {
  const auto value = parse_engineering(GetParam().text, GetParam().unit);
  ASSERT_FALSE(value.ok()) << "read as " << *value;
  EXPECT_NE(describe(value.problems()).find(GetParam().hint), std::string::npos)
      << describe(value.problems());
}

INSTANTIATE_TEST_SUITE_P(EngineeringNotation, RefusedForm, testing::ValuesIn(refused_forms));

/// From 10,000 µF on the thousands are parted, which nothing that is typed may be.
bool is_grouped(double value, Unit unit) {
  return unit == Unit::farad && value >= 0.00999 && value < 0.1;
}

TEST(EngineeringNotation, ReadsBackWhatItWrites) {
  for (const double value : {1e-12, 4.7e-9, 2.2e-6, 0.035, 0.35, 4.7, 22.0, 999.4, 1500.0, 2.2e6}) {
    for (const Unit unit : {Unit::ohm, Unit::farad, Unit::volt, Unit::hertz}) {
      if (is_grouped(value, unit)) continue;
      const std::string text = format_engineering(value, unit, 4);
      const auto back = parse_engineering(text, unit);
      ASSERT_TRUE(back.ok()) << text;
      EXPECT_NEAR(*back, value, 1e-9 * value) << text;
    }
  }
}

// The trade's way of writing large capacitances: common practice, no source.
TEST(EngineeringNotation, LargeCapacitancesAreMicrofaradsAndNeverMillifarads) {
  EXPECT_EQ(format(microfarads(1000)), "1000 µF");
  EXPECT_EQ(format(microfarads(4700)), "4700 µF");
  EXPECT_EQ(format(microfarads(10000)), "10,000 µF");
  EXPECT_EQ(format(microfarads(22000)), "22,000 µF");
  EXPECT_EQ(format(farads(0.0999)), "99,900 µF");
  EXPECT_EQ(format(farads(0.1)), "0.1 F");
  EXPECT_EQ(format(farads(0.33)), "0.33 F");
  EXPECT_EQ(format(farads(1.5)), "1.5 F");
  EXPECT_EQ(format(microfarads(0.9999)), "1 µF");
  for (double value = 1e-15; value < 1e3; value *= 1.1) {
    EXPECT_EQ(format(farads(value)).find("mF"), std::string::npos) << value;
  }
}

TEST(EngineeringNotation, AnyDoubleGivesAShortText) {
  const double greatest = std::numeric_limits<double>::max();
  const double least = std::numeric_limits<double>::denorm_min();
  for (const double value :
       {0.0, -0.0, 1e-60, 1e-320, least, 1e300, -1e300, 1e308, greatest, -greatest,
        std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
        std::numeric_limits<double>::quiet_NaN()}) {
    for (const Unit unit : {Unit::none, Unit::ohm, Unit::farad, Unit::henry, Unit::volt,
                            Unit::ampere, Unit::second, Unit::hertz, Unit::celsius, Unit::watt}) {
      for (const int digits : {1, 3, 9, 17}) {
        const std::string text = format_engineering(value, unit, digits);
        EXPECT_LT(text.size(), 48U) << text;
        EXPECT_EQ(text.find('\0'), std::string::npos);
        EXPECT_NE(text.substr(0, 2), "-0") << text;
      }
    }
    EXPECT_LT(format_duration(seconds(value)).size(), 48U);
    EXPECT_LT(fixed_point(value, 17).size(), 48U);
    EXPECT_LT(whole_number(value).size(), 48U);
    EXPECT_LT(significant_figures(value, 17).size(), 48U);
  }
  EXPECT_EQ(format(ohms(1e-60)), "1e-48 pΩ");
  EXPECT_EQ(format(ohms(1e300)), "1e+291 GΩ");
  EXPECT_EQ(format(ohms(-0.0)), "0 Ω");
}

TEST(PrintedNumber, IsTheDoubleToItsPlaces) {
  EXPECT_EQ(fixed_point(0.125, 2), "0.12");  // exact halves go to the even figure (IEEE 754)
  EXPECT_EQ(fixed_point(-0.001, 2), "0.00");
  EXPECT_EQ(whole_number(2.5), "3");
  EXPECT_EQ(whole_number(-0.2), "0");
  EXPECT_EQ(significant_figures(1.5e-7, 6), "1.5e-07");
  EXPECT_EQ(grouped_by_thousands("1234567.8"), "1,234,567.8");
  EXPECT_EQ(grouped_by_thousands("-12345"), "-12,345");
  EXPECT_EQ(grouped_by_thousands("4700"), "4700");
}

TEST(EngineeringNotation, WritesTheWayABenchReadsIt) {
  EXPECT_EQ(format(microfarads(470)), "470 µF");
  EXPECT_EQ(format(farads(4.7e-6)), "4.7 µF");
  EXPECT_EQ(format(ohms(0.35)), "0.35 Ω");
  EXPECT_EQ(format(ohms(0.035)), "35 mΩ");
  EXPECT_EQ(format(ohms(2200)), "2.2 kΩ");
  EXPECT_EQ(format(ohms(999.9)), "1 kΩ");  // never "1000 Ω"
  EXPECT_EQ(format(ohms(0)), "0 Ω");
  EXPECT_EQ(format(hertz(100e3)), "100 kHz");
  EXPECT_EQ(format(Celsius(23.0)), "23 °C");
}

TEST(EngineeringNotation, EveryQuantityHasItsReaderAndItsUnit) {
  EXPECT_DOUBLE_EQ(parse_ohm("2k2")->si(), 2200.0);
  EXPECT_DOUBLE_EQ(parse_farad("4u7F")->si(), 4.7e-6);
  EXPECT_DOUBLE_EQ(parse_volt("6V3")->si(), 6.3);
  EXPECT_DOUBLE_EQ(parse_ampere("250mA")->si(), 0.25);
  EXPECT_DOUBLE_EQ(parse_hertz("100kHz")->si(), 1e5);
  EXPECT_DOUBLE_EQ(parse_second("40s")->si(), 40.0);
  EXPECT_DOUBLE_EQ(parse_celsius("85°C")->degrees(), 85.0);
  EXPECT_DOUBLE_EQ(*parse_engineering("2H2", Unit::henry), 2.2);
  EXPECT_FALSE(parse_volt("6A3").ok());
  EXPECT_FALSE(parse_ampere("2V").ok());
  EXPECT_FALSE(parse_second("40Hz").ok());
  EXPECT_EQ(format(volts(6.3)), "6.3 V");
  EXPECT_EQ(format(amperes(0.25)), "250 mA");
  EXPECT_EQ(format_engineering(2.2, Unit::henry), "2.2 H");
}

TEST(EngineeringNotation, WhatIsNoNumberIsShownAsSuch) {
  EXPECT_EQ(format(ohms(std::numeric_limits<double>::infinity())), "\u221e");
  EXPECT_EQ(format(ohms(std::numeric_limits<double>::quiet_NaN())), "?");
}

TEST(EngineeringNotation, WritesDurationsInBenchWords) {
  EXPECT_EQ(format_duration(seconds(40)), "40 s");
  EXPECT_EQ(format_duration(minutes(12)), "12 min");
  EXPECT_EQ(format_duration(minutes(65)), "1 h 05 min");
}

}  // namespace
}  // namespace dryout::quantities
