// The column that is always in sight: who is under suspicion now, how strongly, and the last step
// that can be taken back.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

void draw_suspicion_column(Sheet& sheet, const casework::CaseView& view,
                           const std::string& selected, CommandQueue& queue);

/// One row: title, what it is part of, bar and number. Shared with the page of suspects.
bool draw_suspect_row(Sheet& sheet, const std::string& name, const casework::SuspectView& suspect,
                      bool selected);

/// Undo and redo; `where` begins their names, as they stand on more than one page.
void draw_undo(Sheet& sheet, const casework::CaseView& view, const std::string& where,
               CommandQueue& queue);

}  // namespace dryout::window
