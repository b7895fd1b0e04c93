// The technician's own folder: equipment, limits and meters kept there override the shipped ones by
// id and survive upgrades.
#pragma once

#include <string>

#include "casework/own_set.h"
#include "quantities/result.h"

namespace dryout::app {

/// Keeps `text` under `name` ("rules/equipment/my-set.json") below the own folder, whole or not at
/// all; the path written. A file that is there is overwritten only with `replace`.
[[nodiscard]] quantities::Result<std::string> keep_own(const std::string& own_folder,
                                                       const std::string& name,
                                                       const std::string& text, bool replace);

/// Reading parts lists and keeping what is made of them.
[[nodiscard]] casework::OwnFiles own_files(const std::string& own_folder);

}  // namespace dryout::app
