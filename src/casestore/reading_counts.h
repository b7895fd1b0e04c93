// The counts that two triggers keep beside the readings (migration_4.cpp), held against them and
// made anew. Seen only inside this room.
#pragma once

#include "casestore/database.h"

namespace dryout::casestore {

/// Readings that stand under another size than their value, and counts that are not those of the
/// readings; with the cases it concerns, as far as a reading shows them.
[[nodiscard]] quantities::Result<quantities::Done> check_counts(const Database& database,
                                                                quantities::Problems& problems);

/// Puts every reading under its size and makes every count anew, in the caller's transaction.
[[nodiscard]] quantities::Result<quantities::Done> recount(const Database& database);

}  // namespace dryout::casestore
