#include "window/log_view.h"

#include <imgui.h>

#include <algorithm>
#include <vector>

#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/suspicion_column.h"
#include "window/timeline_view.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

/// "10:22" of "2026-03-04 10:22", and the day before it.
std::string day_of(const std::string& when) { return when.substr(0, when.find(' ')); }
std::string hour_of(const std::string& when) {
  const std::size_t space = when.find(' ');
  return space == std::string::npos ? "" : when.substr(space + 1);
}

void draw_dot(const Sheet& sheet, float x, float y, bool undone) {
  const Theme& theme = sheet.theme;
  const float r = sheet.px(5);
  const Box dot{x - r, y - r, x + r, y + r};
  fill(sheet, dot, undone ? theme.paper : theme.ink, 5);
  outline(sheet, dot, undone ? theme.faint : theme.ink, 1.5F, 5);
}

void draw_step(Sheet& sheet, const casework::LogLine& step, bool last, LogState& state,
               CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const float text_width = width - sheet.px(86);
  const std::string text = step.undone ? step.text + " (taken back)" : step.text;
  const float high = wrapped_height(sheet, Face::text, text_width, text) + sheet.px(10);
  const std::string name = "log/step/" + std::to_string(step.event);
  const Touch touch = press_area(sheet, name, step.text, width,
                                 high - ImGui::GetStyle().ItemSpacing.y, {.enabled = !step.undone});
  if (touch.hovered || state.selected == step.event) {
    fill(sheet, touch.box, theme.card, 4);
  }
  const float x = touch.box.left + sheet.px(86);
  const float thread = touch.box.left + sheet.px(66);
  const float y = touch.box.top;
  const float middle = y + sheet.px(10);
  write(sheet, Face::figure_note, theme.faint, touch.box.left, y + sheet.px(2), hour_of(step.when));
  write_wrapped(sheet, Face::text, step.undone ? theme.faint : theme.ink, x, y, text_width, text);
  line(thread, y, thread, last ? middle : y + high, theme.line, sheet.px(2));
  draw_dot(sheet, thread, middle, step.undone);
  if (step.undone) {
    line(x, middle, x + std::min(text_width, width_of(sheet, Face::text, step.text)), middle,
         theme.faint, sheet.px(1.5F));
  }
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    state.selected = state.selected == step.event ? -1 : step.event;
  }
  if (state.selected == step.event &&
      button(sheet, name + "/take-back", "Take this step back", {.face = Face::note})) {
    queue.push(TakeBack{step.event});
    state.selected = -1;
  }
}

/// Pressing a step in the picture opens it in the log below.
void draw_picture(Sheet& sheet, const casework::CaseView& view, LogState& state,
                  CommandQueue& queue) {
  constexpr int bands_in_sight = 2;
  if (view.log.empty()) {
    return;
  }
  save_chart_button(sheet, "timeline", queue);
  say(sheet, Face::note, sheet.theme.faint,
      "Diamond: bad. Disc: good. Ring: neither. Press a step to find it below.");
  const Box chart = chart_begins();
  const TimelineTouch touch = draw_timeline(sheet, view.log, bands_in_sight);
  chart_ends(sheet, "timeline", chart, queue);
  if (touch.pressed != 0) {
    state.selected = touch.pressed;
    sheet.items.focus_on("log/step/" + std::to_string(touch.pressed));
  }
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
  draw_picture(sheet, view, state, queue);
  std::string day;
  for (std::size_t i = view.log.size(); i-- > 0;) {
    const casework::LogLine& step = view.log[i];
    if (day_of(step.when) != day) {
      day = day_of(step.when);
      section(sheet, day);
    }
    draw_step(sheet, step, i == 0, state, queue);
  }
}

}  // namespace dryout::window
