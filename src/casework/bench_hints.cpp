#include "casework/bench_hints.h"

#include "quantities/date_code.h"
#include "quantities/engineering_notation.h"
#include "quantities/part_marking.h"
#include "quantities/printed_number.h"
#include "readings/meter.h"

namespace dryout::casework {
namespace {

using quantities::Body;
using quantities::MarkingReading;

Body body_of(const std::string& technology) {
  if (technology.empty()) return Body::unknown;
  if (technology == "solid-tantalum") return Body::tantalum;
  if (technology == "supercap") return Body::double_layer;
  for (const auto& [id, body] : {std::pair{"ceramic", Body::ceramic}, std::pair{"film", Body::film},
                                 std::pair{"mica", Body::mica}, std::pair{"paper", Body::paper}}) {
    if (technology.find(id) != std::string::npos) return body;
  }
  const bool can = readings::is_wet(technology) || technology == "polymer";
  return can ? Body::electrolytic_can : Body::ceramic_or_film;
}

std::string percent_of(double share) {
  return quantities::significant_figures(share * 100.0, 6) + " %";
}

std::string told(const MarkingReading& reading) {
  std::string text = reading.sections.empty() ? quantities::format(reading.capacitance) : "";
  for (const quantities::MarkedSection& section : reading.sections) {
    text += (text.empty() ? "" : " + ") + quantities::format(section.capacitance);
  }
  if (reading.rated) text += ", " + quantities::format(*reading.rated);
  if (reading.alternating) text += " a.c.";
  if (!reading.tolerance) return text;
  const quantities::Tolerance& allowed = *reading.tolerance;
  if (allowed.absolute_farads) {
    return text + ", \u00b1" + quantities::format(quantities::Farad(allowed.plus));
  }
  if (allowed.minus == allowed.plus) return text + ", \u00b1" + percent_of(allowed.plus);
  return text + ", \u2212" + percent_of(allowed.minus) + " +" + percent_of(allowed.plus);
}

}  // namespace

bool leads_matter(readings::Kind kind, double value) {
  return value > 0.0 && readings::correct(value, kind, {}, readings::Meter{}).zero_matters;
}

ReadPrint read_print(const std::string& print, const std::string& technology, int year_now) {
  ReadPrint read;
  const auto values = quantities::read_marking(print, body_of(technology));
  if (values) {
    for (const MarkingReading& value : *values) {
      read.values.push_back({value.capacitance, value.rated, told(value), value.how, value.why});
    }
  }
  const auto dates = quantities::read_date_code(print, year_now);
  if (dates) {
    for (const quantities::DateReading& date : *dates) {
      std::string text = std::to_string(date.year);
      if (date.week) text += ", week " + std::to_string(*date.week);
      if (date.month) text += ", month " + std::to_string(*date.month);
      read.dates.push_back(std::move(text));
    }
  }
  if (!values && !dates) {
    read.fault = quantities::describe(values.problems().front());
  }
  return read;
}

}  // namespace dryout::casework
