// Where the part sits while it is measured: lifted, or with something across it. A setting is a
// weighted list of circuits, because "a ceramic" is not one value; with a netlist it is one exact
// circuit.
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
  static Setting from_netlist(const circuit::ResistanceSweep& sweep, circuit::MeterShows shows);

  [[nodiscard]] std::size_t circuits() const { return exact_ ? 1 : paths_.size(); }
  [[nodiscard]] double weight(std::size_t circuit) const;
  /// What the meter shows for a series resistance, the part keeping `kept` of its capacitance
  /// (0 = a short: no reactance at all).
  [[nodiscard]] double reading(std::size_t circuit, double resistance, double kept) const;
  /// With the part open; nothing where the meter would show no end of ohms.
  [[nodiscard]] std::optional<double> reading_if_open(std::size_t circuit) const;
  /// Largest reading of a part whose resistance is at most `resistance`.
  [[nodiscard]] double highest_up_to(double resistance) const;
  /// Weight of the circuits in which an open part would still read below `reading`.
  [[nodiscard]] double share_masking(double reading) const;

 private:
  struct Path {
    std::complex<double> admittance;
    double weight = 1.0;
  };
  void add_group(double share, double median, double log_spread, bool resistive,
                 double per_unit_admittance);
  circuit::MeterShows shows_ = circuit::MeterShows::impedance;
  double reactance_ = 0.0;
  std::vector<Path> paths_;
  std::optional<circuit::ResistanceSweep> exact_;
};

}  // namespace dryout::readings
