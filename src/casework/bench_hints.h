// What can be told while something is still being typed: what a part's print means, and whether the
// meter's leads count at this figure.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantities/quantity.h"
#include "readings/reading.h"

namespace dryout::casework {

/// Whether leads that nobody has zeroed could be a fifth of a reading of this size (SI).
[[nodiscard]] bool leads_matter(readings::Kind kind, double value);

struct PrintedValue {
  quantities::Farad capacitance;
  std::optional<quantities::Volt> rated;
  std::string told;  ///< "47 µF, 25 V, ±20 %"
  std::string how;   ///< "plain figure in uF"
  std::string why;   ///< in a sentence, for or against it
};
struct ReadPrint {
  std::vector<PrintedValue> values;  ///< likeliest for the technology first
  std::vector<std::string> dates;    ///< "2009, week 31": what it means as a date code
  std::string fault;                 ///< where neither can be read
};

/// `print` as it stands on the part: "A106", "47 25V", "475", "0931". A technology (an id) decides
/// which reading comes first; dates lie not after `year_now`.
[[nodiscard]] ReadPrint read_print(const std::string& print, const std::string& technology,
                                   int year_now);

}  // namespace dryout::casework
