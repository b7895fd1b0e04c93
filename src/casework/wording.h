// Small change of the language this room speaks.
#pragma once

#include <cstdint>
#include <string>

#include "casework/case_ground.h"
#include "casework/case_view.h"
#include "casework/command.h"

namespace dryout::casework {

/// "62 %"; "under 1 %" and "over 99 %" at the ends, because nothing here is certain.
[[nodiscard]] std::string percent(double probability);

/// A title inside a sentence: "Reservoirs" -> "reservoirs"; "C12 (reservoirs)", "AGC line" stay.
[[nodiscard]] std::string mid_sentence(const std::string& title);

/// "C12: ESR 2.4 Ω", "ripple", "4.7 Ω".
[[nodiscard]] std::string title_of(ReadingKind kind);
[[nodiscard]] std::string shown(ReadingKind kind, double value);
/// "2.4 Ω", "OL", "30 µA at 400 V".
[[nodiscard]] std::string shown(const RecordReading& reading);

/// "2026-03-04 10:22" in the local time zone.
[[nodiscard]] std::string local_time(std::int64_t at);

/// One line for the bench log: "Ripple, +38 V rail: looked bad".
[[nodiscard]] std::string line_of(const Command& command, const Ground& ground);

/// Title of the item behind an id; the id itself where there is none.
[[nodiscard]] std::string title_of_item(const Ground& ground, const std::string& id);
/// Title of a check at its place.
[[nodiscard]] std::string title_of_check(const Ground& ground, const std::string& check,
                                         const std::string& place);
[[nodiscard]] CautionView view_of(const knowledge::Caution& caution);

}  // namespace dryout::casework
