// Does a tree hang together? Every id that one entry says of another must exist, and every number
// must mean something beside its neighbours.
#pragma once

#include <string_view>

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

/// What could hurt who follows it: a caution of a danger that does not defer to local codes and
/// licensed practice, re-forming told of anything but aluminium electrolytics.
[[nodiscard]] quantities::Problems unsafe_advice(const KnowledgeBase& knowledge);
/// Does the wording say that local codes and licensed practice come first?
[[nodiscard]] bool defers(std::string_view wording);

}  // namespace dryout::knowledge
