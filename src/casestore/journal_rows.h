// The rows of one journal, each held against its seal and its place in the chain. Seen only inside
// this room.
#pragma once

#include <cstdint>

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {

/// Those behind what was seen.
[[nodiscard]] quantities::Result<CaseJournal> journal_rows(const Database& database,
                                                           std::int64_t number, const Seen& seen);

/// What the step behind `steps` says that it follows; of the newest what is on record. All zero
/// where neither is there to say.
[[nodiscard]] quantities::Result<Digest> digest_at(const Database& database, std::int64_t number,
                                                   int steps, const Seen& head);

[[nodiscard]] quantities::Result<std::string> identity_of(const Database& database,
                                                          std::int64_t number);

}  // namespace dryout::casestore
