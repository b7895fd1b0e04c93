// Whether every case on record in a store is there, and no other: the part of
// CaseStore::check_integrity() that costs little, and that an export of all cases has to tell.
#pragma once

#include <string>

#include "quantities/result.h"

namespace dryout::casestore {

/// Of the store at `path`, read beside whoever has it open. The problems found, or Done.
[[nodiscard]] quantities::Result<quantities::Done> check_records(const std::string& path);

}  // namespace dryout::casestore
