// A case view, or parts of it, as JSON: the answers of suspects, next, explain and case show.
#pragma once

#include "casework/case_view.h"
#include "casework/plan_ahead.h"
#include "documents/value.h"

namespace dryout::app {

[[nodiscard]] documents::Value to_json(const casework::SuspectView& suspect);
[[nodiscard]] documents::Value to_json(const casework::CheckView& check);
[[nodiscard]] documents::Value to_json(const casework::MeasuringView& place);
[[nodiscard]] documents::Value suspects_json(const casework::CaseView& view);
[[nodiscard]] documents::Value next_json(const casework::CaseView& view);
[[nodiscard]] documents::Value case_json(const casework::CaseView& view);
[[nodiscard]] documents::Value to_json(const casework::PlanStep& step);

}  // namespace dryout::app
