// An opaque screen colour, 0 to 255 a channel, packed the way the drawing library wants it.
#pragma once

#include <cstdint>

namespace dryout::window {

struct Colour {
  std::uint8_t red = 0, green = 0, blue = 0, alpha = 255;

  /// Red in the low byte, alpha in the high one.
  [[nodiscard]] constexpr std::uint32_t packed() const {
    return static_cast<std::uint32_t>(red) | (static_cast<std::uint32_t>(green) << 8U) |
           (static_cast<std::uint32_t>(blue) << 16U) | (static_cast<std::uint32_t>(alpha) << 24U);
  }
  [[nodiscard]] constexpr Colour faded(std::uint8_t to_alpha) const {
    return {red, green, blue, to_alpha};
  }
};

/// 0xRRGGBB, as colours are written down.
constexpr Colour hex(std::uint32_t rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16U), static_cast<std::uint8_t>(rgb >> 8U),
          static_cast<std::uint8_t>(rgb)};
}

}  // namespace dryout::window
