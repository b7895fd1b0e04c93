#include "quantities/printed_number.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantities/check.h"

namespace dryout::quantities {
namespace {

constexpr double fixed_below = 1e15;  ///< what a double still holds to the last whole figure
constexpr int figures_max = 17;       ///< more than a double holds
constexpr int figures_of_the_huge = 3;

std::string of_no_finite(double value) {
  return std::isnan(value) ? "?" : value > 0 ? "\u221e" : "-\u221e";
}

/// 1e15 with 17 decimals is the longest that is asked for: 34 characters with its sign.
std::string printed(double value, std::chars_format format, int precision) {
  std::array<char, 64> text{};
  const auto [end, error] =
      std::to_chars(text.data(), text.data() + text.size(), value, format, precision);
  CHECK(error == std::errc());
  return {text.data(), end};
}

}  // namespace

std::string fixed_point(double value, int decimals) {
  if (!std::isfinite(value)) {
    return of_no_finite(value);
  }
  if (std::abs(value) >= fixed_below) {
    return significant_figures(value, figures_of_the_huge);
  }
  std::string text = printed(value, std::chars_format::fixed, std::clamp(decimals, 0, figures_max));
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::string significant_figures(double value, int figures) {
  if (!std::isfinite(value)) {
    return of_no_finite(value);
  }
  const double plain = value == 0.0 ? 0.0 : value;  // minus zero is zero
  return printed(plain, std::chars_format::general, std::clamp(figures, 1, figures_max));
}

std::string whole_number(double value) { return fixed_point(std::round(value), 0); }

std::string grouped_by_thousands(const std::string& digits) {
  constexpr std::size_t group = 3;
  constexpr std::size_t ungrouped_max = 4;
  const std::size_t begin = digits.find_first_of("0123456789");
  const std::size_t end =
      begin == std::string::npos ? begin : digits.find_first_not_of("0123456789", begin);
  const std::size_t length = begin == std::string::npos ? 0 : std::min(end, digits.size()) - begin;
  if (length <= ungrouped_max || digits.find('e') != std::string::npos) {
    return digits;
  }
  std::string text = digits;
  for (std::size_t behind = group; behind < length; behind += group) {
    text.insert(begin + length - behind, 1, ',');
  }
  return text;
}

}  // namespace dryout::quantities
