// What a bench can meet. The bounds are wide on purpose (judgement): they catch a slipped prefix or
// a broken file, not an unusual part.
#include <algorithm>
#include <cmath>

#include "casework/check_command.h"
#include "casework/words.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {
namespace {

using quantities::Problems;
using quantities::Unit;

struct Bounds {
  double min, max;
};

Bounds bounds_of(ReadingKind kind) {
  switch (kind) {
    case ReadingKind::esr:
    case ReadingKind::impedance:
    case ReadingKind::dc_resistance:
      return {0.0, 1e9};
    case ReadingKind::insulation:
      return {0.0, 1e15};
    case ReadingKind::dissipation:
      return {0.0, 100.0};
    case ReadingKind::hold_up:
      return {0.0, 1e8};
    case ReadingKind::capacitance:
    case ReadingKind::leakage_current:
      return {0.0, 10.0};
    case ReadingKind::ripple:
      return {0.0, 10e3};
    case ReadingKind::dc_volts:
      return {-100e3, 100e3};
  }
  return {0.0, 0.0};
}

class Bounded {
 public:
  explicit Bounded(Problems& problems) : problems_(problems) {}

  void require(const char* what, double value, Bounds bounds, Unit unit) {
    if (!std::isfinite(value) || value < bounds.min || value > bounds.max) {
      const std::string found =
          std::isfinite(value) ? quantities::format_engineering(value, unit) : "not a number";
      problems_.push_back({std::string(what) + " is not possible",
                           {},
                           found,
                           quantities::format_engineering(bounds.min, unit) + " to " +
                               quantities::format_engineering(bounds.max, unit)});
    }
  }

 private:
  Problems& problems_;
};

}  // namespace

Problems check_numbers(const RecordReading& reading) {
  Problems problems;
  Bounded bounded(problems);
  const Unit unit = unit_of(reading.kind);
  bounded.require("this reading", reading.value, bounds_of(reading.kind), unit);
  bounded.require("this frequency", reading.frequency.si(), {1.0, 1e9}, Unit::hertz);
  bounded.require("this temperature", reading.temperature.degrees(), {-60.0, 200.0}, Unit::celsius);
  if (reading.limit) {
    bounded.require("this limit", *reading.limit, {1e-15, 1e15}, unit);
  }
  if (reading.test_volts) {
    bounded.require("this test voltage", reading.test_volts->si(), {0.1, 100e3}, Unit::volt);
  }
  if (reading.lead_zero) {
    bounded.require("this lead resistance", *reading.lead_zero, {0.0, 100.0}, Unit::ohm);
    const bool more = unit == Unit::ohm && *reading.lead_zero > reading.value;
    if (problems.empty() && more) {
      problems.push_back({"the leads alone read more than the part",
                          {},
                          quantities::format_engineering(reading.value, unit) + " with leads of " +
                              quantities::format_engineering(*reading.lead_zero, unit),
                          "zero the meter with its tips together, then read again"});
    }
  }
  const auto sources = limit_source_words();
  if (!reading.limit_source.empty() &&
      std::find(sources.begin(), sources.end(), reading.limit_source) == sources.end()) {
    std::string accepted;
    for (const std::string_view source : sources) {
      accepted += (accepted.empty() ? "" : ", ") + std::string(source);
    }
    problems.push_back({"unknown source of a limit",
                        {},
                        '"' + quantities::excerpt(reading.limit_source) + '"',
                        accepted});
  }
  return problems;
}

}  // namespace dryout::casework
