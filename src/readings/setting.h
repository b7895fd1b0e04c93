// Where the part sits while it is measured: lifted, or with something across it. A setting is a
// weighted list of circuits, because "a ceramic" is not one value; with a netlist it is one exact
// circuit.
//
// An answer can be wrong, and a brother across the part is as old as the part: an answer therefore
// carries its doubts along, circuits that count in the likelihood of a reading (or else a reading
// that nothing explains would say nothing, and 0.9 ohm across four fine reservoirs would leave all
// of them innocent), but not in what the answer as told can hide.
#pragma once

#include <complex>
#include <optional>
#include <vector>

#include "circuit/in_circuit.h"
#include "quantities/quantity.h"
#include "readings/reading.h"

namespace dryout::readings {

class Setting {
 public:
  /// Nothing else between the tips.
  static Setting lifted(circuit::MeterShows shows, quantities::Ohm reactance);
  /// The usual answers to "what else is across it?". `typical_resistance` is that of a sound part
  /// of this type, for a brother across it. Spreads are judged; setting.cpp says how.
  static Setting with(Across across, circuit::MeterShows shows, quantities::Ohm reactance,
                      quantities::Hertz frequency, quantities::Ohm typical_resistance);
  /// One exact circuit: the sweep of the part as marked, and of the part with a share of its
  /// capacitance left (0 = shorted); the nearest share is used.
  struct Exact {
    double kept = 1.0;
    circuit::ResistanceSweep sweep;
  };
  static Setting from_netlist(std::vector<Exact> exact, circuit::MeterShows shows);

  /// Those told first, then the doubts.
  [[nodiscard]] std::size_t circuits() const { return exact_.empty() ? paths_.size() : 1; }
  [[nodiscard]] std::size_t circuits_told() const { return exact_.empty() ? told_ : 1; }
  [[nodiscard]] double weight(std::size_t circuit) const;
  /// What the meter shows for a series resistance, the part keeping `kept` of its capacitance
  /// (0 = a short: no reactance at all).
  [[nodiscard]] double reading(std::size_t circuit, double resistance, double kept) const;
  /// With the part open; nothing where the meter would show no end of ohms.
  [[nodiscard]] std::optional<double> reading_if_open(std::size_t circuit) const;
  /// Largest reading of a part whose resistance is at most `resistance`, in the circuits told.
  [[nodiscard]] double highest_up_to(double resistance) const;
  /// Share of the circuits told in which an open part would still read below `reading`.
  [[nodiscard]] double share_masking(double reading) const;

 private:
  struct Path {
    std::complex<double> admittance;
    double weight = 1.0;
    double alike = 0.0;  ///< not 0: a brother with this many times the part's own resistance
  };
  template <class MakePath>
  void add_group(double share, double median, double log_spread, const MakePath& path_of);
  void add_doubts(Across across);
  [[nodiscard]] const circuit::ResistanceSweep& nearest(double kept) const;
  circuit::MeterShows shows_ = circuit::MeterShows::impedance;
  double reactance_ = 0.0;
  std::vector<Path> paths_;
  std::size_t told_ = 0;  ///< of the paths; the rest are doubts
  std::vector<Exact> exact_;
};

}  // namespace dryout::readings
