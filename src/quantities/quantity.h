// Electrical quantities as types. A Quantity carries its dimension as three exponents
// (volt, ampere, second) and one SI value, so ohm times farad is a time and adding an ohm to a
// farad does not compile. There is no "millivolt" type: scale lives only in the named makers and
// readers at the bottom and in text (engineering_notation.h).
//
//   Second tau = ohms(2'200.0) * farads(470e-6);
#pragma once

#include <compare>
#include <complex>
#include <numbers>

namespace dryout::quantities {

template <int V, int A, int S, class Rep = double>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(Rep si) : si_(si) {}

  /// The value in the coherent SI unit of this dimension.
  [[nodiscard]] constexpr Rep si() const { return si_; }

  constexpr Quantity& operator+=(Quantity other) { return si_ += other.si_, *this; }
  constexpr Quantity& operator-=(Quantity other) { return si_ -= other.si_, *this; }
  constexpr Quantity& operator*=(double factor) { return si_ *= factor, *this; }
  constexpr Quantity& operator/=(double divisor) { return si_ /= divisor, *this; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.si_); }
  friend constexpr Quantity operator*(Quantity a, double f) { return Quantity(a.si_ * f); }
  friend constexpr Quantity operator*(double f, Quantity a) { return Quantity(a.si_ * f); }
  friend constexpr Quantity operator/(Quantity a, double d) { return Quantity(a.si_ / d); }
  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;

 private:
  Rep si_{};
};

namespace detail {
/// Dimension (0, 0, 0) collapses to the bare number.
template <int V, int A, int S, class Rep>
constexpr auto collapse(Rep value) {
  if constexpr (V == 0 && A == 0 && S == 0) {
    return value;
  } else {
    return Quantity<V, A, S, Rep>(value);
  }
}
}  // namespace detail

template <int V1, int A1, int S1, class R1, int V2, int A2, int S2, class R2>
constexpr auto operator*(Quantity<V1, A1, S1, R1> a, Quantity<V2, A2, S2, R2> b) {
  return detail::collapse<V1 + V2, A1 + A2, S1 + S2>(a.si() * b.si());
}

template <int V1, int A1, int S1, class R1, int V2, int A2, int S2, class R2>
constexpr auto operator/(Quantity<V1, A1, S1, R1> a, Quantity<V2, A2, S2, R2> b) {
  return detail::collapse<V1 - V2, A1 - A2, S1 - S2>(a.si() / b.si());
}

template <int V, int A, int S, class Rep>
constexpr auto operator/(double number, Quantity<V, A, S, Rep> q) {
  return Quantity<-V, -A, -S, Rep>(number / q.si());
}

using Volt = Quantity<1, 0, 0>;
using Ampere = Quantity<0, 1, 0>;
using Second = Quantity<0, 0, 1>;
using Hertz = Quantity<0, 0, -1>;
using Ohm = Quantity<1, -1, 0>;
using Siemens = Quantity<-1, 1, 0>;
using Farad = Quantity<-1, 1, 1>;
using Henry = Quantity<1, -1, 1>;
using Watt = Quantity<1, 1, 0>;
using Joule = Quantity<1, 1, 1>;
using ComplexOhm = Quantity<1, -1, 0, std::complex<double>>;
using ComplexVolt = Quantity<1, 0, 0, std::complex<double>>;

/// Angular frequency has the exponents of hertz but is not hertz: it is a class of its own, made
/// only by angular(), so that a forgotten 2 pi does not compile.
class AngularFrequency {
 public:
  [[nodiscard]] constexpr double radians_per_second() const { return value_; }

 private:
  friend constexpr AngularFrequency angular(Hertz frequency);
  constexpr explicit AngularFrequency(double value) : value_(value) {}
  double value_;
};
constexpr AngularFrequency angular(Hertz frequency) {
  return AngularFrequency(2.0 * std::numbers::pi * frequency.si());
}

constexpr Volt volts(double v) { return Volt(v); }
constexpr Ampere amperes(double a) { return Ampere(a); }
constexpr Second seconds(double s) { return Second(s); }
constexpr Second minutes(double m) { return Second(m * 60.0); }
constexpr Second hours(double h) { return Second(h * 3600.0); }
constexpr Hertz hertz(double f) { return Hertz(f); }
constexpr Ohm ohms(double r) { return Ohm(r); }
constexpr Farad farads(double c) { return Farad(c); }
constexpr Farad microfarads(double c) { return Farad(c * 1e-6); }
constexpr Henry henries(double l) { return Henry(l); }
constexpr Watt watts(double p) { return Watt(p); }
constexpr Joule joules(double e) { return Joule(e); }

constexpr double in_minutes(Second t) { return t.si() / 60.0; }
constexpr double in_hours(Second t) { return t.si() / 3600.0; }
constexpr double in_microfarads(Farad c) { return c.si() * 1e6; }
constexpr double in_milliohms(Ohm r) { return r.si() * 1e3; }

}  // namespace dryout::quantities
