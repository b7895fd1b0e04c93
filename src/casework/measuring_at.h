// What can hurt at a number about to be read, for a face that has only what was typed.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/command.h"

namespace dryout::casework {

/// `name` as typed: an item id, a part's printed name or a group, in this order. Null where nothing
/// has that name.
[[nodiscard]] const SuspectView* suspect_called(const CaseView& view, const std::string& name);

/// `item` as typed: "C12", "part:C12", "reservoirs". Null where nothing can hurt, or nothing has
/// that name.
[[nodiscard]] const MeasuringView* measuring_at(const CaseView& view, const std::string& item,
                                                ReadingKind kind);

}  // namespace dryout::casework
