// Temperature is a point on a scale, not an amount: two temperatures have a difference, but no
// sum. Kelvin appears only inside formulas, through in_kelvin().
#pragma once

#include <compare>

namespace dryout::quantities {

class CelsiusDelta {
 public:
  constexpr explicit CelsiusDelta(double kelvins) : kelvins_(kelvins) {}
  [[nodiscard]] constexpr double kelvins() const { return kelvins_; }
  friend constexpr auto operator<=>(const CelsiusDelta&, const CelsiusDelta&) = default;

 private:
  double kelvins_;
};

class Celsius {
 public:
  constexpr Celsius() = default;
  constexpr explicit Celsius(double degrees) : degrees_(degrees) {}
  [[nodiscard]] constexpr double degrees() const { return degrees_; }
  [[nodiscard]] constexpr double in_kelvin() const { return degrees_ + 273.15; }

  friend constexpr CelsiusDelta operator-(Celsius a, Celsius b) {
    return CelsiusDelta(a.degrees_ - b.degrees_);
  }
  friend constexpr Celsius operator+(Celsius t, CelsiusDelta d) {
    return Celsius(t.degrees_ + d.kelvins());
  }
  friend constexpr auto operator<=>(const Celsius&, const Celsius&) = default;

 private:
  double degrees_ = 0.0;
};

}  // namespace dryout::quantities
