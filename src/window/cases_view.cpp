#include "window/cases_view.h"

#include <imgui.h>

#include <algorithm>

#include "window/drawing.h"
#include "window/symptom_search.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

/// "2026-03-04" of "2026-03-04 10:22".
constexpr std::size_t date_length = 10;

void draw_case(Sheet& sheet, const casework::CaseSummary& summary, CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const std::string number = std::to_string(summary.number);
  const float indent = sheet.px(64);
  const float right = width_of(sheet, Face::note, summary.opened) + sheet.px(12);
  const float words = std::max(width - indent - right - sheet.px(12), sheet.px(60));
  const std::string set = summary.set_name.empty() ? "a set without a name" : summary.set_name;
  std::string below = summary.equipment_title;
  if (!summary.complaint.empty()) {
    below += ": \u201c" + summary.complaint + "\u201d";
  }
  const float set_high = wrapped_height(sheet, Face::strong, words, set);
  const float below_high = wrapped_height(sheet, Face::note, words, below);
  const Touch touch = press_area(sheet, "case/" + number, summary.set_name, width,
                                 set_high + below_high + sheet.px(22));
  if (touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  line(touch.box.left, touch.box.bottom, touch.box.right, touch.box.bottom, theme.line,
       sheet.px(1));
  const float y = touch.box.top + sheet.px(8);
  const float x = touch.box.left + indent;
  write(sheet, Face::figure, theme.faint, touch.box.left + sheet.px(8), y, number);
  write_wrapped(sheet, Face::strong, theme.ink, x, y, words, set);
  write_wrapped(sheet, Face::note, theme.faint, x, y + set_high + sheet.px(4), words, below);
  write(sheet, Face::note, theme.faint, touch.box.right - right, y + sheet.px(3), summary.opened);
  write(sheet, Face::note, theme.ink, touch.box.right - right, y + sheet.px(26), summary.state);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    queue.push(OpenCase{summary.number});
  }
}

/// What a set like the one on the bench had, a press away from its whole case.
void draw_earlier(Sheet& sheet, const casework::LastTimeCase& each, CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const std::string cause = each.cause.empty() ? "No cause was found" : each.cause;
  std::string told = each.set_name + ", " + each.opened.substr(0, date_length);
  if (each.at_bench.si() > 0.0) {
    told += ", " + quantities::format_duration(each.at_bench) + " at the bench";
  }
  if (!each.complaint.empty()) {
    told += ": \u201c" + each.complaint + "\u201d";
  }
  const float width = ImGui::GetContentRegionAvail().x;
  const float inner = width - sheet.px(24);
  const std::string done =
      each.repairs.empty() ? "Nothing was mended." : joined(each.repairs, "\n");
  const float high = wrapped_height(sheet, Face::strong, inner, cause) +
                     wrapped_height(sheet, Face::text, inner, done) +
                     wrapped_height(sheet, Face::note, inner, told);
  const Touch touch = press_area(sheet, "last-time/" + std::to_string(each.number), cause, width,
                                 high + sheet.px(14));
  if (touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  const float x = touch.box.left + sheet.px(12);
  float y = touch.box.top + sheet.px(6);
  y += write_wrapped(sheet, Face::strong, theme.ink, x, y, inner, cause);
  y += write_wrapped(sheet, Face::text, theme.ink, x, y, inner, done);
  write_wrapped(sheet, Face::note, theme.faint, x, y, inner, told);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    queue.push(OpenCase{each.number});
  }
}

void draw_last_time(Sheet& sheet, const casework::LastTimeView& last_time, CommandQueue& queue) {
  section(sheet, "Last time, with sets like the one on the bench");
  if (last_time.cases.empty()) {
    say(sheet, Face::text, sheet.theme.faint,
        "No closed case yet of its name, or of its kind with what it does.");
  }
  for (const casework::LastTimeCase& each : last_time.cases) {
    draw_earlier(sheet, each, queue);
  }
  gap(sheet, 6);
}

bool lies_on(const std::vector<casework::CaseSummary>& cases, std::int64_t number) {
  return std::any_of(cases.begin(), cases.end(), [&](const casework::CaseSummary& summary) {
    return summary.number == number;
  });
}

bool has_words(const casework::CaseSummary& summary, const std::string& words) {
  const std::string text = std::to_string(summary.number) + ' ' + summary.set_name + ' ' +
                           summary.equipment_title + ' ' + summary.complaint + ' ' + summary.state;
  return words_matched(words, text) > 0;
}

/// The newest that have the words, then older ones that the store found.
bool draw_found(Sheet& sheet, const CaseShelf& shelf, const CasesState& state,
                CommandQueue& queue) {
  bool any = false;
  for (const casework::CaseSummary& summary : shelf.cases) {
    if (has_words(summary, state.search)) {
      draw_case(sheet, summary, queue);
      any = true;
    }
  }
  for (const casework::CaseSummary& summary : shelf.found) {
    if (!lies_on(shelf.cases, summary.number) || !has_words(summary, state.search)) {
      draw_case(sheet, summary, queue);
      any = true;
    }
  }
  return any;
}

}  // namespace

void draw_cases(Sheet& sheet, const CaseShelf& shelf, CasesState& state, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "On the shelf");
  if (button(sheet, "cases/new", "A set comes in", {.weight = Weight::next, .key = U'n'})) {
    state.taking_in = true;
    sheet.items.focus_on("intake/set");
  }
  if (shelf.cases.empty()) {
    gap(sheet, 8);
    say(sheet, Face::text, sheet.theme.ink, "No case yet.");
    say(sheet, Face::text, sheet.theme.faint,
        "Take a set in, tell what it does wrong, and Dryout says what to probe first.");
    return;
  }
  if (shelf.last_time) {
    draw_last_time(sheet, *shelf.last_time, queue);
  }
  gap(sheet, 4);
  const std::string before = state.search;
  field(sheet, "cases/search", "", state.search,
        {"search: set, owner, complaint, part, cause, number"});
  if (state.search != before) {
    queue.push(SearchShelf{state.search});
  }
  if (!draw_found(sheet, shelf, state, queue)) {
    say(sheet, Face::text, sheet.theme.faint, "No case has these words.");
  } else if (state.search.empty() && shelf.cases.size() == static_cast<std::size_t>(shelf_most)) {
    say(sheet, Face::note, sheet.theme.faint,
        "These are the " + std::to_string(shelf_most) +
            " changed last; older ones are found by their words.");
  }
}

}  // namespace dryout::window
