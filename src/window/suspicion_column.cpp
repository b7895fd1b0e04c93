#include "window/suspicion_column.h"

#include <imgui.h>

#include <algorithm>

#include "window/drawing.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

constexpr std::size_t column_rows = 9;

std::string belongs(const casework::SuspectView& suspect) {
  if (!suspect.mended.empty()) {
    return "mended: " + suspect.mended;
  }
  if (!suspect.judged.empty()) {
    return suspect.judged == "cleared" ? "you cleared it" : "you hold it at fault";
  }
  return suspect.block_title + (suspect.board_title.empty() ? "" : ", " + suspect.board_title);
}

/// The two-part strip under the heading: capacitor or something else.
void draw_either(const Sheet& sheet, const casework::Leading& leading) {
  if (leading.capacitor.value() + leading.other.value() + leading.unlisted.value() == 0) {
    return;  // nothing was reported that either could explain
  }
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const Box strip{at.x, at.y, at.x + width, at.y + sheet.px(14)};
  fill(sheet, strip, sheet.theme.clears.faded(80));
  suspicion_bar(sheet, strip, leading.capacitor);
  ImGui::Dummy(ImVec2(width, strip.height()));
  say(sheet, Face::note, sheet.theme.ink, "a capacitor " + percent(leading.capacitor));
  say(sheet, Face::note, sheet.theme.faint, "something else " + percent(leading.other));
  say(sheet, Face::note, sheet.theme.faint, "not in the list " + percent(leading.unlisted));
}

}  // namespace

bool draw_suspect_row(Sheet& sheet, const std::string& name, const casework::SuspectView& suspect,
                      bool selected) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const float pad = sheet.px(8);
  const float number = width_of(sheet, Face::figure_note, "> 99 %");
  const float inner = width - 2 * pad;
  const float title_high = wrapped_height(sheet, Face::text, inner, suspect.title);
  const float place_high = wrapped_height(sheet, Face::note, inner, belongs(suspect));
  const float high = title_high + place_high + sheet.px(20) + pad;
  const Touch touch = press_area(sheet, name, suspect.title, width, high);
  if (selected || touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  if (selected) {
    fill(sheet, {touch.box.left, touch.box.top, touch.box.left + sheet.px(4), touch.box.bottom},
         theme.ink);
  }
  const float x = touch.box.left + pad;
  float y = touch.box.top + pad / 2;
  write_wrapped(sheet, Face::text, theme.ink, x, y, inner, suspect.title);
  y += title_high;
  write_wrapped(sheet, Face::note, theme.faint, x, y, inner, belongs(suspect));
  y += place_high + sheet.px(3);
  const Box bar{x, y, touch.box.right - pad - number - pad, y + sheet.px(12)};
  suspicion_bar(sheet, bar, suspect.suspicion);
  write(sheet, Face::figure_note, theme.ink, touch.box.right - pad - number, y - sheet.px(2),
        percent(suspect.suspicion));
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.hovered) {
    explain(sheet, suspect.title + " (" + belongs(suspect) + ")\nnow " +
                       percent(suspect.suspicion) + ", before any evidence " +
                       percent(suspect.before) + "\nevidence " + decibans(suspect.weight));
  }
  return touch.pressed;
}

void draw_undo(Sheet& sheet, const casework::CaseView& view, const std::string& where,
               CommandQueue& queue) {
  if (button(sheet, where + "undo", "Take back", {.enabled = view.can_undo, .face = Face::note})) {
    queue.push(Undo{});
  }
  if (flow_button(sheet, where + "redo", "Put again",
                  {.enabled = view.can_redo, .face = Face::note})) {
    queue.push(Redo{});
  }
}

void draw_suspicion_column(Sheet& sheet, const casework::CaseView& view,
                           const std::string& selected, CommandQueue& queue) {
  say(sheet, Face::strong, sheet.theme.ink, "Suspicion");
  draw_either(sheet, view.leading);
  gap(sheet, 6);
  if (view.suspects.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "Nothing is under suspicion yet.");
  }
  for (std::size_t i = 0; i < std::min(view.suspects.size(), column_rows); ++i) {
    const casework::SuspectView& suspect = view.suspects[i];
    if (draw_suspect_row(sheet, "column/" + suspect.item, suspect, suspect.item == selected)) {
      queue.push(ShowSuspect{suspect.item});
    }
  }
  gap(sheet, 8);
  if (!view.log.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Last noted: " + view.log.back().text);
  }
  draw_undo(sheet, view, "column/", queue);
}

}  // namespace dryout::window
