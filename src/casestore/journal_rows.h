// The rows of one journal, each held against its seal. Seen only inside this room.
#pragma once

#include <optional>
#include <vector>

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {

struct JournalRows {
  std::vector<EventRow> events;
  std::optional<int> damaged;  ///< the first that is missing, or not as it was written
};
/// Those after `after`, oldest first.
[[nodiscard]] quantities::Result<JournalRows> journal_rows(const Database& database,
                                                           std::int64_t number, int after);

}  // namespace dryout::casestore
