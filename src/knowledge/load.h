// Loading and checking a knowledge tree: DIR/rules and DIR/symptoms. Every file's problems are
// collected; nothing is returned unless all is well. A technician's own folder is laid over the
// shipped one: an entry with the id of a shipped one takes its place.
//
// Accepted layout (each file: {"schema": 1, "<list>": [...]}; any number of files per folder):
//   rules/ageing.json, rules/eras.json, rules/modes/, technologies/, roles/, causes/, phenomena/,
//   links/, checks/, cautions/, equipment/ (one equipment a file), symptoms/ (beside rules/).
// Folders of other rooms (rules/limits, rules/caveats, rules/substitution, rules/decision) are
// loaded by those rooms.
#pragma once

#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"
#include "quantities/result.h"

namespace dryout::knowledge {

/// Loads the shipped tree, then lays the others over it in order.
[[nodiscard]] quantities::Result<KnowledgeBase> load(const std::vector<std::string>& directories);

/// Whether the folder has rules/ or symptoms/. A technician's own that is not there, or is still
/// empty, has nothing to lay over, and that is no fault.
[[nodiscard]] bool holds_knowledge(const std::string& directory);

/// Everything load() checks, and what is not wrong enough to refuse the tree but should be mended:
/// unreachable rules, unused entries, a symptom no fault can cause.
struct LintReport {
  quantities::Problems faults;    ///< the tree is refused
  quantities::Problems warnings;  ///< it loads
};
[[nodiscard]] LintReport lint(const std::vector<std::string>& directories);

}  // namespace dryout::knowledge
