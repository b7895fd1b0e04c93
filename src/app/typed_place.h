// A place as it is typed behind --where: "channel=left", one word an axis.
#pragma once

#include <string>
#include <vector>

#include "casework/command.h"
#include "quantities/result.h"

namespace dryout::app {

/// Channel, band, path and source alone. Whether the equipment has them casework decides.
[[nodiscard]] quantities::Result<casework::SymptomPlace> typed_place(
    const std::vector<std::string>& words);

}  // namespace dryout::app
