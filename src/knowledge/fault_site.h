// Which faults an equipment can have: its part groups in the modes of their technology, and causes
// that are no capacitor in the blocks where they can happen.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {

/// A fault that an equipment can have: a part group in a mode, or a cause in a block.
struct FaultSite {
  enum class Kind { group, cause };
  Kind kind = Kind::group;
  std::size_t group = 0;  ///< Kind::group: index into Equipment::groups
  std::string mode;       ///< Kind::group
  std::size_t cause = 0;  ///< Kind::cause: index into KnowledgeBase::causes
  std::size_t block = 0;  ///< Kind::cause: index into Equipment::blocks
};

/// A cause happens in blocks of its kinds, unless a block of a kind it is not served by sends its
/// signal there, and only in equipment of which some was built in the cause's years.
[[nodiscard]] std::vector<FaultSite> fault_sites(const KnowledgeBase& knowledge,
                                                 const Equipment& equipment);

}  // namespace dryout::knowledge
