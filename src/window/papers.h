// What the desk can write: the owner's report, the bench record, the list to buy from, the case
// itself. A button asks for one; it becomes a new file among the technician's papers.
#pragma once

#include <string>
#include <vector>

#include "quantities/result.h"
#include "window/attend.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

/// owner-pdf, owner-html, bench-pdf, bench-html, parts-pdf, parts-csv, case-json.
[[nodiscard]] const std::vector<std::string>& paper_names();

/// A row of buttons for the papers whose names begin with one of these ("owner").
void draw_paper_buttons(Sheet& sheet, const std::vector<std::string>& beginnings,
                        CommandQueue& queue);

/// Writes it of the open case; the path. Of the parts: the option looked at.
[[nodiscard]] quantities::Result<std::string> write_paper(Bench& bench, const Desk& desk,
                                                          const std::string& paper);

}  // namespace dryout::window
