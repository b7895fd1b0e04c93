// Readings on a logarithmic scale with their limits, as they came in and after the repair. A value
// v lies at log10(v / lowest) / log10(highest / lowest) of the width; the scale runs over whole
// decades. What no such scale can show (zero, negative) is drawn as a pointer at its edge and
// written out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantities/engineering_notation.h"
#include "report/picture.h"

namespace dryout::report {

/// One part on the scale. Values in the SI unit of the picture.
struct ScaleRow {
  std::string title;
  std::optional<double> before, after, limit;
  std::vector<double> tables = {};             ///< what general tables allow: shown, not judged by
  std::optional<double> fresh = std::nullopt;  ///< what a fresh part read
};

struct ScaleOrder {
  quantities::Unit unit = quantities::Unit::ohm;
  bool high_is_bad = true;  ///< the side of the limit that is shaded
  std::string title;        ///< what is drawn: "Internal resistance (ESR)"
};

/// The whole decades that hold every drawable value: exponents of ten.
struct Decades {
  int lowest = 0, highest = 1;
};
[[nodiscard]] Decades decades_of(const std::vector<ScaleRow>& rows);

/// Where a value lies, 0 at the lower edge and 1 at the upper; nothing for what is not positive and
/// finite.
[[nodiscard]] std::optional<double> place_on(const Decades& decades, double value);

/// Rows without any value are left out.
[[nodiscard]] Picture scale_picture(const ScaleOrder& order, const std::vector<ScaleRow>& rows);

}  // namespace dryout::report
