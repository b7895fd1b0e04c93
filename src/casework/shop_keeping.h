// Setting one of the shop's figures in its own file below the own folder.
#pragma once

#include <optional>
#include <string>

#include "casework/own_files.h"
#include "decision/shop_settings.h"
#include "quantities/result.h"

namespace dryout::casework {

/// Writes the figure (nothing: back to what is shipped) and returns the figures as they then hold.
/// Refused input changes nothing.
[[nodiscard]] quantities::Result<decision::ShopSettings> keep_shop_figure(
    const OwnFiles& files, const decision::ShopSettings& shipped, const std::string& key,
    std::optional<double> value);

}  // namespace dryout::casework
