// A mending view, or its parts list, as JSON: the answers of decide and parts.
#pragma once

#include "casework/mending_view.h"
#include "documents/value.h"

namespace dryout::app {

[[nodiscard]] documents::Value to_json(const casework::MendingView& mending);
[[nodiscard]] documents::Value to_json(const casework::ShoppingRow& row);

}  // namespace dryout::app
