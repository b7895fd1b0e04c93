// Prints on parts and date codes. Every candidate is a value that a part can have.
#include <cmath>

#include "fuzz/fuzz_target.h"
#include "quantities/date_code.h"
#include "quantities/part_marking.h"

using namespace dryout;
using fuzz::demand;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using quantities::Body;
  const std::string_view print = fuzz::text_of(data, size);
  for (const Body body :
       {Body::unknown, Body::ceramic_or_film, Body::tantalum, Body::electrolytic_can}) {
    const auto readings = quantities::read_marking(print, body);
    if (!readings) {
      fuzz::demand_reasons(readings);
      continue;
    }
    demand(!readings->empty());
    for (const quantities::MarkingReading& reading : *readings) {
      demand(std::isfinite(reading.capacitance.si()) && reading.capacitance.si() >= 0.0);
      demand(!reading.how.empty());
    }
  }
  constexpr int year_now = 2026;
  if (const auto dates = quantities::read_date_code(print, year_now)) {
    for (const quantities::DateReading& date : *dates) {
      demand(date.year <= year_now);
      demand(!date.month || (*date.month >= 1 && *date.month <= 12));
      demand(!date.week || (*date.week >= 1 && *date.week <= 53));
    }
  }
  return 0;
}
