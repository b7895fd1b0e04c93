// What stands in the desk's fields, by name: so that a step that was refused gives back what was
// typed for it, and a crash costs no sentence.
#pragma once

#include "casework/drafts.h"
#include "window/desk.h"

namespace dryout::window {

/// The fields of the open case that are not empty; without one, those of the set that comes in.
[[nodiscard]] casework::TypedText typed_text(Desk& desk);
/// Makes these fields what they were; others are left alone.
void put_back(Desk& desk, const casework::TypedText& typed);
/// Empties the fields that still hold what is in `entered`.
void take_away(Desk& desk, const casework::TypedText& entered);

/// Whether more is in it than what stays in its field from one step to the next, as a limit does.
[[nodiscard]] bool has_unentered(const casework::TypedText& typed);

/// Which set a draft is of, beside its number: a store that came back may have another under it.
[[nodiscard]] bool is_of_set(const casework::TypedText& draft, const Desk& desk);

/// Where the typed text of the case at hand is kept: its number, 0 without a case; none in
/// practice.
[[nodiscard]] std::optional<std::int64_t> draft_number(const Desk& desk);
/// Takes what stands in the fields into the drafts. True where they changed.
bool keep_drafts(Desk& desk);

}  // namespace dryout::window
