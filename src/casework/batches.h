// Who is whose brother: parts of one batch of the equipment, of one make, of one kind. What another
// maker made fails on its own account: it neither clears the others nor is dragged down by them.
#pragma once

#include <string>
#include <vector>

#include "casework/command.h"
#include "diagnosis/compile_network.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

/// A make as it is told apart, however it was typed: "Orbrin  RS" and "orbrin rs" are one.
[[nodiscard]] std::string make_key(const std::string& make);

/// The batch of a named part, or (null) of what is left of its group. The make that most named
/// parts of a batch bear stands for those of which nobody said one.
[[nodiscard]] std::string batch_of(const knowledge::KnowledgeBase& knowledge,
                                   const knowledge::Equipment& equipment,
                                   const std::vector<NamePart>& named,
                                   const knowledge::PartGroup& group, const NamePart* part);

/// Gives each make that is not the usual one of its batch an ageing level of its own in the
/// network.
void age_makes_apart(const knowledge::Equipment& equipment, const std::vector<NamePart>& named,
                     diagnosis::CompiledNetwork& compiled);

}  // namespace dryout::casework
