// What the shop remembers, as JSON: the answers of dryout shop.
#pragma once

#include <vector>

#include "casework/shop_memory.h"
#include "documents/value.h"

namespace dryout::app {

[[nodiscard]] documents::Value to_json(const casework::ShopSearchView& view);
[[nodiscard]] documents::Value to_json(const std::vector<casework::CausesView>& views);
[[nodiscard]] documents::Value to_json(const casework::ReadingsView& view);
[[nodiscard]] documents::Value to_json(const casework::LastTimeView& view);
[[nodiscard]] documents::Value to_json(const casework::LearnedView& view);

}  // namespace dryout::app
