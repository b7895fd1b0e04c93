#include "listed_marks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include "quantities/engineering_notation.h"
#include "quantities/part_marking.h"

namespace dryout::quantities {
namespace {

Body body_of(std::string_view part) {
  if (part == "can") return Body::electrolytic_can;
  if (part == "backup") return Body::double_layer;
  if (part == "tantalum") return Body::tantalum;
  if (part == "ceramic") return Body::ceramic;
  if (part == "film") return Body::film;
  if (part == "mica") return Body::mica;
  return part == "paper" ? Body::paper : Body::unknown;
}

bool is_right(const ListedMark& mark) {
  const auto readings = read_marking(mark.print, body_of(mark.part));
  if (!readings) return false;
  const MarkingReading& first = readings->front();
  const double plus =
      first.tolerance && !first.tolerance->absolute_farads ? first.tolerance->plus : 0;
  return std::abs(first.capacitance.si() / mark.capacitance - 1.0) < 1e-9 &&
         std::abs(first.rated.value_or(Volt(0)).si() - mark.volts) < 1e-9 &&
         std::abs(plus - mark.plus) < 1e-9 &&
         std::max<std::size_t>(1, first.sections.size()) ==
             static_cast<std::size_t>(mark.sections) &&
         !first.why.empty();
}

std::string told(const ListedMark& mark) {
  const auto readings = read_marking(mark.print, body_of(mark.part));
  if (!readings) return describe(readings.problems());
  std::string text;
  for (const MarkingReading& reading : *readings) {
    text += "\n  " + format(reading.capacitance) +
            (reading.rated ? ", " + format(*reading.rated) : "") + " (" + reading.how + ") " +
            std::to_string(reading.misfit) + ' ' + reading.why;
  }
  return text;
}

TEST(ListedMarks, AreReadFirstAsAnOldHandReadsThem) {
  int right = 0;
  for (const ListedMark& mark : listed_marks) {
    right += is_right(mark) ? 1 : 0;
    EXPECT_TRUE(is_right(mark)) << mark.print << " on " << mark.part << told(mark);
  }
  RecordProperty("right", right);
}

TEST(ListedMarks, SoAreThoseOfTheSecondList) {
  int right = 0;
  for (const ListedMark& mark : further_marks) {
    right += is_right(mark) ? 1 : 0;
    EXPECT_TRUE(is_right(mark)) << mark.print << " on " << mark.part << told(mark);
  }
  RecordProperty("right", right);
}

TEST(ListedMarks, SoAreThoseThatStrangersFoundWrong) {
  for (const ListedMark& mark : marks_found_wrong) {
    EXPECT_TRUE(is_right(mark)) << mark.print << " on " << mark.part << told(mark);
  }
}

TEST(ListedMarks, SoAreThoseOfTheThirdList) {
  int right = 0;
  for (const ListedMark& mark : third_marks) {
    right += is_right(mark) ? 1 : 0;
    EXPECT_TRUE(is_right(mark)) << mark.print << " on " << mark.part << told(mark);
  }
  RecordProperty("right", right);
}

}  // namespace
}  // namespace dryout::quantities
