// Mending: what to replace and what it costs, what to buy, what was done to which part. Everything
// shown was weighed in casework; nothing is worked out here.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct MendState {
  std::string item;    ///< what is being mended; "" = the suspect in hand
  std::string fitted;  ///< what went in
  int action = 0;
  std::string scope;  ///< the way of mending looked at; "" = the one advised
  std::string row;    ///< the line of the shopping list whose reasons are shown
  double horizon_years = casework::usual_horizon_years;
};

/// `mending` is null where it could not be weighed; the foot of the desk then says why.
void draw_mend(Sheet& sheet, const casework::CaseView& view, const casework::MendingView* mending,
               MendState& state, CommandQueue& queue);

/// A list of the most suspicious items to pick one of.
void pick_item(Sheet& sheet, const casework::CaseView& view, const std::string& name,
               std::string& item);

}  // namespace dryout::window
