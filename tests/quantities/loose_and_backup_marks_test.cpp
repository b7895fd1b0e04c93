// Marks that name no single value of a set's electrolytic: parts of motors, ranges, back-up cells.
// Common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "quantities/part_marking.h"

namespace dryout::quantities {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

MarkingReading first_of(const char* print, Body body) {
  const auto readings = read_marking(print, body);
  EXPECT_TRUE(readings.ok()) << print;
  return readings.ok() ? readings->front() : MarkingReading{};
}

TEST(LooseMarks, ACanForAlternatingVoltsIsAMotorsPart) {
  const MarkingReading run = first_of("8 MFD 370 VAC", Body::electrolytic_can);
  EXPECT_NEAR(run.capacitance.si(), 8e-6, 1e-9);
  EXPECT_TRUE(run.alternating);
  EXPECT_THAT(run.why, HasSubstr("motor"));
  EXPECT_THAT(first_of("8 MFD 450 V", Body::electrolytic_can).why, Not(HasSubstr("motor")));
}

TEST(LooseMarks, ARangeIsOnePartAndNotTwoSections) {
  const MarkingReading start = first_of("108-130 MFD 125 VAC", Body::electrolytic_can);
  EXPECT_TRUE(start.sections.empty());
  EXPECT_NEAR(start.capacitance.si(), 119e-6, 1e-9);
  ASSERT_TRUE(start.tolerance);
  EXPECT_NEAR(start.capacitance.si() * (1.0 + start.tolerance->plus), 130e-6, 1e-9);
  EXPECT_NEAR(start.capacitance.si() * (1.0 - start.tolerance->minus), 108e-6, 1e-9);
}

TEST(LooseMarks, AnAmpersandJoinsSections) {
  for (const char* print : {"20 & 20 MFD 450", "20&20 MFD 450V"}) {
    const MarkingReading can = first_of(print, Body::electrolytic_can);
    ASSERT_EQ(can.sections.size(), 2U) << print;
    EXPECT_NEAR(can.sections.back().capacitance.si(), 20e-6, 1e-9);
  }
}

TEST(LooseMarks, APlainFigureOnABackupCellIsInFarads) {
  EXPECT_NEAR(first_of("5.5V 0.33", Body::double_layer).capacitance.si(), 0.33, 1e-6);
  EXPECT_NEAR(first_of("0.047 5.5V", Body::double_layer).capacitance.si(), 0.047, 1e-6);
  EXPECT_NEAR(first_of("5.5V 1.0", Body::double_layer).capacitance.si(), 1.0, 1e-6);
  EXPECT_NEAR(first_of("5.5V 0.33", Body::ceramic).capacitance.si(), 0.33e-6, 1e-9);
}

TEST(LooseMarks, WhatStandsBeforeACodeWithoutAGapIsRead) {
  EXPECT_NEAR(first_of("F104Z", Body::ceramic).capacitance.si(), 100e-9, 1e-12);
  EXPECT_NEAR(first_of("B102K", Body::ceramic).capacitance.si(), 1e-9, 1e-14);
  const MarkingReading film = first_of("2V103", Body::film);
  EXPECT_NEAR(film.capacitance.si(), 10e-9, 1e-12);
  ASSERT_TRUE(film.rated);
  EXPECT_NEAR(film.rated->si(), 350.0, 1e-9);
}

}  // namespace
}  // namespace dryout::quantities
