// What a case adds to the shop's statistics. A pure function of its state and the knowledge, so
// that it can be worked out anew at any time.
//
// How a part that was read turned out is known only once the case is closed with a cause: the part
// that was the cause was bad; one that was neither the cause nor mended, and is of another group,
// was sound, for the set works with it. Of a part that was replaced without being the cause nothing
// is known: many are replaced to be on the safe side. A part fitted by us says nothing of age and
// is not counted.
#pragma once

#include "casestore/statistics.h"
#include "casework/case_state.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

[[nodiscard]] casestore::CaseStatistics statistics_of(const CaseState& state,
                                                      const knowledge::KnowledgeBase& knowledge);

}  // namespace dryout::casework
