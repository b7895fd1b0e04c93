// The plan ahead as a chart to print and lay beside the set: an SVG 1.1 document (W3C), checks as
// boxes from left to right, the two outcomes of each as lines to what comes next, and at the ends
// where to look.
#pragma once

#include <string>

#include "casework/plan_ahead.h"

namespace dryout::app {

/// `heading` stands above the chart. All text is escaped.
[[nodiscard]] std::string plan_chart(const casework::PlanStep& first, const std::string& heading);

}  // namespace dryout::app
