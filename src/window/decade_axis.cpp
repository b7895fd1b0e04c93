#include "window/decade_axis.h"

#include <algorithm>
#include <cmath>

#include "window/drawing.h"

namespace dryout::window {

float DecadeAxis::at(double value) const {
  const double span = decades.high - decades.low;
  const double share =
      value > 0 ? std::clamp((std::log10(value) - decades.low) / span, 0.0, 1.0) : 0.0;
  return left + (right - left) * static_cast<float>(share);
}

void draw_decades(const Sheet& sheet, const DecadeAxis& axis, float y, quantities::Unit unit) {
  for (int decade = axis.decades.low; decade <= axis.decades.high; ++decade) {
    const std::string words = quantities::format_engineering(std::pow(10.0, decade), unit, 1);
    const float x = axis.at(std::pow(10.0, decade));
    write(sheet, Face::figure_note, sheet.theme.faint,
          x - width_of(sheet, Face::figure_note, words) / 2, y, words);
  }
}

}  // namespace dryout::window
