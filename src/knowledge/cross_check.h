// Does a tree hang together? Every id that one entry says of another must exist, and every number
// must mean something beside its neighbours.
#pragma once

#include "knowledge/knowledge_base.h"
#include "quantities/problem.h"

namespace dryout::knowledge {

/// Faults for which the tree is refused.
[[nodiscard]] quantities::Problems broken_references(const KnowledgeBase& knowledge);
/// The same for the levels and steps of age alone.
[[nodiscard]] quantities::Problems broken_ageing(const Ageing& ageing);
/// The same for the inside of one equipment: rails, blocks, boards, access.
[[nodiscard]] quantities::Problems broken_equipment(const KnowledgeBase& knowledge,
                                                    const Equipment& equipment);
/// What loads but leads nowhere: links that carry nothing, symptoms that nothing causes, groups
/// that nothing tells of, kinds that no equipment has.
[[nodiscard]] quantities::Problems dead_ends(const KnowledgeBase& knowledge);

}  // namespace dryout::knowledge
