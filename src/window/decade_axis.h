// A logarithmic axis on a page: readings span decades, and on it a factor is a length.
#pragma once

#include "quantities/engineering_notation.h"
#include "window/sheet.h"

namespace dryout::window {

/// Powers of ten, the first and the last that an axis shows.
struct Decades {
  int low = 0, high = 0;
};

struct DecadeAxis {
  Decades decades;
  float left = 0, right = 0;  ///< pixels
  /// Zero and less have no place on it: they stand at the left end.
  [[nodiscard]] float at(double value) const;
};

/// The powers of ten, written over their places; y is the upper edge of the writing.
void draw_decades(const Sheet& sheet, const DecadeAxis& axis, float y, quantities::Unit unit);

}  // namespace dryout::window
