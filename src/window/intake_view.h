// The counter: what is told when a set comes in. The same form starts a case and corrects it.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/catalogue.h"
#include "window/command_queue.h"
#include "window/intake_proposals.h"
#include "window/parts_list_form.h"
#include "window/sheet.h"

namespace dryout::window {

struct IntakeState {
  std::string set_name, year, owner, complaint, equipment, search;
  std::int64_t of_case = 0;  ///< the case whose values fill the form; 0 = a new one
  std::string fault;         ///< why it can't be taken in as it stands
  ProposalsState proposals;  ///< what the owner's words sound like
  PartsListState parts;      ///< a list that describes the set
};

/// The form for a set that has no case yet.
void draw_new_case(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state,
                   CommandQueue& queue);
/// The same for an open case, with the equipment's hazards and what has been opened.
void draw_intake(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
                 IntakeState& state, CommandQueue& queue);

}  // namespace dryout::window
