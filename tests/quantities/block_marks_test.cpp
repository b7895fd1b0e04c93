// First scores on 28 November 2026, by the hand that mended: the further list 15 of 47 before the
// kinds were mended (at 68cca1b) and 47 when first asked behind the mend; the third list 27 of 28
// ("25/25V" was refused). All of the first list's 21 were wrong before.
#include "block_marks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <tuple>

#include "quantities/engineering_notation.h"

namespace dryout::quantities {
namespace {

bool is_near(double a, double b) { return std::abs(a - b) <= 1e-9 * std::abs(b); }

/// The classes that the remarks of a reading name: "", "X", "Y", "XY".
std::string classes_told(const MarkingReading& reading) {
  std::string all;
  for (const std::string& remark : reading.remarks) all += remark + ' ';
  const bool x = all.find("class X") != std::string::npos;
  const bool y = all.find("class Y") != std::string::npos;
  return std::string(x ? "X" : "") + (y ? "Y" : "");
}

std::vector<double> capacitances_of(const MarkingReading& reading) {
  if (reading.sections.empty()) return {reading.capacitance.si()};
  std::vector<double> all;
  for (const MarkedSection& section : reading.sections) all.push_back(section.capacitance.si());
  return all;
}

auto readings_of(const BlockMark& mark) {
  MarkedPart part{mark.body, std::nullopt, std::nullopt};
  if (mark.year > 0) part.year_made = mark.year;
  return read_marking(mark.print, part);
}

bool is_read_right(const BlockMark& mark) {
  const auto readings = readings_of(mark);
  if (!readings) return false;
  const MarkingReading& first = readings->front();
  const std::vector<double> found = capacitances_of(first);
  const bool other =
      mark.alternative == 0.0 ||
      std::any_of(readings->begin() + 1, readings->end(), [&mark](const auto& reading) {
        return is_near(reading.capacitance.si(), mark.alternative);
      });
  return std::equal(found.begin(), found.end(), mark.capacitances.begin(), mark.capacitances.end(),
                    is_near) &&
         is_near(first.rated.value_or(Volt(0)).si(), mark.volts) &&
         first.alternating == mark.alternating && classes_told(first) == mark.classes && other;
}

std::string told_of(const BlockMark& mark) {
  const auto readings = readings_of(mark);
  if (!readings) return describe(readings.problems());
  std::string text;
  for (const MarkingReading& reading : *readings) {
    text += "\n ";
    for (const double each : capacitances_of(reading)) text += ' ' + format(Farad(each));
    text += (reading.rated ? ", " + format(*reading.rated) : "") +
            (reading.alternating ? " a.c." : "") + " (" + reading.how + ") " +
            std::to_string(reading.misfit) + ' ' + reading.why;
    for (const std::string& remark : reading.remarks) text += " | " + remark;
  }
  return text;
}

TEST(BlockMarks, ThoseThatStrangersFoundWrongAreReadAsAnOldHandReadsThem) {
  for (const BlockMark& mark : blocks_found_wrong()) {
    EXPECT_TRUE(is_read_right(mark)) << mark.print << told_of(mark);
  }
}

TEST(BlockMarks, SoAreThoseOfTheFurtherList) {
  int right = 0;
  for (const BlockMark& mark : further_blocks()) {
    right += is_read_right(mark) ? 1 : 0;
    EXPECT_TRUE(is_read_right(mark)) << mark.print << told_of(mark);
  }
  RecordProperty("right", right);
}

TEST(BlockMarks, SoAreThoseOfTheThirdList) {
  int right = 0;
  for (const BlockMark& mark : third_blocks()) {
    right += is_read_right(mark) ? 1 : 0;
    EXPECT_TRUE(is_read_right(mark)) << mark.print << told_of(mark);
  }
  RecordProperty("right", right);
}

TEST(BlockMarks, ACommaIsAskedAboutWhereNoUnitOfThousandsStandsBehindIt) {
  for (const char* print : {"10,000 63V", "3,125 \u00b5F", "10,000 nF", "10,000"}) {
    EXPECT_FALSE(read_marking(print).ok()) << print;
  }
  EXPECT_FALSE(parse_engineering("10,000u", Unit::farad).ok());  // typed, not printed
  EXPECT_FALSE(parse_engineering("10,000\u00b5F", Unit::farad).ok());
}

TEST(BlockMarks, WhatTheProgramPrintsOfACanItReads) {
  for (const double each : {2200e-6, 4700e-6, 10000e-6, 22000e-6, 47000e-6}) {
    const std::string print = format(Farad(each)) + " 63V";
    const auto readings = read_marking(print);
    ASSERT_TRUE(readings.ok()) << print;
    EXPECT_TRUE(is_near(readings->front().capacitance.si(), each)) << print;
  }
}

TEST(BlockMarks, APlainFigureSaysWhyItIsReadInPicofaradsFirst) {
  const auto bare = read_marking("2200M");
  ASSERT_TRUE(bare.ok());
  EXPECT_DOUBLE_EQ(bare->front().capacitance.si(), 2.2e-9);
  EXPECT_NE(bare->front().why.find("a can carries its volts"), std::string::npos);
  EXPECT_TRUE(is_near(bare->at(1).capacitance.si(), 2200e-6));
  for (const auto& [print, body, farads] : {std::tuple{"2200M", Body::electrolytic_can, 2200e-6},
                                            std::tuple{"2200M", Body::ceramic, 2.2e-9},
                                            std::tuple{"2200M 25V", Body::unknown, 2200e-6}}) {
    EXPECT_TRUE(is_near(read_marking(print, body)->front().capacitance.si(), farads)) << print;
  }
}

TEST(BlockMarks, AnXThatMayBeAClassIsNamedAsADoubt) {
  const auto readings = read_marking("0.1 X 250V");
  ASSERT_TRUE(readings.ok());
  ASSERT_EQ(readings->front().remarks.size(), 1U);
  EXPECT_NE(readings->front().remarks.front().find("times sign"), std::string::npos);
  EXPECT_TRUE(read_marking(".25 x 200 V")->front().remarks.empty());
}

}  // namespace
}  // namespace dryout::quantities
