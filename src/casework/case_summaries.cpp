#include "casework/case_summaries.h"

#include "casework/wording.h"

namespace dryout::casework {

std::vector<CaseSummary> summaries_of(const std::vector<casestore::CaseRow>& rows,
                                      const knowledge::KnowledgeBase& knowledge) {
  std::vector<CaseSummary> summaries;
  summaries.reserve(rows.size());
  for (const casestore::CaseRow& row : rows) {
    const auto* equipment = knowledge::find(knowledge.equipment, row.facts.equipment);
    summaries.push_back({row.number, row.facts.set_name,
                         equipment == nullptr ? row.facts.equipment : equipment->title,
                         row.facts.complaint, local_time(row.opened_at),
                         row.facts.closed ? "closed" : "open", row.facts.owner,
                         local_time(row.changed_at), row.facts.cause});
  }
  return summaries;
}

}  // namespace dryout::casework
