// A print taken apart into words, with the spellings of a century made one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace dryout::quantities {

/// "0.1 µF, 400 W.V.D.C." -> {"0.1uF", "400WVDC"}: one spelling of micro, minus and plus-minus, a
/// point for a decimal comma, figures joined to their units; a times sign is "x", "X" or "*", a "+"
/// between blanks a word. Commas as in "10,000 uF" become points, which are read both ways; refused
/// where a comma may part thousands and no such unit stands behind it.
[[nodiscard]] Result<std::vector<std::string>> words_of_print(std::string_view print);

/// "40/20/20" at '/' -> {"40", "20", "20"}; where two strokes meet, an empty one.
[[nodiscard]] std::vector<std::string> parted_at(std::string_view text, char stroke);

/// Figures joined by strokes: "40/20/20", "50+50/350", "2x50", "8-8MFD".
struct JoinedFigures {
  std::vector<double> figures;  ///< two or more
  std::string strokes;          ///< between them: "//", "+/"
  std::string unit;             ///< behind them, "" = none
};
[[nodiscard]] std::optional<JoinedFigures> joined_figures_in(const std::string& word);

}  // namespace dryout::quantities
