// A reading that nobody asked for: of which part, of which group and make where the part is new,
// and the figure. Made for a row of brothers: what stays the same from one to the next is typed
// once, and the name counts up by itself.
#pragma once

#include <string>

#include "casework/case_view.h"
#include "casework/catalogue.h"
#include "window/command_queue.h"
#include "window/reading_form.h"
#include "window/sheet.h"

namespace dryout::window {

struct ReadingsState {
  int selected = -1;  ///< event of the reading unfolded
  bool adding = false;
  std::string caret;  ///< the line it goes to as soon as that is drawn; "" = stays
  ReadingFormState form;
  std::string group;  ///< words of the group that a new part belongs to
  std::string make;   ///< maker and series of a new part
};

/// The printed name that follows: "C301" is followed by "C302", "C009" by "C010". A name without a
/// number behind is its own successor.
[[nodiscard]] std::string next_reference(const std::string& reference);

/// The group that a new part belongs to by these words: the one with that id or title, else the one
/// most of whose words they begin; null where none does.
[[nodiscard]] const casework::GroupChoice* group_by_words(const casework::CaseView& view,
                                                          const std::string& words);

/// Opens the form for parts of this group, for this part (item ids), or for any ("").
void begin_addition(ReadingsState& state, const casework::CaseView& view, const std::string& group);

void draw_addition(Sheet& sheet, const casework::CaseView& view,
                   const casework::Catalogue& catalogue, ReadingsState& state, CommandQueue& queue);

}  // namespace dryout::window
