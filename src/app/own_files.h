// The files a technician reads, looks for and is handed. Equipment, limits and meters kept in the
// own folder override the shipped ones by id and survive upgrades.
#pragma once

#include "app/surroundings.h"
#include "casework/own_files.h"

namespace dryout::app {

/// What is kept goes below the own folder, whole or not at all; papers into theirs.
[[nodiscard]] casework::OwnFiles own_files(const Surroundings& surroundings);

}  // namespace dryout::app
