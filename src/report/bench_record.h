// Everything on paper that the bench knows of a case: symptoms, readings with limits, where those
// come from and what weakens them, suspects with the weight of each piece of evidence in decibans,
// access, what was done, the costs weighed, the proof, the log. For technicians.
#pragma once

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/owner_report.h"
#include "report/page.h"

namespace dryout::report {

/// `mending` may be empty.
[[nodiscard]] Document bench_record(const casework::CaseView& view,
                                    const casework::MendingView& mending, const Imprint& imprint);

/// "+12.3 dB"; "certain" and "ruled out" where the weight is infinite.
[[nodiscard]] std::string shown_weight(quantities::Decibans weight);

}  // namespace dryout::report
