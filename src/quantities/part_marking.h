// What is printed on a capacitor, read by the published codes. A print is often ambiguous ("100" is
// 10 pF on a disc and 100 uF on a can), so reading gives every candidate with the way it was read,
// the likeliest for the stated body first.
//
// Codes: three- and four-character capacitance and letter-for-point (IEC 60062, clauses on value
// marking), tolerance letters (IEC 60062, tolerance table), two-character and one-letter rated
// voltage (mantissa letter of the R10-like series with a power of ten in front, as makers' sheets
// print it). All tables are from memory except the
// voltage letters that makers' data sheets print; part_marking_test.cpp names each source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::quantities {

/// What the print stands on: decides which reading comes first.
enum class Body { unknown, ceramic_or_film, tantalum, electrolytic_can };

/// Deviation allowed by a tolerance letter, relative (0.2 = 20 %) or, below 10 pF, absolute.
struct Tolerance {
  double minus = 0.0;
  double plus = 0.0;
  bool absolute_farads = false;  ///< minus and plus are farads
};

struct MarkingReading {
  Farad capacitance;
  std::optional<Volt> rated;
  std::optional<Tolerance> tolerance;
  std::string how;  ///< "three-figure code in pF", "plain figure in uF, as on cans"
};

/// Reads a print such as "104K", "4n7", "2A104J", "A475", "475C", "47 16V", "220 E". Lines of the
/// print may be given with blanks or line breaks between them. At least one candidate, or a Problem
/// saying which part could not be read.
[[nodiscard]] Result<std::vector<MarkingReading>> read_marking(std::string_view print,
                                                               Body body = Body::unknown);

/// The tolerance a letter stands for at this capacitance; nothing for an unknown letter.
[[nodiscard]] std::optional<Tolerance> tolerance_of(char letter, Farad capacitance);

/// "1H" -> 50 V, "0J" -> 6.3 V, "V" -> 35 V (one letter, as on surface-mount parts).
[[nodiscard]] std::optional<Volt> voltage_of(std::string_view code);

}  // namespace dryout::quantities
