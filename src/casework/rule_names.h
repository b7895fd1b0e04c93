// The words in rules of limits, caveats, common values, substitution and mending that name
// something of the knowledge base, which the rooms that load those rules can't all see.
#pragma once

#include <vector>

#include "casework/mending_knowledge.h"
#include "knowledge/knowledge_base.h"
#include "quantities/problem.h"
#include "readings/assess_reading.h"
#include "readings/coverage.h"

namespace dryout::casework {

/// Each unknown one (technology, role, cause, kind of rail) by file and place, with the nearest
/// that there is. A kind of rail is known when some equipment has such a rail.
[[nodiscard]] quantities::Problems unknown_names(
    const knowledge::KnowledgeBase& knowledge, const readings::ReadingKnowledge& readings,
    const MendingKnowledge& mending, const std::vector<readings::CommonPart>& common_parts);

}  // namespace dryout::casework
