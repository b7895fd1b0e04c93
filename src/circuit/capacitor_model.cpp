#include "circuit/capacitor_model.h"

#include <cmath>
#include <numbers>

#include "quantities/check.h"

namespace dryout::circuit {

using quantities::Celsius;
using quantities::Farad;
using quantities::Hertz;
using quantities::Ohm;

namespace {
constexpr Celsius reference(20.0);
constexpr double unchanging_share = 0.35;
constexpr double activation_kelvin = 4780.0;
}  // namespace

double core_factor(Core core, Celsius temperature) {
  if (core == Core::solid) {
    return 1.0;
  }
  const double exponent =
      activation_kelvin * (1.0 / temperature.in_kelvin() - 1.0 / reference.in_kelvin());
  return unchanging_share + (1.0 - unchanging_share) * std::exp(exponent);
}

Farad capacitance_at(const CapacitorModel& model, Celsius temperature) {
  const double change = model.capacitance_slope * (temperature - reference).kelvins();
  return model.capacitance * (1.0 + change);
}

Ohm esr_at(const CapacitorModel& model, Hertz frequency, Celsius temperature) {
  return model.core_resistance * core_factor(model.core, temperature) +
         esr_from_tan_delta(model.film_loss, frequency, capacitance_at(model, temperature));
}

std::complex<double> impedance_at(const CapacitorModel& model, Hertz frequency,
                                  Celsius temperature) {
  const double inductive = angular(frequency).radians_per_second() * model.series_inductance.si();
  const Ohm capacitive = reactance(capacitance_at(model, temperature), frequency);
  return {esr_at(model, frequency, temperature).si(), inductive - capacitive.si()};
}

Hertz self_resonance(const CapacitorModel& model) {
  const double root = std::sqrt(model.series_inductance.si() * model.capacitance.si());
  return quantities::hertz(1.0 / (2.0 * std::numbers::pi * root));
}

CapacitorModel worn(const CapacitorModel& fresh, double esr_factor, double kept) {
  CHECK(esr_factor > 0.0);
  CHECK(kept > 0.0);
  CapacitorModel model = fresh;
  model.core_resistance = fresh.core_resistance * esr_factor;
  model.capacitance = fresh.capacitance * kept;
  return model;
}

Ohm esr_from_tan_delta(double tan_delta, Hertz frequency, Farad capacitance) {
  return tan_delta * reactance(capacitance, frequency);
}

Ohm reactance(Farad capacitance, Hertz frequency) {
  return quantities::ohms(1.0 / (angular(frequency).radians_per_second() * capacitance.si()));
}

}  // namespace dryout::circuit
