// One case as one JSON text: its whole journal, what was taken back included, so that a case taken
// in elsewhere is the same case. Writing what was read gives the same bytes.
//
//   {"format": "dryout-case", "schema": 1, "journal": [
//     {"at": 1772600000, "command": {"do": "take-in", ...}}, {"at": ..., "undo": 2}, ...]}
#pragma once

#include <string>

#include "casework/journal.h"
#include "quantities/result.h"

namespace dryout::casework {

[[nodiscard]] std::string case_text(const Journal& journal);

/// `file` is how complaints name the text. Ids are not looked at: admit() does that.
[[nodiscard]] quantities::Result<Journal> read_case_text(const std::string& text,
                                                         const std::string& file);

}  // namespace dryout::casework
