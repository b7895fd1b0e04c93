// Every change of a case passes here: a command, or the wish to take one back, becomes the next
// entry of the journal, or is refused with reasons and changes nothing.
#pragma once

#include <cstdint>

#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "casework/command.h"
#include "casework/journal.h"
#include "quantities/result.h"

namespace dryout::casework {

/// What the commands in force amount to.
[[nodiscard]] CaseState state_of(const Journal& journal);

/// The entry for a command. A correction of the equipment must leave room for everything told so
/// far. The journal must not be empty.
[[nodiscard]] quantities::Result<Entry> apply_command(const Journal& journal,
                                                      const Command& command, std::int64_t at,
                                                      GroundCache& grounds);

/// The entry that takes step `of` back (0 = the newest). Refused where a later step rests on it.
[[nodiscard]] quantities::Result<Entry> take_back(const Journal& journal, int of, std::int64_t at,
                                                  GroundCache& grounds);
/// The entry that brings back what was taken back last.
[[nodiscard]] quantities::Result<Entry> bring_back(const Journal& journal, std::int64_t at);

/// A journal from elsewhere, as it would have been written here: every entry must be one that the
/// functions above would give. The pointer of a problem names the entry: "/journal/3".
[[nodiscard]] quantities::Result<Journal> admit(const Journal& journal,
                                                const knowledge::KnowledgeBase& knowledge,
                                                GroundCache& grounds);

}  // namespace dryout::casework
