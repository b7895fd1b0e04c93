// What lists show, searches find and statistics count of a case, from its state.
#pragma once

#include <optional>
#include <vector>

#include "casestore/case_store.h"
#include "casework/case_state.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

/// Raised whenever the rules below give other facts for the same journal; stores whose facts were
/// made by other rules are brought up to date when they are opened.
inline constexpr int facts_version = 1;

[[nodiscard]] casestore::CaseFacts facts_of(const CaseState& state,
                                            const knowledge::KnowledgeBase& knowledge);

/// The same from the journal as the store has it; nothing where it cannot be read.
[[nodiscard]] std::optional<casestore::CaseFacts> facts_of_events(
    const std::vector<casestore::EventRow>& events, const knowledge::KnowledgeBase& knowledge);

}  // namespace dryout::casework
