// A reading's numbers against what a bench can meet (quantities/measure.h).
#include <algorithm>

#include "casework/beside_figures.h"
#include "casework/check_command.h"
#include "casework/words.h"
#include "quantities/check.h"
#include "quantities/measure.h"

namespace dryout::casework {

using quantities::Measure;
using quantities::Problems;
using quantities::Unit;

Measure measure_of(ReadingKind kind) {
  const auto measure = quantities::measure_of(word_of(kind));
  CHECK(measure.has_value());
  return *measure;
}

Problems out_of_range(const RecordReading& reading) {
  Problems problems;
  const auto require = [&problems](const char* what, double si,
                                   const quantities::PhysicalRange& range) {
    if (auto problem = quantities::out_of_range(range, si, what)) {
      problems.push_back(*std::move(problem));
    }
  };
  const Measure measure = measure_of(reading.kind);
  require("this reading", reading.value, quantities::range_of(measure));
  require("this frequency", reading.frequency.si(), quantities::range_of(Measure::frequency));
  require("this temperature", reading.temperature.degrees(),
          quantities::range_of(Measure::temperature));
  if (reading.limit) {
    require("this limit", *reading.limit, quantities::range_of_limit(measure));
  }
  if (reading.test_volts) {
    require("this test voltage", reading.test_volts->si(),
            quantities::range_of(Measure::test_volts));
  }
  if (reading.lead_zero) {
    require("this lead resistance", *reading.lead_zero,
            quantities::range_of(Measure::lead_resistance));
  }
  return problems;
}

Problems check_numbers(const RecordReading& reading) {
  Problems problems = out_of_range(reading);
  const Unit unit = unit_of(reading.kind);
  const bool more = reading.lead_zero && unit == Unit::ohm && *reading.lead_zero > reading.value;
  if (problems.empty() && more) {
    problems.push_back({"the leads alone read more than the part",
                        {},
                        quantities::format_engineering(reading.value, unit) + " with leads of " +
                            quantities::format_engineering(*reading.lead_zero, unit),
                        "zero the meter with its tips together, then read again"});
  }
  if (const auto beside = read_beside_figures(reading.beside, reading.kind); !beside) {
    problems.insert(problems.end(), beside.problems().begin(), beside.problems().end());
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
