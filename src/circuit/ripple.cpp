#include "circuit/ripple.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "quantities/check.h"

namespace dryout::circuit {
namespace {

constexpr int cycles_max = 2000;
constexpr double settled_within = 1e-9;  // of the winding's peak, from one cycle to the next

/// What one cycle left behind.
struct Cycle {
  double end_volts = 0.0;  ///< inside the capacitor
  double highest = -std::numeric_limits<double>::infinity();
  double lowest = std::numeric_limits<double>::infinity();
  double volt_sum = 0.0;
  double diode_peak = 0.0;
  double current_square_sum = 0.0;
};

/// The circuit in bare numbers. While the diode conducts, its current follows from the volts of
/// that moment: (v_source - drop - v_out) / Rs with v_out = v_c + ESR (i - load).
struct Stepper {
  explicit Stepper(const CapacitorInputFilter& f)
      : peak(f.peak.si()),
        drop(f.diode_drop.si()),
        source(f.source_resistance.si()),
        esr(f.esr.si()),
        load(f.load.si()),
        capacitance(f.capacitance.si()),
        full_wave(f.full_wave) {}

  [[nodiscard]] double winding(double turn) const {
    const double v = peak * std::sin(2.0 * std::numbers::pi * turn);
    return full_wave ? std::abs(v) : v;
  }
  [[nodiscard]] double diode_current(double turn, double inside) const {
    const double pushing = winding(turn) - drop - inside + esr * load;
    return std::max(0.0, pushing / (source + esr));
  }
  /// Heun's rule: second order, and the corner where the diode opens costs only that step.
  [[nodiscard]] double stepped(double turn, double step, double inside, double seconds) const {
    const double slope = (diode_current(turn, inside) - load) / capacitance;
    const double guess = inside + seconds * slope;
    const double later = (diode_current(turn + step, guess) - load) / capacitance;
    return inside + 0.5 * seconds * (slope + later);
  }

  double peak, drop, source, esr, load, capacitance;
  bool full_wave;
};

Cycle run_cycle(const Stepper& circuit, double inside, double period, int steps) {
  Cycle cycle;
  const double step = 1.0 / steps;
  for (int k = 0; k < steps; ++k) {
    const double turn = k * step;
    const double diode = circuit.diode_current(turn, inside);
    const double into = diode - circuit.load;
    const double out = inside + circuit.esr * into;
    cycle.highest = std::max(cycle.highest, out);
    cycle.lowest = std::min(cycle.lowest, out);
    cycle.volt_sum += out;
    cycle.diode_peak = std::max(cycle.diode_peak, diode);
    cycle.current_square_sum += into * into;
    inside = circuit.stepped(turn, step, inside, period * step);
  }
  cycle.end_volts = inside;
  return cycle;
}

}  // namespace

quantities::Volt first_order_ripple(const CapacitorInputFilter& filter) {
  const quantities::Hertz recharges = filter.mains * (filter.full_wave ? 2.0 : 1.0);
  return filter.load / (recharges * filter.capacitance);
}

quantities::Volt triangle_rms(quantities::Volt peak_to_peak) {
  return peak_to_peak / (2.0 * std::numbers::sqrt3);
}

SettledRipple settled_ripple(const CapacitorInputFilter& filter, int steps_per_cycle) {
  CHECK(steps_per_cycle >= 16);
  CHECK(filter.source_resistance > quantities::ohms(0.0));
  CHECK(filter.capacitance > quantities::farads(0.0));
  const Stepper circuit(filter);
  const double period = 1.0 / filter.mains.si();
  double inside = circuit.peak - circuit.drop;
  for (int count = 0; count < cycles_max; ++count) {
    const Cycle cycle = run_cycle(circuit, inside, period, steps_per_cycle);
    const bool repeats = std::abs(cycle.end_volts - inside) <= settled_within * circuit.peak;
    inside = cycle.end_volts;
    if (repeats || count + 1 == cycles_max) {
      return {quantities::volts(cycle.highest - cycle.lowest),
              quantities::volts(cycle.lowest),
              quantities::volts(cycle.volt_sum / steps_per_cycle),
              quantities::amperes(cycle.diode_peak),
              quantities::amperes(std::sqrt(cycle.current_square_sum / steps_per_cycle)),
              repeats && cycle.lowest > 0.0};
    }
  }
  return {};
}

quantities::Farad capacitance_behind(quantities::Volt ripple, const CapacitorInputFilter& filter) {
  const quantities::Hertz recharges = filter.mains * (filter.full_wave ? 2.0 : 1.0);
  return filter.load / (recharges * ripple);
}

std::optional<quantities::Farad> settled_capacitance_behind(quantities::Volt ripple,
                                                            const CapacitorInputFilter& filter) {
  constexpr int steps = 1000;       // a cycle; the corner of the diode costs less than a thousandth
  constexpr double widest = 256.0;  // how far from first order is looked, either way
  constexpr double within = 1.0005;  // of the answer
  CapacitorInputFilter tried = filter;
  const auto ripples = [&](double farad) {
    tried.capacitance = quantities::Farad(farad);
    return settled_ripple(tried, steps);
  };
  const double first = capacitance_behind(ripple, filter).si();
  double most = first;
  while (ripples(most).peak_to_peak > ripple) {
    most *= 2.0;
    if (most > first * widest) {
      return std::nullopt;
    }
  }
  double least = most / 2.0;
  while (ripples(least).peak_to_peak < ripple) {
    most = least;
    least /= 2.0;
    if (least < first / widest) {
      return std::nullopt;
    }
  }
  while (most > least * within) {
    const double middle = std::sqrt(least * most);
    (ripples(middle).peak_to_peak > ripple ? least : most) = middle;
  }
  const double found = std::sqrt(least * most);
  return ripples(found).settled ? std::optional(quantities::Farad(found)) : std::nullopt;
}

}  // namespace dryout::circuit
