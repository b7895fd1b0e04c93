// Figures that a reading is shown beside and is not judged by: what a general table allows, what a
// fresh part read. They are told in one line, "general-table 2.75; general-table 6.6; fresh-part
// 0.367": a source (as of a limit) and a value in the unit of the reading each.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "casework/case_view.h"
#include "casework/command.h"
#include "quantities/result.h"

namespace dryout::casework {

/// At most eight; an empty line has none. Refused: an unknown source, a value that cannot be read
/// or that no bench meets, each by its own words.
[[nodiscard]] quantities::Result<std::vector<BesideFigure>> read_beside_figures(
    std::string_view line, ReadingKind kind);

}  // namespace dryout::casework
