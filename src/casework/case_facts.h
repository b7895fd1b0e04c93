// What lists show and searches find of a case, from its state.
#pragma once

#include "casestore/case_store.h"
#include "casework/case_state.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

[[nodiscard]] casestore::CaseFacts facts_of(const CaseState& state,
                                            const knowledge::KnowledgeBase& knowledge);

}  // namespace dryout::casework
