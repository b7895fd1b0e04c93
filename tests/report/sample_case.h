// Hand-made views for the report: an invented receiver whose supply capacitors have dried out.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/owner_report.h"

namespace dryout::report_test {

/// Closed with a cause, read before, mended.
[[nodiscard]] casework::CaseView sample_case();
/// What was fitted and proved, and the readings side by side.
[[nodiscard]] casework::MendingView sample_mending();
[[nodiscard]] report::Imprint sample_imprint();

/// 60 readings, 40 parts fitted, long names everywhere.
[[nodiscard]] casework::CaseView crowded_case();
[[nodiscard]] casework::MendingView crowded_mending();

/// Markup, quotes, control characters, bytes that are no UTF-8, marks that turn the reading order,
/// a word of 300 letters.
[[nodiscard]] std::string hostile_text();

}  // namespace dryout::report_test
