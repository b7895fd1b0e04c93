// Practice: pick a kind of equipment, find what is wrong with a set of it, and see afterwards what
// it cost and where the program's advice would have gone. Probing itself happens on the same pages
// as on a real set.
#pragma once

#include <string>

#include "casework/catalogue.h"
#include "casework/practice_room.h"
#include "window/command_queue.h"
#include "window/sheet.h"

namespace dryout::window {

struct PracticeState {
  std::string equipment, search, seed;
  std::string fault;  ///< why no set can be drawn
};

/// No practice yet: which kind of equipment?
void draw_practice_start(Sheet& sheet, const casework::Catalogue& catalogue, PracticeState& state,
                         CommandQueue& queue);
/// The complaint and what was done so far; once it is over, both ways side by side.
void draw_practice(Sheet& sheet, const casework::PracticeView& practice, CommandQueue& queue);
/// Beside the other pages, in the place of the suspicion that is to be found out.
void draw_practice_column(Sheet& sheet, const casework::PracticeView& practice,
                          CommandQueue& queue);

}  // namespace dryout::window
