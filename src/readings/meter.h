// The instrument: what it shows, how well, and what its test signal does to the circuit. The shop
// keeps a list.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "documents/parse.h"
#include "knowledge/rules.h"
#include "quantities/quantity.h"
#include "quantities/result.h"
#include "readings/reading.h"

namespace dryout::readings {

struct Meter {
  std::string id;
  std::string title;
  std::vector<Kind> shows;                     ///< what it can read
  quantities::Hertz frequency{100e3};          ///< of its test signal, where it has one
  double accuracy = 0.05;                      ///< relative, one standard deviation
  double floor = 0.02;                         ///< absolute, SI of the kind (ohm for ESR)
  std::optional<quantities::Ohm> lead_zero;    ///< what it shows with its tips together
  std::optional<quantities::Volt> test_volts;  ///< open-circuit peak of its test signal
  std::string because;                         ///< what kind of instrument it is, where said
  knowledge::Source source;                    ///< of its figures; judgement unless said

  [[nodiscard]] bool can_show(Kind kind) const;  ///< an empty list shows everything
};

/// What semiconductors across the part do under this test signal.
enum class Junctions { stay_off, germanium_and_schottky_conduct, silicon_conducts };
/// Up to 0.15 V everything stays off; from 0.4 V silicon conducts (common practice).
[[nodiscard]] Junctions junctions_under(quantities::Volt test_volts);

/// {"schema": 1, "meters": [{"id", "title", "shows": ["esr"], "frequency_Hz", "accuracy", "floor",
///  "lead_zero_ohm", "test_V", "because", "source", "judged"}]}; the last three may be left out.
[[nodiscard]] quantities::Result<std::vector<Meter>> read_meters(
    const documents::Document& document);
[[nodiscard]] documents::Value to_json(const std::vector<Meter>& meters);

/// The shop's list: DIR/rules/meters/*.json of every tree, a later tree's meter in the place of an
/// earlier one of the same id. Trees without meters give an empty list.
[[nodiscard]] quantities::Result<std::vector<Meter>> load_meters(
    const std::vector<std::string>& directories);
/// The meter of that id, or null.
[[nodiscard]] const Meter* find_meter(const std::vector<Meter>& meters, std::string_view id);

/// Of a small reading: the absolute error of the meter that showed it, where no meter is named.
inline constexpr double shown_finely = 0.12;

/// A reading cleared of the leads, and how far it can still be off.
struct CorrectedReading {
  double value = 0.0;       ///< SI; never below a quarter of the floor, nor what a display resolves
  double shown = 0.0;       ///< the leads taken off, as typed: may be 0
  double log_spread = 0.0;  ///< standard deviation of ln(value), at this value
  double relative = 0.0;    ///< the share of it that goes with the value ...
  double absolute = 0.0;    ///< ... and the one that does not, in the unit of the value
  bool zero_matters =
      false;  ///< the leads are unknown and, not zeroed, could be a fifth of the reading
  /// Standard deviation of ln(value) if the meter ought to show `expected`.
  [[nodiscard]] double spread_at(double expected) const;
  /// The same for judging how far `value` lies off `expected`: the absolute error taken over the
  /// way between them, so that 0.1 ohm read with a meter good to 0.02 is well clear of 0.03.
  [[nodiscard]] double spread_between(double expected) const;
};
/// `lead_zero`: subtracted where known; where not, the meter is taken as zeroed with its tips
/// together, and `zero_matters` says where leads of 0.05 to 0.3 ohm would change the answer.
[[nodiscard]] CorrectedReading correct(double value, Kind kind,
                                       std::optional<quantities::Ohm> lead_zero,
                                       const Meter& meter);

}  // namespace dryout::readings
