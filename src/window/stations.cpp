#include <imgui.h>

#include <array>

#include "window/desk.h"
#include "window/drawing.h"
#include "window/symptoms_view.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

struct Stop {
  Station station;
  const char* name;
  const char* title;
  const char* key;
};
constexpr std::array<Stop, 6> job{{
    {Station::take_in, "station/take-in", "Taken in", "F1"},
    {Station::symptoms, "station/symptoms", "Symptoms", "F2"},
    {Station::probe, "station/probe", "Probe", "F3"},
    {Station::suspects, "station/suspects", "Suspects", "F4"},
    {Station::mend, "station/mend", "Mend", "F5"},
    {Station::hand_over, "station/hand-over", "Hand over", "F6"},
}};
constexpr std::array<Stop, 6> pictures{{
    {Station::map, "station/map", "Block map", "F7"},
    {Station::readings, "station/readings", "Readings", "F8"},
    {Station::log, "station/log", "Bench log", "F9"},
    {Station::plan, "station/plan", "Plan ahead", "F10"},
    {Station::library, "station/library", "Library", "F11"},
    {Station::practice, "station/practice", "Practice", "F12"},
}};

bool passed(const Desk& desk, Station station) {
  if (!desk.open_case) {
    return false;
  }
  const casework::CaseView& view = *desk.open_case;
  switch (station) {
    case Station::take_in:
      return true;
    case Station::symptoms:
      return any_symptom_told(view);
    case Station::suspects:
      return view.leading.settled;
    case Station::hand_over:
      return view.closed;
    default:
      return false;
  }
}

void draw_stop(Sheet& sheet, const Desk& desk, const Stop& stop, bool thread, bool last,
               CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const bool enabled = desk.open_case || !needs_case(stop.station);
  const Touch touch =
      press_area(sheet, stop.name, stop.title, width, sheet.px(32), {.enabled = enabled});
  const bool here = enabled && desk.station == stop.station;
  const float middle = (touch.box.top + touch.box.bottom) / 2;
  const float dot = touch.box.left + sheet.px(18);
  if (here || touch.hovered) {
    fill(sheet,
         {touch.box.left + sheet.px(4), touch.box.top + sheet.px(2), touch.box.right,
          touch.box.bottom - sheet.px(2)},
         here ? theme.paper : theme.card, 4);
  }
  if (thread) {
    line(dot, stop.station == Station::take_in ? middle : touch.box.top - sheet.px(6), dot,
         last ? middle : touch.box.bottom, theme.line, sheet.px(2));
  }
  const float r = sheet.px(here ? 7 : 5);
  const Box mark{dot - r, middle - r, dot + r, middle + r};
  const bool full = here || passed(desk, stop.station);
  fill(sheet, mark, full ? theme.ink : theme.margin, thread ? 7.0F : 1.0F);
  outline(sheet, mark, theme.ink, 1.5F, thread ? 7.0F : 1.0F);
  const Face face = here ? Face::strong : Face::text;
  write(sheet, face, enabled ? theme.ink : theme.faint, touch.box.left + sheet.px(36),
        middle - height_of(sheet, face) / 2, fitted(sheet, face, stop.title, width - sheet.px(40)));
  if (width > sheet.px(150)) {  // a narrow strip has no room for the keys
    write(sheet, Face::figure_note, theme.faint, touch.box.right - sheet.px(26),
          middle - sheet.px(8), stop.key);
  }
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    queue.push(GoTo{stop.station});
  }
}

void small_button(Sheet& sheet, const char* name, const char* label, char32_t key,
                  const Intention& wish, CommandQueue& queue) {
  if (button(sheet, name, label,
             {.weight = Weight::quiet,
              .key = key,
              .face = Face::note,
              .width = ImGui::GetContentRegionAvail().x})) {
    queue.push(wish);
  }
}

}  // namespace

void draw_stations(Sheet& sheet, const Desk& desk, Box box, CommandQueue& queue) {
  fill(sheet, box, sheet.theme.margin);
  // The double rule of a notebook's margin.
  for (const float at : {0.0F, 3.0F}) {
    line(box.right - sheet.px(at), box.top, box.right - sheet.px(at), box.bottom, sheet.theme.line,
         sheet.px(1));
  }
  begin_region(sheet, "stations", {box.left, box.top, box.right - sheet.px(4), box.bottom}, 6);
  if (button(sheet, "station/cases", "Shelf of cases",
             {.weight = Weight::quiet,
              .key = U'c',
              .face = Face::note,
              .width = ImGui::GetContentRegionAvail().x})) {
    queue.push(GoTo{Station::cases});
  }
  small_button(sheet, "station/shop", "The shop", U's', GoTo{Station::shop}, queue);
  gap(sheet, 4);
  for (const Stop& stop : job) {
    draw_stop(sheet, desk, stop, true, stop.station == Station::hand_over, queue);
  }
  gap(sheet, 4);
  for (const Stop& stop : pictures) {
    draw_stop(sheet, desk, stop, false, false, queue);
  }
  gap(sheet, 4);
  if (desk.open_case) {
    small_button(sheet, "desk/far", "Far view", U'f', ToggleFar{}, queue);
  }
  small_button(sheet, "desk/theme", desk.theme == ThemeName::dark ? "Light" : "Dark", U't',
               ToggleTheme{}, queue);
  small_button(sheet, "desk/help", "Keys, words", U'?', ToggleHelp{}, queue);
  end_region();
}

}  // namespace dryout::window
