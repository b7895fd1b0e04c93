// What the set does wrong: found by the owner's words, answered yes, no or unclear.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/catalogue.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct SymptomsState {
  std::string search;
};

/// Whether it was said of any symptom that it is there, is not, or can't be told.
[[nodiscard]] bool any_symptom_told(const casework::CaseView& view);

void draw_symptoms(Sheet& sheet, const casework::CaseView& view,
                   const casework::Catalogue& catalogue, SymptomsState& state, CommandQueue& queue);

}  // namespace dryout::window
