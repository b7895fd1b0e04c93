// Numbers with a unit that a complaint may hold: how long it takes, which amateur band.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace dryout::complaints {

/// The first span of time, in minutes: "ten minutes", "20 mins", "half an hour", "an hour".
/// Seconds are none; nothing beyond a day.
[[nodiscard]] std::optional<int> span_in_minutes(const std::vector<std::string>& words);

/// "20m" for "20 m" or "20 metres" where amateurs have such a band.
[[nodiscard]] std::optional<std::string> band_in_metres(const std::vector<std::string>& words);

}  // namespace dryout::complaints
