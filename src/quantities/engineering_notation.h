// How people at a bench write values: 10u, 4R7, 2k2, 0.47, 100n, 1M. Read strictly, because a
// value misread by a factor of a thousand sends a technician to the wrong part.
//
// Accepted: digits with at most one decimal point, then an optional prefix (p n u µ m k K M G),
// then optionally the unit it is read for; or the prefix, R, F, H or V standing in the place of the
// decimal point (4R7, 2k2, 4u7). A decimal comma is a decimal point (2,4 and ,47 and 4,7u); only a
// comma between figures with exactly three behind it (4,700) may be either and is refused with the
// two ways to write it; with a zero in front (0,047) it parts no thousands and is decimal. Two
// prefixes, spaces inside the figure and anything that is not finite are refused with a hint.
#pragma once

#include <string>
#include <string_view>

#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::quantities {

/// What is being read: decides which unit letters may stand at the end.
enum class Unit { none, ohm, farad, henry, volt, ampere, second, hertz, celsius, watt };

/// The symbol of a unit ("Ω", "F", "°C", "").
[[nodiscard]] std::string_view symbol_of(Unit unit);

/// Reads engineering notation into the SI value of `unit`. The problem's place is left empty: the
/// caller knows where the text stood.
[[nodiscard]] Result<double> parse_engineering(std::string_view text, Unit unit = Unit::none);

/// The text with its decimal comma turned into a point; refused where the comma may part thousands,
/// or where it is not the only one. What else stands in the text is left as it is.
[[nodiscard]] Result<std::string> with_decimal_point(std::string_view text);

[[nodiscard]] Result<Ohm> parse_ohm(std::string_view text);
[[nodiscard]] Result<Farad> parse_farad(std::string_view text);
[[nodiscard]] Result<Volt> parse_volt(std::string_view text);
[[nodiscard]] Result<Ampere> parse_ampere(std::string_view text);
[[nodiscard]] Result<Hertz> parse_hertz(std::string_view text);
[[nodiscard]] Result<Second> parse_second(std::string_view text);
[[nodiscard]] Result<Celsius> parse_celsius(std::string_view text);

/// "4.7 µF", "470 µF", "0.35 Ω", "2.2 kΩ": three significant digits unless told otherwise, with
/// the prefix that leaves one to three digits before the point. Ohms below one stay in ohms down to
/// 0.1, then become milliohms; that is how meters show them. Capacitances stay in microfarads up to
/// the largest can ("10,000 µF") and are farads from 0.1 F on. Any double gives a short text: "?",
/// "∞".
[[nodiscard]] std::string format_engineering(double si, Unit unit, int digits = 3);

[[nodiscard]] std::string format(Ohm value, int digits = 3);
[[nodiscard]] std::string format(Farad value, int digits = 3);
[[nodiscard]] std::string format(Volt value, int digits = 3);
[[nodiscard]] std::string format(Ampere value, int digits = 3);
[[nodiscard]] std::string format(Hertz value, int digits = 3);
[[nodiscard]] std::string format(Celsius value);
/// Durations in the words of a bench: "40 s", "12 min", "1 h 05 min".
[[nodiscard]] std::string format_duration(Second value);

}  // namespace dryout::quantities
