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
  return time_constant(part, resistor) * std::log(part.volts / down_to);
}

Second time_constant(const Charged& part, Ohm resistor) {
  return (resistor + part.esr) * part.capacitance;
}

Volt volts_left(const Charged& part, Ohm resistor, Second after) {
  return part.volts * std::exp(-(after / time_constant(part, resistor)));
}

DischargeStep plan_discharge(const Charged& part, Ohm resistor, double absorption,
                             Volt safe_volts) {
  DischargeStep step;
  step.resistor = resistor;
  const double share = resistor / (resistor + part.esr);  // what falls across the resistor
  step.peak_current = part.volts / (resistor + part.esr);
  step.peak_power = part.volts * share * step.peak_current;
  step.energy = stored_energy(part);
  step.hold = std::max(time_to(part, resistor, safe_volts), time_constant(part, resistor) * 5.0);
  step.left = volts_left(part, resistor, step.hold);
  step.rebound = std::max(part.volts * absorption, step.left);
  step.rating = quantities::watts(2.0 * share * (step.energy.si() / step.hold.si()));
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

bool next_to_a_short(const Charged& part, const DischargeStep& step) {
  constexpr double coulombs_least = 45e-6;  // IEC 61010-1, 6.3.1 c, second-hand
  return part.volts > quantities::volts(60.0) &&
         part.volts.si() * part.capacitance.si() > coulombs_least &&
         step.peak_current > quantities::amperes(10.0);
}

Ohm gentle_resistor(Volt volts) {
  constexpr double amperes_most = 1.0;
  constexpr double amperes_high = 0.2;  // from 100 V on
  constexpr double watts_low = 20.0;    // up to 100 V: 0.2 A there
  constexpr double watts_most = 80.0;   // from 400 V on: 0.2 A there
  const double power = std::clamp(amperes_high * volts.si(), watts_low, watts_most);
  return quantities::ohms(std::max(volts.si() / amperes_most, volts.si() * volts.si() / power));
}

Ohm discharge_resistor(const Charged& part) {
  constexpr Ohm least = quantities::ohms(1.0);
  constexpr Ohm most = quantities::ohms(10e6);
  // RC = 1 s, of which the part itself may be some.
  const Ohm five_seconds =
      std::clamp(quantities::seconds(1.0) / part.capacitance - part.esr, least, most);
  return round_up_e12(std::max(five_seconds, gentle_resistor(part.volts) - part.esr));
}

Bleeder size_bleeder(const Charged& part, Volt down_to, Second time) {
  const Ohm resistance = time / part.capacitance / std::log(part.volts / down_to);
  return {resistance, part.volts * (part.volts / resistance)};
}

}  // namespace dryout::circuit
