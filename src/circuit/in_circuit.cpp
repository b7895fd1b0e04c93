#include "circuit/in_circuit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "circuit/solve_ac.h"
#include "quantities/check.h"

namespace dryout::circuit {

using Complex = std::complex<double>;
using quantities::Problem;
using quantities::Result;

namespace {

/// c[0] + c[1] d + c[2] d^2
using Quadratic = std::array<double, 3>;

/// Real zeros, without the cancellation of the schoolbook formula.
std::vector<double> zeros(const Quadratic& c) {
  const double scale = std::max({std::abs(c[0]), std::abs(c[1]), std::abs(c[2])});
  if (std::abs(c[2]) <= 1e-14 * scale && std::abs(c[2]) <= 1e-14 * std::abs(c[1])) {
    return c[1] == 0.0 ? std::vector<double>{} : std::vector<double>{-c[0] / c[1]};
  }
  double under_root = c[1] * c[1] - 4.0 * c[0] * c[2];
  if (under_root < 0.0 && under_root > -1e-12 * c[1] * c[1]) {
    under_root = 0.0;  // a double zero, blurred by rounding
  }
  if (under_root < 0.0) {
    return {};
  }
  const double q = -0.5 * (c[1] + std::copysign(std::sqrt(under_root), c[1]));
  std::vector<double> found{q / c[2]};
  if (q != 0.0) {
    found.push_back(c[0] / q);
  }
  return found;
}

/// |a + b d|^2
Quadratic magnitude_squared(Complex a, Complex b) {
  return {std::norm(a), 2.0 * std::real(a * std::conj(b)), std::norm(b)};
}

double shown(Complex z, MeterShows shows) {
  return shows == MeterShows::impedance ? std::abs(z) : z.real();
}

}  // namespace

struct ResistanceSweep::Quotient {
  Quadratic over;
  Quadratic under;
};

// Z(d) = (z0 + b d) / (1 - y d) with b = g - z0 y.
ResistanceSweep::Quotient ResistanceSweep::quotient(MeterShows shows) const {
  const Complex b = g_ - z0_ * y_;
  const Quadratic under = magnitude_squared(1.0, -y_);
  if (shows == MeterShows::impedance) {
    return {magnitude_squared(z0_, b), under};
  }
  // Re[(z0 + b d) conj(1 - y d)]
  return {
      {z0_.real(), std::real(b) - std::real(z0_ * std::conj(y_)), -std::real(b * std::conj(y_))},
      under};
}

Complex ResistanceSweep::impedance(double r) const {
  const double d = r - r0_;
  return z0_ + d * g_ / (1.0 - d * y_);
}

std::optional<Complex> ResistanceSweep::impedance_if_open() const {
  if (g_ == Complex()) {
    return z0_;  // no current of the meter passes the target
  }
  // y = -1 / (z_target + z_rest): where the rest leaves no path, rounding alone keeps it from zero.
  if (std::abs(y_) * std::max(std::abs(z0_), 1.0) < 1e-13 * std::abs(g_)) {
    return std::nullopt;
  }
  return z0_ - g_ / y_;
}

double ResistanceSweep::reading(double r, MeterShows shows) const {
  return shown(impedance(r), shows);
}

std::optional<double> ResistanceSweep::reading_if_open(MeterShows shows) const {
  const auto z = impedance_if_open();
  return z ? std::optional(shown(*z, shows)) : std::nullopt;
}

/// Readings at both ends and wherever the slope of N / D is zero: N' D - N D' is a quadratic.
std::vector<double> ResistanceSweep::extreme_readings(MeterShows shows) const {
  const auto [n, d] = quotient(shows);
  const Quadratic slope{n[1] * d[0] - n[0] * d[1], 2.0 * (n[2] * d[0] - n[0] * d[2]),
                        n[2] * d[1] - n[1] * d[2]};
  std::vector<double> readings{reading(0.0, shows)};
  for (const double zero : zeros(slope)) {
    if (std::isfinite(zero) && zero + r0_ > 0.0) {
      readings.push_back(reading(zero + r0_, shows));
    }
  }
  if (const auto open = reading_if_open(shows)) {
    readings.push_back(*open);
  }
  return readings;
}

std::optional<double> ResistanceSweep::ceiling(MeterShows shows) const {
  if (!impedance_if_open()) {
    return std::nullopt;
  }
  const std::vector<double> readings = extreme_readings(shows);
  return *std::max_element(readings.begin(), readings.end());
}

double ResistanceSweep::floor(MeterShows shows) const {
  const std::vector<double> readings = extreme_readings(shows);
  return *std::min_element(readings.begin(), readings.end());
}

std::vector<double> ResistanceSweep::resistances_for(double reading_ohm, MeterShows shows) const {
  const auto [n, d] = quotient(shows);
  const double wanted = shows == MeterShows::impedance ? reading_ohm * reading_ohm : reading_ohm;
  const Quadratic difference{n[0] - wanted * d[0], n[1] - wanted * d[1], n[2] - wanted * d[2]};
  std::vector<double> found;
  for (const double zero : zeros(difference)) {
    const double r = zero + r0_;
    if (std::isfinite(r) && r >= -1e-9 * std::max(reading_ohm, 1e-3)) {
      found.push_back(std::max(r, 0.0));
    }
  }
  std::sort(found.begin(), found.end());
  if (found.size() == 2 && found[1] - found[0] <= 1e-6 * found[1]) {
    found.pop_back();
  }
  return found;
}

Result<ResistanceSweep> sweep_resistance(const Netlist& netlist, quantities::Hertz frequency,
                                         NodePair probe, std::size_t target) {
  CHECK(target < netlist.elements.size());
  CHECK(netlist.elements[target].kind == Element::Kind::capacitor);
  if (!are_connected(netlist, probe)) {
    return Problem{"no part joins the two probe nodes", {}, "an open path", "a path between them"};
  }
  // Solved about an ordinary resistance, so that 0 ohm and infinity are both a finite step away.
  Netlist about = netlist;
  Element& part = about.elements[target];
  part.resistance_ohm = std::max(part.resistance_ohm, 0.1);
  const std::vector<Excitation> excitations{Excitation{{{probe, 1.0}}, {}},
                                            Excitation{{}, {{target, 1.0}}}};
  const auto solved = solve_ac(about, frequency, excitations, {target});
  if (!solved) {
    return solved.problems();
  }
  const auto volts = [&](const AcSolution& s) {
    return s.node_volts[probe.from] - s.node_volts[probe.to];
  };
  const AcSolution& driven = (*solved)[0];
  const AcSolution& inserted = (*solved)[1];
  return ResistanceSweep(part.resistance_ohm, volts(driven),
                         volts(inserted) * driven.watched_amperes[0], inserted.watched_amperes[0]);
}

namespace {

std::string remark_on(const std::vector<double>& solutions, const ResistanceSweep& sweep,
                      double reading, MeterShows shows) {
  if (solutions.size() > 1) {
    return "two resistances give this reading; the smaller is shown first";
  }
  if (!solutions.empty()) {
    return {};
  }
  const auto ceiling = sweep.ceiling(shows);
  if (ceiling && reading > *ceiling) {
    return "no resistance of the part gives a reading this high: other parts across it hold it "
           "lower, or the netlist is not the circuit on the bench";
  }
  return "no resistance of the part gives a reading this low: look for a short, or for a path "
         "that is not in the netlist";
}

void answer_about_target(const ResistanceSweep& sweep, const ProbePoint& point,
                         std::optional<double> reading, InCircuitAnswer& answer) {
  answer.about_target = true;
  answer.reading_if_open = sweep.reading_if_open(point.shows);
  answer.ceiling = sweep.ceiling(point.shows);
  if (point.limit_ohm) {
    answer.reading_at_limit = sweep.reading(*point.limit_ohm, point.shows);
    answer.masked = answer.reading_if_open && *answer.reading_if_open < *point.limit_ohm;
  }
  if (reading) {
    answer.esr_solutions = sweep.resistances_for(*reading, point.shows);
    answer.esr_remark = remark_on(answer.esr_solutions, sweep, *reading, point.shows);
  }
}

}  // namespace

Result<InCircuitAnswer> answer_in_circuit(const Netlist& netlist, const ProbePoint& point,
                                          std::optional<double> reading) {
  InCircuitAnswer answer;
  const auto z = impedance_between(netlist, point.frequency, point.probe);
  if (!z) {
    return z.problems();
  }
  answer.z = *z;
  if (answer.z) {
    answer.reading = shown(*answer.z, point.shows);
  }
  answer.inverted_reading = reading;
  if (point.target && answer.z) {
    const auto sweep = sweep_resistance(netlist, point.frequency, point.probe, *point.target);
    if (!sweep) {
      return sweep.problems();
    }
    answer_about_target(*sweep, point, reading, answer);
  }
  return answer;
}

}  // namespace dryout::circuit
