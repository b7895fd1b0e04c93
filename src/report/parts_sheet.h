// The shopping list as a sheet to print or to hand over a counter.
#pragma once

#include <vector>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/owner_report.h"
#include "report/page.h"

namespace dryout::report {

/// `shopping` is that of the option chosen (OptionView::shopping, or MendingView::shopping).
[[nodiscard]] Document parts_sheet(const casework::CaseView& view,
                                   const std::vector<casework::ShoppingRow>& shopping,
                                   const Imprint& imprint);

}  // namespace dryout::report
