// A case whose rules are not at hand: its equipment is described by a file that this machine does
// not have, or that is at fault. It is shown as it was written down, without figures.
#pragma once

#include <cstdint>

#include "casework/case_view.h"
#include "casework/known_case.h"
#include "quantities/problem.h"

namespace dryout::casework {

/// `why`: what stands against thinking about it.
[[nodiscard]] CaseView plain_view(std::int64_t number, const KnownCase& known,
                                  const quantities::Problems& why);

}  // namespace dryout::casework
