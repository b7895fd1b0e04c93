// The readings of a case gathered for drawing: by kind, and for each part its number as it came in,
// after the repair and the limit.
#pragma once

#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/picture.h"
#include "report/scale_picture.h"

namespace dryout::report {

struct ReadingGroup {
  std::string kind;                        ///< casework's word: "esr", ...
  std::vector<ScaleRow> rows;              ///< the most telling first
  std::vector<std::string> limit_sources;  ///< casework's words, each once
};

/// Only numbers taken in the same manner stand side by side in one row (those casework compares);
/// others have a row of their own. Groups with the most telling readings come first.
[[nodiscard]] std::vector<ReadingGroup> gather_readings(const casework::CaseView& view,
                                                        const casework::MendingView& mending);

/// Whether the reading by itself speaks against the part.
[[nodiscard]] bool convicts(const casework::ReadingView& reading);

/// "1.1 \u03a9": a value in the unit of its kind.
[[nodiscard]] std::string shown_value(const std::string& kind, double value);

/// The rows from `first` on, at most `count_max` of them.
[[nodiscard]] Picture picture_of(const ReadingGroup& group, std::size_t first,
                                 std::size_t count_max);

}  // namespace dryout::report
