// The suspects one by one: how they could have failed, the evidence for and against as a balance,
// why the symptoms follow, and the technician's own verdict over the figures.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct SuspectsState {
  std::string selected;  ///< item id; "" = the first
  std::string filter;
  std::string reference, make, capacitance, rated, body;  ///< of a part being named
  std::string fault;
  bool in_practice = false;  ///< it can be mended and tried here
  int shown = 12;
};

[[nodiscard]] const casework::SuspectView* suspect_in_hand(const casework::CaseView& view,
                                                           const SuspectsState& state);

void draw_suspects(Sheet& sheet, const casework::CaseView& view, SuspectsState& state,
                   CommandQueue& queue);
/// Everything about the one in hand.
void draw_suspect_detail(Sheet& sheet, const casework::CaseView& view, SuspectsState& state,
                         CommandQueue& queue);
/// Evidence as two-sided bars about a middle line: left clears, right accuses.
void draw_balance(const Sheet& sheet, const casework::SuspectView& suspect);

}  // namespace dryout::window
