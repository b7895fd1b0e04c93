#include "report/scale_picture.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <sstream>

#include "quantities/shown_text.h"
#include "report/svg.h"

namespace dryout::report {
namespace {

template <class Kind>
std::vector<Kind> all_of(const Picture& picture) {
  std::vector<Kind> found;
  for (const Shape& shape : picture.shapes) {
    if (const auto* one = std::get_if<Kind>(&shape)) {
      found.push_back(*one);
    }
  }
  return found;
}

/// The marks of the rows, without those of the legend above them.
std::vector<Mark> row_marks(const Picture& picture) {
  std::vector<Mark> marks = all_of<Mark>(picture);
  std::erase_if(marks, [](const Mark& mark) { return mark.at.y < 20.0; });
  return marks;
}

TEST(ScalePicture, PlacesValuesByTheirCommonLogarithms) {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 4.1, common logarithms (from
  // memory): log 2 = 0.30103, log 3 = 0.47712, log 5 = 0.69897, log 7 = 0.84510.
  const Decades decade{0, 1};
  EXPECT_NEAR(*place_on(decade, 2.0), 0.30103, 5e-6);
  EXPECT_NEAR(*place_on(decade, 3.0), 0.47712, 5e-6);
  EXPECT_NEAR(*place_on(decade, 5.0), 0.69897, 5e-6);
  EXPECT_NEAR(*place_on(decade, 7.0), 0.84510, 5e-6);
  EXPECT_NEAR(*place_on({-2, 2}, 1.0), 0.5, 1e-12);
}

TEST(ScalePicture, RunsOverWholeDecadesThatHoldEveryValue) {
  const Decades decades = decades_of({{"a", 2.4, 0.021, 0.3}});
  EXPECT_EQ(decades.lowest, -2);
  EXPECT_EQ(decades.highest, 1);
  const Decades edge = decades_of({{"a", 0.001, 1000.0, {}}});
  EXPECT_EQ(edge.lowest, -3);
  EXPECT_EQ(edge.highest, 3);
  const Decades one = decades_of({{"a", 10.0, {}, {}}});
  EXPECT_EQ(one.highest - one.lowest, 1);
}

TEST(ScalePicture, BeforeIsARingAndAfterADiscFurtherTowardsTheSmallerValue) {
  const auto marks = row_marks(scale_picture({}, {{"C1", 2.4, 0.021, 0.3}}));
  ASSERT_EQ(marks.size(), 2U);
  EXPECT_EQ(marks[0].shape, Mark::Shape::ring);
  EXPECT_EQ(marks[1].shape, Mark::Shape::disc);
  EXPECT_LT(marks[1].at.x, marks[0].at.x);
}

TEST(ScalePicture, EqualRatiosAreEqualDistances) {
  const auto marks = row_marks(
      scale_picture({}, {{"a", 0.2, 0.02, {}}, {"b", 30.0, 3.0, {}}, {"c", 500.0, 50.0, {}}}));
  ASSERT_EQ(marks.size(), 6U);
  const double step = marks[0].at.x - marks[1].at.x;
  EXPECT_NEAR(marks[2].at.x - marks[3].at.x, step, 1e-9);
  EXPECT_NEAR(marks[4].at.x - marks[5].at.x, step, 1e-9);
}

TEST(ScalePicture, ShadesTheBadSideOfTheLimit) {
  const std::vector<ScaleRow> rows{{"C1", 5.0, {}, 1.0}};
  const auto high = all_of<Box>(scale_picture({quantities::Unit::ohm, true, ""}, rows)).back();
  const auto low = all_of<Box>(scale_picture({quantities::Unit::farad, false, ""}, rows)).back();
  EXPECT_EQ(high.ink, Ink::beyond);
  EXPECT_GT(high.corner.x + high.width, low.corner.x + low.width);
  const auto mark = row_marks(scale_picture({}, rows)).front();
  EXPECT_GT(mark.at.x, high.corner.x);
  EXPECT_LT(mark.at.x, high.corner.x + high.width);
}

TEST(ScalePicture, WhatNoLogarithmHasIsPointedAtAndWritten) {
  const double infinite = std::numeric_limits<double>::infinity();
  const Picture picture = scale_picture(
      {}, {{"zero", 0.0, {}, 1.0}, {"over", infinite, {}, 1.0}, {"none", {}, {}, 1.0}});
  const auto marks = row_marks(picture);
  ASSERT_EQ(marks.size(), 2U);
  EXPECT_EQ(marks[0].shape, Mark::Shape::pointer_left);
  EXPECT_EQ(marks[1].shape, Mark::Shape::pointer_right);
  EXPECT_EQ(picture.told.find("none"), std::string::npos);
  EXPECT_FALSE(place_on({0, 1}, 0.0).has_value());
  EXPECT_FALSE(place_on({0, 1}, std::nan("")).has_value());
}

// SVG 1.1, 9.7: a polygon's points are its corners in turn; the first is the tip here, and lies on
// the side that is pointed at.
TEST(SvgOf, APointerHasItsTipOnTheSideItPointsAt) {
  const auto corners = [](Mark::Shape shape) {
    Picture picture;
    picture.shapes = {Mark{{50.0, 20.0}, shape, Ink::after, 4.0}};
    const std::string svg = svg_of(picture);
    std::istringstream points(svg.substr(svg.find("points=\"") + 8));
    std::array<double, 6> read{};
    char comma = ' ';
    for (std::size_t i = 0; i < read.size(); i += 2) {
      points >> read[i] >> comma >> read[i + 1];
    }
    EXPECT_TRUE(points.good()) << svg;
    return read;
  };
  const auto left = corners(Mark::Shape::pointer_left);
  EXPECT_DOUBLE_EQ(left[0], 46.0);
  EXPECT_DOUBLE_EQ(left[1], 20.0);
  EXPECT_DOUBLE_EQ(left[2], 54.0);
  EXPECT_DOUBLE_EQ(left[4], 54.0);
  EXPECT_DOUBLE_EQ(left[3] + left[5], 40.0) << "as far above as below";
  const auto right = corners(Mark::Shape::pointer_right);
  EXPECT_DOUBLE_EQ(right[0], 54.0);
  EXPECT_DOUBLE_EQ(right[2], 46.0);
}

TEST(ScalePicture, EverythingStaysInsideThePicture) {
  std::vector<ScaleRow> rows;
  for (int i = -14; i < 9; ++i) {
    rows.push_back({std::string(80, 'W'), std::pow(10.0, i), 3.0 * std::pow(10.0, i), 1.0});
  }
  const Picture picture = scale_picture({}, rows);
  for (const Mark& mark : all_of<Mark>(picture)) {
    EXPECT_GE(mark.at.x - mark.radius, 0.0);
    EXPECT_LE(mark.at.x + mark.radius, picture.width);
    EXPECT_LE(mark.at.y + mark.radius, picture.height);
  }
  for (const Words& words : all_of<Words>(picture)) {
    EXPECT_GE(words.at.x, 0.0);
    EXPECT_LE(words.at.x, picture.width);
  }
}

TEST(ScalePicture, TheLegendNamesOnlyTheSignsThatOccur) {
  const auto said = [](const ScaleRow& row) {
    std::string text;
    for (const Words& words : all_of<Words>(scale_picture({}, {row}))) {
      text += words.text + '|';
    }
    return text;
  };
  EXPECT_NE(said({"a", 1.0, 0.1, 0.5}).find("after the repair"), std::string::npos);
  EXPECT_EQ(said({"a", 1.0, {}, 0.5}).find("after the repair"), std::string::npos);
  EXPECT_EQ(said({"a", 1.0, {}, {}}).find("limit"), std::string::npos);
}

TEST(Fitted, ShortensWhatWouldNotFit) {
  EXPECT_EQ(fitted("C12", 9.0, 200.0), "C12");
  const std::string cut = fitted(std::string(100, 'W'), 9.0, 90.0);
  EXPECT_EQ(cut.substr(cut.size() - 3), "\u2026");
  EXPECT_LE(quantities::characters_of(cut).size(), 11U);
}

}  // namespace
}  // namespace dryout::report
