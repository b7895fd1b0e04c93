// What an import or an export of cases came to, as the commands for cases and for the shop tell it.
#pragma once

#include <string>
#include <vector>

#include "app/terminal.h"
#include "casework/case_exchange.h"

namespace dryout::app {

/// With --json {"cases": [...], "counts": {...}, "unchained": n, "own": [...]}; at most ten
/// thousand cases are named.
Exit tell_arrivals(const Terminal& terminal, const casework::ImportReport& report,
                   const std::vector<std::string>& own = {});

/// What was left out is said, and then the answer is not all that was asked for.
Exit conclude_export(const Terminal& terminal, const casework::LeftOut& left_out);

}  // namespace dryout::app
