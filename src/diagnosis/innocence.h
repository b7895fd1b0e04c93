// The chance that an item has no part in what was seen: that it makes none of some findings
// present, whether or not it is sound. In the sweep that is one more row for each item, its links
// to those findings held silent, so that one sweep serves all items.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "diagnosis/network.h"
#include "quantities/result.h"

namespace dryout::diagnosis {

/// Per item, P(it makes none of `findings` present | evidence). `findings` must be among
/// evidence.present. Nothing for the few items that the sweep has no row for (those that alone can
/// explain a finding, or whose state is certain): infer with their links taken out.
[[nodiscard]] quantities::Result<std::vector<std::optional<double>>> innocence_of_each(
    const Network& network, const Evidence& evidence, std::span<const std::size_t> findings);

}  // namespace dryout::diagnosis
