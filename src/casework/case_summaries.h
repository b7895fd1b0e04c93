// Rows of the store as faces list them.
#pragma once

#include <vector>

#include "casestore/case_store.h"
#include "casework/workshop.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

[[nodiscard]] std::vector<CaseSummary> summaries_of(const std::vector<casestore::CaseRow>& rows,
                                                    const knowledge::KnowledgeBase& knowledge);

}  // namespace dryout::casework
