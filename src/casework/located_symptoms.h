// Where and when a symptom is there, as people say it: which words an equipment has for it, what of
// them is refused, and what they mean to the diagnosis.
#pragma once

#include <string>
#include <vector>

#include "casework/case_ground.h"
#include "casework/command.h"
#include "diagnosis/located_symptom.h"
#include "quantities/problem.h"

namespace dryout::casework {

/// The same channel, band, path and source: a later answer there takes the place of an earlier one.
[[nodiscard]] bool same_place(const SymptomPlace& a, const SymptomPlace& b);
/// Says nothing of where or when.
[[nodiscard]] bool anywhere(const SymptomPlace& where);

/// What the equipment has no place for, with what it has.
[[nodiscard]] quantities::Problems wrong_place(const Ground& ground, const ReportSymptom& report);

/// "Left channel, stays with the volume down, from cold"; "" = anywhere. Titles as the equipment
/// has them.
[[nodiscard]] std::string words_of(const knowledge::Equipment& equipment,
                                   const SymptomPlace& where);

/// Whether one can ask at which rate it hums.
[[nodiscard]] bool has_rate(const knowledge::Symptom& symptom);

/// What it means to the diagnosis. Places that the equipment does not have (any more) are left out.
[[nodiscard]] diagnosis::PlacedAnswer placed_answer(const knowledge::SignalPlaces& places,
                                                    const ReportSymptom& report);

}  // namespace dryout::casework
