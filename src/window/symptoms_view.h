// What the set does wrong: found by the owner's words, answered yes, no or unclear.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct SymptomsState {
  std::string search;
};

void draw_symptoms(Sheet& sheet, const casework::CaseView& view, SymptomsState& state,
                   CommandQueue& queue);

}  // namespace dryout::window
