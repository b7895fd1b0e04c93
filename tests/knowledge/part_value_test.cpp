#include "knowledge/part_value.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace dryout::knowledge {
namespace {

using ::testing::HasSubstr;

struct Cell {
  const char* text;
  Figures figures;
  double microfarads;  ///< 0 = not said
  double volts;        ///< 0 = not said
};

// How parts lists write values. Codes: IEC 60062 (from memory); the rest common practice, no
// source.
constexpr Cell read_cells[] = {
    {"47u", Figures::unknown, 47, 0},
    {"47 uF", Figures::unknown, 47, 0},
    {"0.1\xc2\xb5"
     "F",
     Figures::unknown, 0.1, 0},
    {"0.1 \xce\xbc"
     "F",
     Figures::unknown, 0.1, 0},
    {"100n 63V", Figures::unknown, 0.1, 63},
    {"470/25V", Figures::unknown, 470, 25},
    {"470uF/25V", Figures::unknown, 470, 25},
    {"470u 6V3", Figures::unknown, 470, 6.3},
    {"10 uF 50 VDC", Figures::unknown, 10, 50},
    {"1000 MFD 50WV", Figures::unknown, 1000, 50},
    {"220 mmf", Figures::unknown, 220e-6, 0},
    {"4n7", Figures::unknown, 4.7e-3, 0},
    {"u47", Figures::unknown, 0.47, 0},
    {"100n X7R 0805", Figures::unknown, 0.1, 0},
    {"22u 20% tantalum", Figures::unknown, 22, 0},
    {"4R7", Figures::microfarads_on_cans, 4.7, 0},
    {"220", Figures::microfarads_on_cans, 220, 0},
    {"2200", Figures::microfarads_on_cans, 2200, 0},
    {"475", Figures::codes_on_tantalum, 4.7, 0},
    {"104", Figures::codes_on_small_parts, 0.1, 0},
    {"104", Figures::unknown, 0.1, 0},
    {"4R7", Figures::codes_on_small_parts, 4.7e-6, 0},
    {"2A104J", Figures::codes_on_small_parts, 0.1, 100},
    {"0.22", Figures::codes_on_small_parts, 0.22, 0},
    // Decimal commas, as lists from half the world write them.
    {"4,7u", Figures::unknown, 4.7, 0},
    {",47 uF", Figures::unknown, 0.47, 0},
    {"0,1 / 6,3V", Figures::microfarads_on_cans, 0.1, 6.3},
    {"47u, 25V", Figures::unknown, 47, 25},
    {"2,2nF 63 V", Figures::codes_on_small_parts, 2.2e-3, 63},
    {"R47", Figures::codes_on_small_parts, 0.47, 0},
    {"4700", Figures::codes_on_small_parts, 4.7e-3, 0},
    {"", Figures::unknown, 0, 0},
    {"-", Figures::unknown, 0, 0},
    {"?", Figures::unknown, 0, 0},
};

TEST(PartValue, ReadsWhatListsWrite) {
  for (const Cell& cell : read_cells) {
    const auto value = read_part_value(cell.text, cell.figures);
    ASSERT_TRUE(value.ok()) << cell.text << ": " << quantities::describe(value.problems());
    EXPECT_NEAR(value->capacitance ? quantities::in_microfarads(*value->capacitance) : 0.0,
                cell.microfarads, 1e-9 + 1e-9 * cell.microfarads)
        << cell.text;
    EXPECT_NEAR(value->rated ? value->rated->si() : 0.0, cell.volts, 1e-9) << cell.text;
  }
}

struct RefusedCell {
  const char* text;
  Figures figures;
  const char* message;
};

// A value misread by a factor of a thousand sends a technician to the wrong part, so what may mean
// two things is refused.
constexpr RefusedCell refused_cells[] = {
    {"470", Figures::unknown, "may be"},
    {"220", Figures::codes_on_small_parts, "may be"},
    {"4R7", Figures::unknown, "may be"},
    {"4,700u", Figures::unknown, "comma"},
    {"10,000/63", Figures::microfarads_on_cans, "comma"},
    {"8mF", Figures::microfarads_on_cans, "mF"},
    {"100F", Figures::microfarads_on_cans, "not possible"},
    {"10 000 uF", Figures::microfarads_on_cans, "two values"},
    {"C_Polarised", Figures::unknown, "not a value"},
    {"1N4148", Figures::unknown, "not a value"},
    {"47x", Figures::unknown, "not a value"},
    {"0u", Figures::unknown, "not a value"},
};

TEST(PartValue, RefusesWhatItWouldHaveToGuess) {
  for (const RefusedCell& cell : refused_cells) {
    const auto value = read_part_value(cell.text, cell.figures);
    ASSERT_FALSE(value.ok()) << cell.text;
    EXPECT_THAT(value.problems().front().message, HasSubstr(cell.message)) << cell.text;
    EXPECT_FALSE(value.problems().front().accepted.empty()) << cell.text;
  }
}

TEST(PartVolts, AreReadWithOrWithoutTheirUnit) {
  for (const char* text : {"25", "25V", "25 V", "25 VDC", "25WV"}) {
    const auto volts = read_part_volts(text);
    ASSERT_TRUE(volts.ok()) << text;
    EXPECT_DOUBLE_EQ((*volts)->si(), 25.0) << text;
  }
  EXPECT_NEAR((*read_part_volts("6,3"))->si(), 6.3, 1e-12);
  EXPECT_NEAR((*read_part_volts("6,3 V"))->si(), 6.3, 1e-12);
  EXPECT_FALSE(read_part_volts("1,000").ok());
  EXPECT_FALSE(read_part_volts("").ok() && read_part_volts("")->has_value());
  EXPECT_FALSE(read_part_volts("many").ok());
  EXPECT_FALSE(read_part_volts("-5V").ok());
}

}  // namespace
}  // namespace dryout::knowledge
