// One word of a print that may be a value, in every way it can be read.
#pragma once

#include <string>
#include <vector>

#include "quantities/part_marking.h"

namespace dryout::quantities {

/// What a reading of "10.000" and "10,000uF" says: one of ten, one of ten thousand.
inline constexpr const char* points_decimal = ", taken as a decimal";
inline constexpr const char* points_thousands = ", taken as thousands";
/// What a reading of "16/450" says, as cans were printed.
inline constexpr const char* volts_behind_stroke = ", the volts behind a stroke";

/// "104K", "4n7", "8uF", "2A104J", "A475", "A5", ".05MFD": empty where it is no value. The
/// convention of each says how it was read; nothing is ranked yet.
[[nodiscard]] std::vector<MarkingReading> values_in(const std::string& word);

/// A figure with its unit: "2200pF", "8MFD", "0.1F"; empty without a unit. "mF" gives both what it
/// was and what it is.
[[nodiscard]] std::vector<MarkingReading> written_values_in(const std::string& word);

/// The letters of a unit of capacitance alone: "MFD", "pF".
[[nodiscard]] bool is_capacitance_unit(const std::string& word);

}  // namespace dryout::quantities
