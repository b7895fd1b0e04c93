// A case whose rules are not at hand: its equipment is described by a file that this machine does
// not have, or that is at fault. It is shown as it was written down, without figures.
#pragma once

#include <cstdint>

#include "casework/case_state.h"
#include "casework/case_view.h"
#include "casework/journal.h"
#include "casework/known_case.h"
#include "quantities/problem.h"

namespace dryout::casework {

/// What every view of a case begins with: its number, what was taken in, whether it is closed, what
/// can be taken back.
[[nodiscard]] CaseView headed_view(std::int64_t number, const CaseState& state,
                                   const Standing& standing);

/// `why`: what stands against thinking about it.
[[nodiscard]] CaseView plain_view(std::int64_t number, const KnownCase& known,
                                  const quantities::Problems& why);

}  // namespace dryout::casework
