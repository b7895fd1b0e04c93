#include "window/suspects_view.h"

#include <imgui.h>

#include <algorithm>

#include "casework/tables.h"
#include "window/suspicion_column.h"
#include "window/symptom_search.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {

using casework::SuspectView;

const SuspectView* suspect_in_hand(const casework::CaseView& view, const SuspectsState& state) {
  const auto found =
      std::find_if(view.suspects.begin(), view.suspects.end(),
                   [&state](const SuspectView& s) { return s.item == state.selected; });
  if (found != view.suspects.end()) {
    return &*found;
  }
  return view.suspects.empty() ? nullptr : &view.suspects.front();
}

void draw_suspects(Sheet& sheet, const casework::CaseView& view, SuspectsState& state,
                   CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Suspects");
  if (view.suspects.empty()) {
    say(sheet, Face::text, sheet.theme.faint,
        "Nobody yet: tell what the set does wrong, and suspects follow.");
    return;
  }
  const SuspectView* in_hand = suspect_in_hand(view, state);
  field(sheet, "suspects/filter", "", state.filter, {"narrow by name, block or board"});
  if (button(sheet, "suspects/copy", "Copy the table",
             {.weight = Weight::quiet, .face = Face::note})) {
    queue.push(CopyText{casework::suspects_table(view)});
  }
  gap(sheet, 2);
  int shown = 0;
  bool more = false;
  for (const SuspectView& suspect : view.suspects) {
    if (words_matched(state.filter,
                      suspect.title + ' ' + suspect.block_title + ' ' + suspect.board_title) == 0) {
      continue;
    }
    if (shown++ >= state.shown) {
      more = true;
      break;
    }
    if (draw_suspect_row(sheet, "suspects/" + suspect.item, suspect, &suspect == in_hand)) {
      queue.push(ShowSuspect{suspect.item});
    }
  }
  if (shown == 0) {
    say(sheet, Face::text, sheet.theme.faint, "No suspect has these words.");
  }
  if (more && button(sheet, "suspects/more", "More of them", {.weight = Weight::quiet})) {
    state.shown += 24;
  }
}

}  // namespace dryout::window
