// The numbers read so far, each on a logarithmic scale with its limit and its brothers, and what
// it proves in a sentence; and a form for a reading nobody asked for.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/decade_axis.h"
#include "window/reading_addition.h"
#include "window/sheet.h"

namespace dryout::window {

/// The decades a picture of these readings spans, as powers of ten; a limit counts too.
[[nodiscard]] Decades decades_of(const std::vector<const casework::ReadingView*>& readings);

/// The readings on their scales, alone.
void draw_reading_scales(Sheet& sheet, const casework::CaseView& view, ReadingsState& state);
void draw_readings(Sheet& sheet, const casework::CaseView& view,
                   const casework::Catalogue& catalogue, ReadingsState& state, CommandQueue& queue);

}  // namespace dryout::window
