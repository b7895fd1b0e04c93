// What is sold: preferred values and rated voltages by technology, so that a list names parts that
// exist. Series: IEC 60063 (E6, E12, E24; from memory). Rated voltages: makers' catalogues, from
// memory, except the tantalum ones (AVX TPS derating table, second-hand).
#pragma once

#include <optional>
#include <string>

#include "quantities/preferred_value.h"
#include "quantities/quantity.h"

namespace dryout::decision {

/// The finest series in which a technology is sold off the shelf: E6 for electrolytics and
/// tantalum, E12 for film, E24 for what tunes.
[[nodiscard]] quantities::Series sold_series(const std::string& technology);

/// The sold rating not below `needed`, in volts d.c. Above the highest that is sold: nothing.
[[nodiscard]] std::optional<quantities::Volt> sold_rating(const std::string& technology,
                                                          quantities::Volt needed);

/// The same for parts of a safety class, in volts a.c.; `safety_class` X1, X2, Y1, Y2.
[[nodiscard]] std::optional<quantities::Volt> sold_mains_rating(const std::string& safety_class,
                                                                quantities::Volt needed);

/// Pulse-rated film: the rating in volts d.c. that stands both. Above the highest: nothing.
[[nodiscard]] std::optional<quantities::Volt> sold_pulse_rating(quantities::Volt needed,
                                                                quantities::Volt needed_ac);

/// Motor capacitors, in volts a.c.; above the highest, what is needed.
[[nodiscard]] quantities::Volt sold_motor_rating(quantities::Volt needed);

/// Values of a wet electrolytic are compared by their logarithms, and one below the old counts
/// double: less smooths less.
///
/// The sold value nearest to `old` of those from `least` to `most` times `old`; where none lies
/// there, the nearest sold within the tolerance of old parts (a tenth, or a fifth), and at last the
/// nearest sold at all: whatever is returned is sold.
[[nodiscard]] quantities::Farad sold_value(const std::string& technology, quantities::Farad old,
                                           double least, double most);
/// The largest sold value not above `most`; E6, as class Y parts are.
[[nodiscard]] quantities::Farad sold_not_above(quantities::Farad most);

}  // namespace dryout::decision
