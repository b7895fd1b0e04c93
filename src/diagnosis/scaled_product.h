// A product of many non-negative factors that may leave the range of a floating-point number:
// mantissa and binary exponent are kept apart, so that nothing underflows and no digit is lost.
#pragma once

#include <cmath>
#include <limits>

namespace dryout::diagnosis {

class ScaledProduct {
 public:
  void multiply(long double factor) {
    int shift = 0;
    mantissa_ = std::frexp(mantissa_ * factor, &shift);
    exponent_ += shift;
  }
  void multiply_power_of_two(long exponent) { exponent_ += exponent; }

  [[nodiscard]] bool is_zero() const { return mantissa_ == 0.0L; }

  /// Natural logarithm; minus infinity for zero.
  [[nodiscard]] double log() const {
    constexpr long double ln_2 = 0.693147180559945309417232121458176568L;
    if (is_zero()) {
      return -std::numeric_limits<double>::infinity();
    }
    return static_cast<double>(std::log(mantissa_) + static_cast<long double>(exponent_) * ln_2);
  }

 private:
  long double mantissa_ = 1.0L;  ///< 0, or 0.5 to 1
  long exponent_ = 0;
};

}  // namespace dryout::diagnosis
