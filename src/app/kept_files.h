// What the program keeps for the technician, and what no command may write over with its `-o`: one
// place asks before any command runs (command_line.cpp).
#pragma once

#include <string>

#include "app/surroundings.h"
#include "quantities/result.h"

namespace dryout::app {

/// Refused, whatever path spells it (links of both kinds, detours): the case store and the files
/// beside it, any other store or backup, the setting beside the own folder, and what lies in the
/// own folder or in a knowledge tree. "" and "-" are no files.
[[nodiscard]] quantities::Result<quantities::Done> may_be_written(const Surroundings& surroundings,
                                                                  const std::string& path);

}  // namespace dryout::app
