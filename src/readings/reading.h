// What can be read from a meter at a part, and what else can sit across the part meanwhile. The
// words are those of the command line, the case files and the rules.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "quantities/engineering_notation.h"
#include "quantities/quantity.h"

namespace dryout::readings {

/// The order is the order of the words; casework's choices stand in the same order.
enum class Kind {
  esr,
  impedance,
  capacitance,
  leakage_current,
  dc_resistance,
  ripple,
  dc_volts,
  insulation,   ///< ohms at test volts
  dissipation,  ///< D = tan delta at the frequency of the reading
  hold_up       ///< seconds that a back-up part keeps its load alive
};

enum class Across { unknown, nothing, ceramic, electrolytic, winding, regulator, low_resistor };

enum class Body { unknown, smd, radial, axial, can };

/// In the order of a rising reading; the last two stand outside it.
enum class Verdict {
  suspect_short,
  within_limit,
  masked,
  not_proven,
  over_limit,
  no_reading,  ///< OL, or nothing at all, where that is no answer to the question
  above_mark   ///< far more capacitance than is printed: leakage, something across, another part
};

[[nodiscard]] std::string_view word_of(Kind kind);        ///< "esr", ..., "dc-volts"
[[nodiscard]] std::string_view word_of(Across across);    ///< "unknown", ..., "low-resistor"
[[nodiscard]] std::string_view word_of(Body body);        ///< "unknown", "smd", ...
[[nodiscard]] std::string_view word_of(Verdict verdict);  ///< "suspect-short", ...

[[nodiscard]] const std::vector<std::string_view>& kind_words();
[[nodiscard]] const std::vector<std::string_view>& across_words();
[[nodiscard]] const std::vector<std::string_view>& body_words();

/// Nothing where there is no such word.
[[nodiscard]] std::optional<Kind> kind_of(std::string_view word);
[[nodiscard]] std::optional<Across> across_of(std::string_view word);
[[nodiscard]] std::optional<Body> body_of(std::string_view word);

[[nodiscard]] quantities::Unit unit_of(Kind kind);

/// What people type for a display beyond its range: "OL", "ol", "O.L", "0L", "inf".
[[nodiscard]] bool is_over_range(std::string_view typed);

/// At which a kind is read where nobody says: loss at 120 Hz (electrolytics) or 1 kHz, as sheets
/// state it; all else at 100 kHz.
[[nodiscard]] quantities::Hertz usual_frequency(Kind kind, std::string_view technology);

/// Technologies with a liquid electrolyte, whose resistance is weather to temperature.
[[nodiscard]] bool is_wet(std::string_view technology);
/// Aluminium with an electrolyte: the only parts that are re-formed.
[[nodiscard]] bool is_aluminium_electrolytic(std::string_view technology);
/// Parts that one sheet's limits can speak for: surface-mount and radial wet parts are one family,
/// told apart by the body.
[[nodiscard]] std::string_view limit_family(std::string_view technology);
/// Judged by insulation, loss and capacitance; an ESR tester shows their reactance.
[[nodiscard]] bool has_dry_dielectric(std::string_view technology);

}  // namespace dryout::readings
