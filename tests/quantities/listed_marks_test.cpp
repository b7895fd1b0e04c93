#include "listed_marks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string_view>

#include "quantities/part_marking.h"

namespace dryout::quantities {
namespace {

Body body_of(std::string_view part) {
  if (part == "can" || part == "backup") return Body::electrolytic_can;
  if (part == "tantalum") return Body::tantalum;
  return part == "any" ? Body::unknown : Body::ceramic_or_film;
}

bool is_right(const ListedMark& mark) {
  const auto readings = read_marking(mark.print, body_of(mark.part));
  if (!readings) return false;
  const MarkingReading& first = readings->front();
  const double plus =
      first.tolerance && !first.tolerance->absolute_farads ? first.tolerance->plus : 0;
  return std::abs(first.capacitance.si() / mark.capacitance - 1.0) < 1e-9 &&
         std::abs(first.rated.value_or(Volt(0)).si() - mark.volts) < 1e-9 &&
         std::abs(plus - mark.plus) < 1e-9 && mark.sections == 1;
}

TEST(ListedMarks, AreReadFirstAsAnOldHandReadsThem) {
  int right = 0;
  for (const ListedMark& mark : listed_marks) {
    right += is_right(mark) ? 1 : 0;
    EXPECT_TRUE(is_right(mark)) << mark.print << " on " << mark.part;
  }
  RecordProperty("right", right);
  std::printf("%d of %zu marks\n", right, std::size(listed_marks));
}

}  // namespace
}  // namespace dryout::quantities
