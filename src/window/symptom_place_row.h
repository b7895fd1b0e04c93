// Below a symptom that is there: where and when, one key each, as far as this equipment has places.
#pragma once

#include <vector>

#include "casework/case_view.h"
#include "casework/command.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

/// A button of the row, and what pressing it says.
struct PlaceButton {
  std::string id;     ///< channel=left, follows=not, when=cold
  std::string label;  ///< "Left channel", "Right channel: fine"
  bool told = false;
  casework::ReportSymptom says;
};

/// A place goes from not told to there, to fine, to not told; a condition is told or taken back.
[[nodiscard]] std::vector<PlaceButton> place_buttons(const casework::CaseView& view,
                                                     const casework::SymptomView& symptom);

/// `focused`: keys 1 to 9 press the buttons in their order.
void draw_place_row(Sheet& sheet, const casework::CaseView& view,
                    const casework::SymptomView& symptom, bool focused, CommandQueue& queue);

}  // namespace dryout::window
