#include "window/cases_view.h"

#include <imgui.h>

#include "window/drawing.h"
#include "window/symptom_search.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

void draw_case(Sheet& sheet, const casework::CaseSummary& summary, CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const std::string number = std::to_string(summary.number);
  const Touch touch = press_area(sheet, "case/" + number, summary.set_name, width, sheet.px(62));
  if (touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  line(touch.box.left, touch.box.bottom, touch.box.right, touch.box.bottom, theme.line,
       sheet.px(1));
  const float y = touch.box.top + sheet.px(8);
  const float x = touch.box.left + sheet.px(64);
  write(sheet, Face::figure, theme.faint, touch.box.left + sheet.px(8), y, number);
  const float right = width_of(sheet, Face::note, summary.opened) + sheet.px(12);
  const float words = touch.box.right - x - right - sheet.px(12);
  const std::string set = summary.set_name.empty() ? "a set without a name" : summary.set_name;
  write(sheet, Face::strong, theme.ink, x, y, fitted(sheet, Face::strong, set, words));
  std::string below = summary.equipment_title;
  if (!summary.complaint.empty()) {
    below += ": \u201c" + summary.complaint + "\u201d";
  }
  write(sheet, Face::note, theme.faint, x, y + sheet.px(26),
        fitted(sheet, Face::note, below, words));
  write(sheet, Face::note, theme.faint, touch.box.right - right, y + sheet.px(3), summary.opened);
  write(sheet, Face::note, theme.ink, touch.box.right - right, y + sheet.px(26), summary.state);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    queue.push(OpenCase{summary.number});
  }
}

}  // namespace

void draw_cases(Sheet& sheet, const std::vector<casework::CaseSummary>& cases, CasesState& state,
                CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "On the shelf");
  if (button(sheet, "cases/new", "A set comes in", {.weight = Weight::next, .key = U'n'})) {
    state.taking_in = true;
    sheet.items.focus_on("intake/set");
  }
  if (cases.empty()) {
    gap(sheet, 8);
    say(sheet, Face::text, sheet.theme.ink, "No case yet.");
    say(sheet, Face::text, sheet.theme.faint,
        "Take a set in, tell what it does wrong, and Dryout says what to probe first.");
    return;
  }
  gap(sheet, 4);
  field(sheet, "cases/search", "", state.search, {"search: set, complaint, number"});
  bool any = false;
  for (const casework::CaseSummary& summary : cases) {
    const std::string text = std::to_string(summary.number) + ' ' + summary.set_name + ' ' +
                             summary.equipment_title + ' ' + summary.complaint + ' ' +
                             summary.state;
    if (words_matched(state.search, text) > 0) {
      draw_case(sheet, summary, queue);
      any = true;
    }
  }
  if (!any) {
    say(sheet, Face::text, sheet.theme.faint, "No case has these words.");
  }
}

}  // namespace dryout::window
