#include "window/readings_view.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "casework/tables.h"
#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::ReadingView;
using Readings = std::vector<const ReadingView*>;

constexpr float row_margin = 6;

/// Each verdict has a shape of its own; the word stands beside it.
void draw_mark(const Sheet& sheet, float x, float y, const std::string& verdict) {
  ImDrawList& pen = *ImGui::GetWindowDrawList();
  const float r = sheet.px(7);
  const Theme& theme = sheet.theme;
  if (verdict == "over-limit" || verdict == "suspect-short") {
    pen.AddQuadFilled(ImVec2(x, y - r), ImVec2(x + r, y), ImVec2(x, y + r), ImVec2(x - r, y),
                      theme.accuses.packed());
  } else if (verdict == "within-limit") {
    pen.AddCircleFilled(ImVec2(x, y), r * 0.85F, theme.clears.packed());
  } else {
    fill(sheet, {x - r * 0.8F, y - r * 0.8F, x + r * 0.8F, y + r * 0.8F}, theme.paper);
    outline(sheet, {x - r * 0.8F, y - r * 0.8F, x + r * 0.8F, y + r * 0.8F}, theme.ink, 2);
  }
}

void draw_strip(const Sheet& sheet, const DecadeAxis& axis, float y, const ReadingView& reading,
                const Readings& brothers) {
  const Theme& theme = sheet.theme;
  line(axis.left, y, axis.right, y, theme.line, sheet.px(1.5F));
  for (int decade = axis.decades.low; decade <= axis.decades.high; ++decade) {
    const float x = axis.at(std::pow(10.0, decade));
    line(x, y - sheet.px(4), x, y + sheet.px(4), theme.line, sheet.px(1));
  }
  for (const ReadingView* brother : brothers) {
    if (brother != &reading && !reading.batch.empty() && brother->batch == reading.batch) {
      const float x = axis.at(brother->value);
      line(x, y + sheet.px(5), x, y + sheet.px(12), theme.faint, sheet.px(1.5F));
    }
  }
  if (reading.limit) {
    const float x = axis.at(*reading.limit);
    const bool own_sheet = reading.limit_source == "datasheet";
    if (own_sheet) {
      line(x, y - sheet.px(15), x, y + sheet.px(15), theme.ink, sheet.px(2));
    } else {
      dashed(sheet, x, y - sheet.px(15), x, y + sheet.px(15), theme.ink);
    }
  }
  if (!reading.over_range) {
    draw_mark(sheet, axis.at(reading.value), y, reading.verdict);
  }
}

void draw_proof(const Sheet& sheet, const ReadingView& reading, quantities::Unit unit) {
  say(sheet, Face::text, sheet.theme.ink, reading.sentence);
  if (reading.limit) {
    say(sheet, Face::note, sheet.theme.faint,
        "Limit " + quantities::format_engineering(*reading.limit, unit) + ", from " +
            provenance_words(reading.limit_source));
  }
  for (const std::string& caveat : reading.caveats) {
    say(sheet, Face::note, sheet.theme.faint, caveat);
  }
  gap(sheet, 4);
}

void draw_reading(Sheet& sheet, const ReadingView& reading, const Readings& brothers,
                  const DecadeAxis& axis, ReadingsState& state, quantities::Unit unit) {
  const float width = ImGui::GetContentRegionAvail().x;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float words = axis.left - at.x - sheet.px(20);
  const std::string shown = reading.shown + "  " + reading.item_title;
  const std::string verdict =
      verdict_words(reading.verdict) + (reading.after_repair ? ", after the repair" : "");
  const float shown_high = wrapped_height(sheet, Face::text, words, shown);
  const float high =
      shown_high + wrapped_height(sheet, Face::note, words, verdict) + sheet.px(row_margin);
  if (!ImGui::IsRectVisible(ImVec2(width, high))) {
    ImGui::Dummy(ImVec2(width, high));
    sheet.items.note({"reading/" + std::to_string(reading.event), reading.item_title, at.x, at.y,
                      at.x + width, at.y + high, true, false, true});
    return;
  }
  const Touch touch = press_area(sheet, "reading/" + std::to_string(reading.event),
                                 reading.item_title, width, high);
  if (touch.hovered || state.selected == reading.event) {
    fill(sheet, touch.box, sheet.theme.card, 4);
  }
  const float x = touch.box.left + sheet.px(6);
  const float y = touch.box.top + sheet.px(row_margin) / 2;
  write_wrapped(sheet, Face::text, sheet.theme.ink, x, y, words, shown);
  write_wrapped(sheet, Face::note, sheet.theme.faint, x, y + shown_high, words, verdict);
  draw_strip(sheet, axis, touch.box.top + high / 2, reading, brothers);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.hovered) {
    explain(sheet, reading.sentence);
  }
  if (touch.pressed) {
    state.selected = state.selected == reading.event ? -1 : reading.event;
  }
  if (state.selected == reading.event) {
    draw_proof(sheet, reading, unit);
  }
}

void draw_kind(Sheet& sheet, const KindWords& kind, const Readings& readings,
               ReadingsState& state) {
  section(sheet, kind.title);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  // Half an axis label of margin on the right, or the outer ones would be cut.
  const DecadeAxis axis{decades_of(readings), at.x + width * 0.42F, at.x + width - sheet.px(40)};
  draw_decades(sheet, axis, at.y, kind.unit);
  gap(sheet, 18);
  for (const ReadingView* reading : readings) {
    draw_reading(sheet, *reading, readings, axis, state, kind.unit);
  }
}

}  // namespace

Decades decades_of(const std::vector<const ReadingView*>& readings) {
  double low = INFINITY;
  double high = 0;
  // Journals of earlier versions may hold what no bench can meet: it stands at the edge.
  constexpr double least = 1e-15;
  constexpr double most = 1e15;
  const auto take = [&low, &high](double value) {
    if (value >= least && value <= most) {
      low = std::min(low, value);
      high = std::max(high, value);
    }
  };
  for (const ReadingView* reading : readings) {
    take(reading->value);
    if (reading->limit) {
      take(*reading->limit);
    }
  }
  if (high == 0) {
    return {-1, 1};
  }
  const int first = static_cast<int>(std::floor(std::log10(low) - 0.1));
  return {first, std::max(first + 1, static_cast<int>(std::ceil(std::log10(high) + 0.1)))};
}

void draw_reading_scales(Sheet& sheet, const casework::CaseView& view, ReadingsState& state) {
  for (int i = 0; i <= static_cast<int>(casework::ReadingKind::hold_up); ++i) {
    const KindWords& kind = kind_words(static_cast<casework::ReadingKind>(i));
    Readings of_kind;
    for (const ReadingView& reading : view.readings) {
      if (kind_words(reading.kind) == &kind) {
        of_kind.push_back(&reading);
      }
    }
    if (!of_kind.empty()) {
      draw_kind(sheet, kind, of_kind, state);
    }
  }
}

void draw_readings(Sheet& sheet, const casework::CaseView& view,
                   const casework::Catalogue& catalogue, ReadingsState& state,
                   CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Readings");
  if (state.adding && sheet.keys.take(U'n')) {
    state.caret = "readings/item";
  }
  if (button(sheet, "readings/add", state.adding ? "Not now" : "Add a reading",
             {.key = state.adding ? U'\0' : U'n', .face = Face::note})) {
    state.adding = !state.adding;
    state.caret = state.adding ? "readings/item" : "";
  }
  if (!view.readings.empty()) {
    if (flow_button(sheet, "readings/copy", "Copy the table",
                    {.weight = Weight::quiet, .face = Face::note})) {
      queue.push(CopyText{casework::readings_table(view)});
    }
    save_chart_button(sheet, "readings", queue);
  }
  if (state.adding) {
    draw_addition(sheet, view, catalogue, state, queue);
  }
  if (view.readings.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "No number has been read yet.");
  } else {
    say(sheet, Face::note, sheet.theme.faint,
        "Diamond: over the limit. Round: within it. Square: proves little. Upright line: the "
        "limit, solid from the part's own data sheet, dashed from anywhere else. Short strokes: "
        "its brothers.");
  }
  const Box chart = chart_begins();
  draw_reading_scales(sheet, view, state);
  chart_ends(sheet, "readings", chart, queue);
}

}  // namespace dryout::window
