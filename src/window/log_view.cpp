#include "window/log_view.h"

#include <imgui.h>

#include <vector>

#include "window/drawing.h"
#include "window/suspicion_column.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

/// "10:22" of "2026-03-04 10:22", and the day before it.
std::string day_of(const std::string& when) { return when.substr(0, when.find(' ')); }
std::string hour_of(const std::string& when) {
  const std::size_t space = when.find(' ');
  return space == std::string::npos ? "" : when.substr(space + 1);
}

void draw_step(const Sheet& sheet, const casework::LogLine& step, bool last) {
  const Theme& theme = sheet.theme;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const float thread = at.x + sheet.px(66);
  const float x = at.x + sheet.px(86);
  const Colour ink = step.undone ? theme.faint : theme.ink;
  write(sheet, Face::figure_note, theme.faint, at.x, at.y + sheet.px(2), hour_of(step.when));
  const float text_width = width - (x - at.x);
  const std::string text = step.undone ? step.text + " (taken back)" : step.text;
  const float high = write_wrapped(sheet, Face::text, ink, x, at.y, text_width, text);
  const float row = high + sheet.px(10);
  const float middle = at.y + sheet.px(10);
  line(thread, last ? at.y - sheet.px(6) : at.y, thread, last ? middle : at.y + row, theme.line,
       sheet.px(2));
  const Box dot{thread - sheet.px(5), middle - sheet.px(5), thread + sheet.px(5),
                middle + sheet.px(5)};
  fill(sheet, dot, step.undone ? theme.paper : theme.ink, 5);
  outline(sheet, dot, step.undone ? theme.faint : theme.ink, 1.5F, 5);
  if (step.undone) {
    const float mid_line = at.y + sheet.px(10);
    line(x, mid_line, x + std::min(text_width, width_of(sheet, Face::text, step.text)), mid_line,
         theme.faint, sheet.px(1.5F));
  }
  ImGui::Dummy(ImVec2(width, row - ImGui::GetStyle().ItemSpacing.y));
}

}  // namespace

void draw_log(Sheet& sheet, const casework::CaseView& view, LogState& state, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Bench log");
  const bool done = field(sheet, "log/note", "", state.note, {"a note of your own"});
  const bool pressed = button(sheet, "log/add", "Note it", {.enabled = !state.note.empty()});
  if ((done || pressed) && !state.note.empty()) {
    queue.push(casework::AddNote{state.note});
    state.note.clear();
  }
  flow(sheet, button_width(sheet, "Take back", {.face = Face::note}));
  draw_undo(sheet, view, "log/", queue);
  if (flow_button(sheet, "log/copy", "Copy the log",
                  {.weight = Weight::quiet, .enabled = !view.log.empty(), .face = Face::note})) {
    std::string text;
    for (const casework::LogLine& step : view.log) {
      text += step.when + '\t' + step.text + (step.undone ? " (taken back)" : "") + '\n';
    }
    queue.push(CopyText{text});
  }
  if (view.log.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "Nothing noted yet.");
  }
  std::string day;
  for (std::size_t i = view.log.size(); i-- > 0;) {
    const casework::LogLine& step = view.log[i];
    if (day_of(step.when) != day) {
      day = day_of(step.when);
      section(sheet, day);
    }
    draw_step(sheet, step, i == 0);
  }
}

}  // namespace dryout::window
