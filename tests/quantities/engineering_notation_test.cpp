#include "quantities/engineering_notation.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

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
    {"10u", Unit::farad, 10e-6},     {"10uF", Unit::farad, 10e-6},
    {"10µF", Unit::farad, 10e-6},    {"10μF", Unit::farad, 10e-6},
    {"10 µF", Unit::farad, 10e-6},   {"4u7", Unit::farad, 4.7e-6},
    {"100n", Unit::farad, 100e-9},   {"3n3", Unit::farad, 3.3e-9},
    {"47p", Unit::farad, 47e-12},    {"1F", Unit::farad, 1.0},
    {"0.047F", Unit::farad, 0.047},  {"4R7", Unit::ohm, 4.7},
    {"0R22", Unit::ohm, 0.22},       {"2k2", Unit::ohm, 2200.0},
    {"2K2", Unit::ohm, 2200.0},      {"1M", Unit::ohm, 1e6},
    {"4M7", Unit::ohm, 4.7e6},       {"35m", Unit::ohm, 0.035},
    {"0.35", Unit::ohm, 0.35},       {".35", Unit::ohm, 0.35},
    {"470R", Unit::ohm, 470.0},      {"470 ohm", Unit::ohm, 470.0},
    {"470Ω", Unit::ohm, 470.0},      {"470\u2126", Unit::ohm, 470.0},
    {"100k", Unit::hertz, 100e3},    {"100kHz", Unit::hertz, 100e3},
    {"6V3", Unit::volt, 6.3},        {"16V", Unit::volt, 16.0},
    {"50mV", Unit::volt, 0.05},      {"23", Unit::celsius, 23.0},
    {"-10°C", Unit::celsius, -10.0}, {"3u", Unit::ampere, 3e-6},
    {"1e-5", Unit::farad, 1e-5},     {"1.5E3", Unit::ohm, 1500.0},
    {"2.2G", Unit::ohm, 2.2e9},      {"4R7", Unit::none, 4.7},
    {"2.40", Unit::none, 2.4},       {"10m", Unit::henry, 0.01},
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
    {"4,7", Unit::ohm, "4.7, not 4,7"},
    {"1,000", Unit::ohm, "4.7, not 4,7"},
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

TEST(EngineeringNotation, ReadsBackWhatItWrites) {
  for (const double value : {1e-12, 4.7e-9, 2.2e-6, 0.035, 0.35, 4.7, 22.0, 999.4, 1500.0, 2.2e6}) {
    for (const Unit unit : {Unit::ohm, Unit::farad, Unit::volt, Unit::hertz}) {
      const std::string text = format_engineering(value, unit, 4);
      const auto back = parse_engineering(text, unit);
      ASSERT_TRUE(back.ok()) << text;
      EXPECT_NEAR(*back, value, 1e-9 * value) << text;
    }
  }
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
