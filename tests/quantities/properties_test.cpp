// What holds for every value, tried on random ones (rapidcheck, which shrinks what it finds).
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "quantities/engineering_notation.h"
#include "quantities/preferred_value.h"

namespace dryout::quantities {
namespace {

/// Values as they occur on a bench, 1 p to 100 M, whole in their first `digits` digits.
rc::Gen<double> bench_value(int digits) {
  const int least = static_cast<int>(std::pow(10, digits - 1));
  return rc::gen::map(rc::gen::pair(rc::gen::inRange(least, 10 * least), rc::gen::inRange(-12, 8)),
                      [digits](const std::pair<int, int>& parts) {
                        return parts.first * std::pow(10.0, parts.second - digits + 1);
                      });
}

rc::Gen<Unit> unit() {
  return rc::gen::element(Unit::ohm, Unit::farad, Unit::volt, Unit::hertz, Unit::ampere);
}

RC_GTEST_PROP(EngineeringNotationProperties, WhatIsWrittenReadsBack, ()) {
  const double value = *bench_value(4);
  const Unit in = *unit();
  RC_PRE(in != Unit::farad || value < 0.00999 || value >= 0.1);  // "10,000 µF" is for reading only
  const std::string text = format_engineering(value, in, 4);
  const auto back = parse_engineering(text, in);
  RC_ASSERT(back.ok());
  RC_ASSERT(std::abs(*back - value) <= 1e-9 * value);
  RC_ASSERT(format_engineering(*back, in, 4) == text);
}

RC_GTEST_PROP(EngineeringNotationProperties, NoTextIsReadAsSomethingThatIsNoFiniteNumber, ()) {
  const auto text =
      *rc::gen::container<std::string>(rc::gen::elementOf(std::string("0123456789.RkMmunp -+eE,")));
  const auto value = parse_engineering(text, *unit());
  if (value.ok()) {
    RC_ASSERT(std::isfinite(*value));
  } else {
    RC_ASSERT(!value.problems().front().accepted.empty());
  }
}

RC_GTEST_PROP(PreferredValueProperties, TheNearestIsPreferredAndNoneIsNearer, ()) {
  const Farad value(*bench_value(3));
  const Series series = *rc::gen::element(Series::e6, Series::e12, Series::e24);
  const Farad nearest = nearest_preferred(value, series);
  RC_ASSERT(is_preferred(nearest, series));
  const Farad above = preferred_not_below(value, series);
  RC_ASSERT(is_preferred(above, series));
  RC_ASSERT(above >= value * (1.0 - 1e-9));
  RC_ASSERT(std::abs(std::log(nearest / value)) <= std::abs(std::log(above / value)) + 1e-9);
  // E6 is the coarsest: its figures lie less than a factor of 1.6 apart (IEC 60063).
  RC_ASSERT(above / value < 1.6);
}

}  // namespace
}  // namespace dryout::quantities
