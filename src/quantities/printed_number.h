// Numbers as text. These are the only places of the program that print a double: each takes any
// double there is (not a number, infinite, minus zero, 1e-320, 1e308) and gives a short text.
// tests/house keeps others from calling the C library's printf family, whose answer for a text that
// does not fit is easily mistaken for the length that was written.
#pragma once

#include <string>

namespace dryout::quantities {

/// "0.35", "-12", "1000000": that many places behind the point, 0 to 17. From 1e15 on
/// as `significant_figures` writes it; "?" for what is no number, "∞" and "-∞". Never "-0".
[[nodiscard]] std::string fixed_point(double value, int decimals);

/// "0.35", "1.5e-07", "1e+300": that many significant figures, 1 to 17, without zeros at the end.
[[nodiscard]] std::string significant_figures(double value, int figures);

/// Rounded half away from zero: "3" for 2.5.
[[nodiscard]] std::string whole_number(double value);

/// "10,000": a figure with commas between its thousands where it has five places or more: a
/// figure of four is left alone, as "4,700" reads as 4.7 to half the world.
[[nodiscard]] std::string grouped_by_thousands(const std::string& digits);

}  // namespace dryout::quantities
