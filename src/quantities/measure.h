// What can be measured or is stated of a capacitor, and which values of it can be met on a bench:
// one table for the command line, the window, the guide, case files, own rules and bare netlists.
// The ranges are judged, wide on purpose: they catch a slipped prefix and a broken file, not an
// unusual part.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantities/engineering_notation.h"
#include "quantities/problem.h"

namespace dryout::quantities {

enum class Measure {
  esr,
  impedance,
  capacitance,  ///< as a meter shows it: 0 for an open part
  leakage_current,
  dc_resistance,
  ripple,
  dc_volts,
  insulation,
  dissipation,  ///< tan δ
  hold_up,
  lead_resistance,
  marked_capacitance,  ///< as printed on the part: above 0
  rated_volts,
  test_volts,
  frequency,
  temperature,
  circuit_resistance,  ///< of an element of a bare netlist, which may be no capacitor
  circuit_inductance,
  circuit_capacitance,
  circuit_frequency,
  circuit_volts,    ///< across an element, at most; 0 = none
  circuit_current,  ///< drawn by a load
  endurance_hours,  ///< of a data sheet, or spent at a temperature; a bare number
  share_of_mark     ///< volts across a part over its mark; a bare number
};

struct PhysicalRange {
  Measure measure;
  std::string_view
      word;  ///< "esr", "leakage-current": the word of a kind of reading, where it is one
  std::string_view title;  ///< "an ESR", in mid-sentence
  Unit unit;
  double least;   ///< SI
  double most;    ///< SI
  double finest;  ///< the smallest magnitude, zero apart
  bool zero;      ///< whether zero itself may be told
  /// False too for what is not finite.
  [[nodiscard]] bool contains(double si) const;
  [[nodiscard]] std::string describe() const;  ///< "0 Ω, or 1 nΩ to 1 GΩ"
};

[[nodiscard]] const PhysicalRange& range_of(Measure measure);
/// The range of a limit for it: what the measure can be, without zero.
[[nodiscard]] PhysicalRange range_of_limit(Measure measure);

/// The measure of that word ("esr"); nothing where there is none.
[[nodiscard]] std::optional<Measure> measure_of(std::string_view word);

/// A problem that names the range where the value lies outside of it; its place is left empty.
/// `what` begins the sentence: "this reading".
[[nodiscard]] std::optional<Problem> out_of_range(const PhysicalRange& range, double si,
                                                  std::string_view what);

/// Reads the text in the measure's unit and holds it against its range.
[[nodiscard]] Result<double> parse_measure(std::string_view text, Measure measure);
[[nodiscard]] Result<double> parse_limit(std::string_view text, Measure measure);

/// A figure as it stands in a field that is still being filled: "= 0.47 Ω", or "= ?" where it
/// cannot be read. Nothing for an empty text.
struct Understood {
  std::string told;
  bool taken = false;  ///< read, and within the range
};
[[nodiscard]] std::optional<Understood> understood(std::string_view text,
                                                   const PhysicalRange& range);

}  // namespace dryout::quantities
