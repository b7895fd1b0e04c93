// Cautions that are read one after the other.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/heeding.h"
#include "knowledge/rules.h"

namespace dryout::casework {

/// In words, in their order. A closing sentence that several share (who comes first: local codes,
/// the maker, licensed practice) is said once, by the last of them.
[[nodiscard]] std::vector<CautionView> views_of(
    const std::vector<const knowledge::Caution*>& cautions);

/// The same at one place of a case: what was read before is marked so, and the first that speaks of
/// stored charge begins with the figures of this place.
[[nodiscard]] std::vector<CautionView> views_of(const Hazard& hazard, const Heeded& heeded,
                                                const std::string& here);

/// What these words heed, in full where it was not read before; nothing where they name neither a
/// check nor a part. `item` is as typed: "swap-valve@output-valves", "C12@dc-volts".
[[nodiscard]] std::optional<MeasuringView> heeding_view(const Ground& ground,
                                                        const CaseState& state,
                                                        const AcknowledgeCautions& heeding);

/// What can hurt at a reading of each capacitor, kinds of reading with the same dangers together.
[[nodiscard]] std::vector<MeasuringView> measuring_of(const Ground& ground, const CaseState& state,
                                                      const Heeded& heeded);

}  // namespace dryout::casework
