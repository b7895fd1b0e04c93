// Cautions that are read one after the other.
#pragma once

#include <vector>

#include "casework/case_view.h"
#include "knowledge/rules.h"

namespace dryout::casework {

/// In words, in their order. A closing sentence that several share (who comes first: local codes,
/// the maker, licensed practice) is said once, by the last of them.
[[nodiscard]] std::vector<CautionView> views_of(
    const std::vector<const knowledge::Caution*>& cautions);

}  // namespace dryout::casework
