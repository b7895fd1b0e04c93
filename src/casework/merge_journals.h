// Two journals of one case that went on apart: what one may get from the other without guessing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/journal.h"

namespace dryout::casework {

/// What `theirs` has and `ours` lacks behind the `shared` first entries, in their order. Nothing
/// where either side did more than add (notes, readings, outcomes, symptoms, named parts, cautions
/// heeded), or where both told something else of one thing: then it takes a person to say which
/// holds.
[[nodiscard]] std::optional<Journal> lacking_here(const Journal& ours, const Journal& theirs,
                                                  std::size_t shared);

/// A journal whose numbers have gaps, numbered anew; what it takes back or brings back goes with
/// its step. What names a step that is gone goes too and is told in `lost`, as is a journal without
/// intake.
[[nodiscard]] Journal without_gaps(const Journal& journal, const std::string& name,
                                   std::vector<std::string>& lost);

}  // namespace dryout::casework
