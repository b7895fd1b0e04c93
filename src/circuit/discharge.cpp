#include "circuit/discharge.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dryout::circuit {

using quantities::Joule;
using quantities::Ohm;
using quantities::Second;
using quantities::Volt;
using quantities::Watt;

namespace {

/// The next value of the E12 series (IEC 60063) that is not below.
Ohm round_up_e12(Ohm wanted) {
  constexpr std::array<double, 13> series{1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3,
                                          3.9, 4.7, 5.6, 6.8, 8.2, 10.0};
  const double decade = std::pow(10.0, std::floor(std::log10(wanted.si())));
  for (const double step : series) {
    if (step * decade >= wanted.si() * (1.0 - 1e-9)) {
      return quantities::ohms(step * decade);
    }
  }
  return quantities::ohms(10.0 * decade);
}

}  // namespace

Joule stored_energy(const Charged& part) {
  return quantities::joules(0.5 * part.capacitance.si() * part.volts.si() * part.volts.si());
}

Second time_to(const Charged& part, Ohm resistor, Volt down_to) {
  if (part.volts <= down_to) {
    return quantities::seconds(0.0);
  }
  return resistor * part.capacitance * std::log(part.volts / down_to);
}

Volt volts_left(const Charged& part, Ohm resistor, Second after) {
  return part.volts * std::exp(-(after / (resistor * part.capacitance)));
}

DischargeStep plan_discharge(const Charged& part, Ohm resistor, double absorption,
                             Volt safe_volts) {
  DischargeStep step;
  step.resistor = resistor;
  step.peak_current = part.volts / resistor;
  step.peak_power = part.volts * step.peak_current;
  step.energy = stored_energy(part);
  step.hold = std::max(time_to(part, resistor, safe_volts), resistor * part.capacitance * 5.0);
  step.left = volts_left(part, resistor, step.hold);
  step.rebound = std::max(part.volts * absorption, step.left);
  step.rating = quantities::watts(2.0 * (step.energy.si() / step.hold.si()));
  step.voltage_rating = part.volts;
  return step;
}

Watt rating_to_buy(const DischargeStep& step) {
  constexpr std::array<double, 10> sold{0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 25.0, 50.0};
  const double wanted = std::max(step.rating, step.peak_power * 0.1).si();
  for (const double rating : sold) {
    if (rating >= wanted) {
      return quantities::watts(rating);
    }
  }
  return quantities::watts(10.0 * std::ceil(wanted / 10.0));
}

Ohm discharge_resistor(const Charged& part) {
  constexpr Ohm most = quantities::ohms(10e6);
  const Ohm five_seconds = std::min(quantities::seconds(1.0) / part.capacitance, most);  // RC = 1 s
  const Ohm gentle = part.volts / quantities::amperes(0.2);
  const bool high = part.volts > quantities::volts(100.0);
  return round_up_e12(high ? std::max(five_seconds, gentle) : five_seconds);
}

Bleeder size_bleeder(const Charged& part, Volt down_to, Second time) {
  const Ohm resistance = time / part.capacitance / std::log(part.volts / down_to);
  return {resistance, part.volts * (part.volts / resistance)};
}

}  // namespace dryout::circuit
