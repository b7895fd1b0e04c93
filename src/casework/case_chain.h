// The chain of a case file (case_file.h) by itself: to hold steps against it, and to leave it out
// where nobody can vouch for them.
#pragma once

#include <string>

#include "casework/case_file.h"

namespace dryout::casework {

/// The chain that case_text() writes.
[[nodiscard]] std::string chain_of(const CaseFile& file);

/// case_text() without a chain: whoever takes such a file in is told that it has none.
[[nodiscard]] std::string case_text_unchained(const CaseFile& file);

}  // namespace dryout::casework
