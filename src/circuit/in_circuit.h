// What a meter sees of one capacitor while it is still soldered in, and what that says about the
// capacitor. The impedance between the tips is a bilinear function of the capacitor's series
// resistance r,
//   Z(r) = z0 + d g / (1 - d y),   d = r - r0
// with three numbers from one factorisation of the network (a rank-one change of its matrix;
// Sherman-Morrison). So the reading at any r, the largest reading that any r could give and the r
// behind a reading are all exact: |Z|^2 and Re Z are quotients of two quadratics in r.
#pragma once

#include <complex>
#include <optional>
#include <string>
#include <vector>

#include "circuit/netlist.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::circuit {

/// What the meter shows: the magnitude of Z, or its in-phase part.
enum class MeterShows { impedance, resistance };

/// What the tips stand on, and which part is asked about.
struct ProbePoint {
  quantities::Hertz frequency{100e3};
  NodePair probe;
  MeterShows shows = MeterShows::impedance;
  std::optional<std::size_t> target;  ///< element index of a capacitor
  std::optional<double> limit_ohm;    ///< of the target's ESR
};

/// Z between the tips against the target's series resistance.
class ResistanceSweep {
 public:
  ResistanceSweep(double r0, std::complex<double> z0, std::complex<double> g,
                  std::complex<double> y)
      : r0_(r0), z0_(z0), g_(g), y_(y) {}

  [[nodiscard]] std::complex<double> impedance(double r) const;
  /// With the target open (r to infinity); nothing where that leaves no path.
  [[nodiscard]] std::optional<std::complex<double>> impedance_if_open() const;
  [[nodiscard]] double reading(double r, MeterShows shows) const;
  [[nodiscard]] std::optional<double> reading_if_open(MeterShows shows) const;
  /// Largest reading over r in [0, infinity]; nothing where it grows without bound.
  [[nodiscard]] std::optional<double> ceiling(MeterShows shows) const;
  /// Least reading over r in [0, infinity].
  [[nodiscard]] double floor(MeterShows shows) const;
  /// Every r >= 0 that gives this reading, smallest first: none, one or two.
  [[nodiscard]] std::vector<double> resistances_for(double reading, MeterShows shows) const;

 private:
  struct Quotient;  ///< reading (squared for the magnitude) as N(d) / D(d)
  [[nodiscard]] Quotient quotient(MeterShows shows) const;
  [[nodiscard]] std::vector<double> extreme_readings(MeterShows shows) const;
  double r0_;
  std::complex<double> z0_, g_, y_;
};

/// The target must be a capacitor with capacitance. A probe pair without any path is a problem.
[[nodiscard]] quantities::Result<ResistanceSweep> sweep_resistance(const Netlist& netlist,
                                                                   quantities::Hertz frequency,
                                                                   NodePair probe,
                                                                   std::size_t target);

/// Everything `dryout circuit` answers. Absent = infinite (no path), or not asked.
struct InCircuitAnswer {
  std::optional<std::complex<double>> z;
  std::optional<double> reading;
  // With a target:
  bool about_target = false;
  std::optional<double> reading_at_limit;
  std::optional<double> reading_if_open;
  std::optional<double> ceiling;
  std::optional<bool> masked;  ///< an open target would still read below the limit
  // With a reading to invert:
  std::optional<double> inverted_reading;
  std::vector<double> esr_solutions;  ///< smallest first
  std::string esr_remark;             ///< why there is none, or that there are two
};

[[nodiscard]] quantities::Result<InCircuitAnswer> answer_in_circuit(
    const Netlist& netlist, const ProbePoint& point, std::optional<double> reading = {});

}  // namespace dryout::circuit
