// Several capacitors in one body as one word of a print: "2x2200p", "0.1u+2x2500p", "8uF+16uF".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/part_marking.h"
#include "quantities/quantity.h"

namespace dryout::quantities {

/// "450", "0.47", ".1": figures and a point alone, more than nothing.
[[nodiscard]] std::optional<double> bare_figure_in(std::string_view text);

/// "3" before or behind a times sign: how many capacitors stand in one body, 2 to 6.
[[nodiscard]] std::optional<int> count_in(std::string_view text);

/// "0.1", "2200p", "2n2", "8MFD": one value of a list, whatever its unit.
[[nodiscard]] bool is_listed_value(const std::string& word);

struct PrintedSections {
  std::vector<Farad> capacitances;  ///< two or more, in the order of the print
  bool written = false;             ///< a unit stands with at least one
};

/// Values joined by "+", each with a count before it ("2x") or not; joined by "/" or "-" where each
/// has its unit. Who has no unit takes the next one's, but a fraction is always in µF; where no
/// unit stands at all, figures are in µF and those of hundreds beside a fraction in pF.
[[nodiscard]] std::optional<PrintedSections> sections_in(const std::string& word);

/// "108-130MFD": the least and the most of a part that is made so loosely, read as the middle with
/// its tolerance; nothing for what is no such range.
[[nodiscard]] std::optional<MarkingReading> range_in(const std::string& word);

/// On a back-up cell a plain figure is in F: "0.33". Adds that reading beside the one in uF.
void add_plain_farads(std::vector<MarkingReading>& readings);

}  // namespace dryout::quantities
