#include "window/far_view.h"

#include <imgui.h>

#include "window/drawing.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

/// The largest face in which the text takes no more than `lines` lines.
Face largest_face(const Sheet& sheet, const std::string& text, float width, float lines) {
  for (const Face face : {Face::far, Face::large}) {
    const float high = wrapped_height(sheet, face, width, text);
    if (high <= lines * height_of(sheet, face) * 1.05F) {
      return face;
    }
  }
  return Face::heading;
}

void say_largest(const Sheet& sheet, const std::string& text, float lines) {
  const float width = ImGui::GetContentRegionAvail().x;
  say(sheet, largest_face(sheet, text, width, lines), sheet.theme.ink, text);
}

}  // namespace

void draw_far(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
              ProbeState& state, CommandQueue& queue) {
  const casework::CheckView* check = check_in_hand(view, state);
  turn_to_check(state, check);
  if (check == nullptr) {
    say_largest(sheet,
                state.set_answers               ? "Pick a check on the probing page (F3)"
                : view.leading.sentence.empty() ? "No check left"
                                                : view.leading.sentence,
                4);
  } else {
    say_largest(sheet, check->title, 2);
    if (!check->place_title.empty()) {
      say(sheet, Face::heading, sheet.theme.faint, "at " + check->place_title);
    }
    gap(sheet, 6);
    if (check->acknowledged) {
      say(sheet, Face::heading, sheet.theme.ink, "Good: " + check->good);
      say(sheet, Face::heading, sheet.theme.ink, "Bad: " + check->bad);
      gap(sheet, 10);
    }
    draw_check_entry(sheet, view, *check, catalogue, state, queue, Face::large);
    section(sheet, "");
    if (!state.set_answers) {
      say_largest(sheet, view.leading.sentence, 2);
    }
  }
  gap(sheet, 6);
  if (button(sheet, "far/leave", "Near view", {.weight = Weight::quiet, .key = U'f'})) {
    queue.push(ToggleFar{});
  }
}

}  // namespace dryout::window
