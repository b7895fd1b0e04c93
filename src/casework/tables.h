// Tables of a case as text for a spreadsheet: one line a row, cells parted by tabs (the media type
// text/tab-separated-values registered with IANA: a heading line first, no tabs inside a cell).
#pragma once

#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/mending_view.h"

namespace dryout::casework {

[[nodiscard]] std::string readings_table(const CaseView& view);
[[nodiscard]] std::string suspects_table(const CaseView& view);
[[nodiscard]] std::string shopping_table(const std::vector<ShoppingRow>& rows);

}  // namespace dryout::casework
