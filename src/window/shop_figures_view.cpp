// The figures that mending is reckoned with, seen and set by the shop.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"
#include "window/drawing.h"
#include "window/shop_view.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using decision::ShopFigure;

std::string figure_text(double value) { return quantities::significant_figures(value, 6); }

std::string with_unit(double value, const ShopFigure& figure) {
  return figure_text(value) + (figure.unit.empty() ? "" : ' ' + figure.unit);
}

/// The shipped value of a figure, where the shop has another.
const ShopFigure* differs(const ShopPage& page, const ShopFigure& figure) {
  const auto& shipped = page.figures.shipped;
  const auto same = std::find_if(shipped.begin(), shipped.end(),
                                 [&](const ShopFigure& each) { return each.key == figure.key; });
  return same == shipped.end() || same->value == figure.value ? nullptr : &*same;
}

void set_figure(const ShopFigure& figure, ShopState& state, CommandQueue& queue) {
  const auto value = quantities::parse_engineering(state.figure_text);
  if (!value || !(*value >= figure.least && *value <= figure.most)) {
    state.figure_fault = "From " + figure_text(figure.least) + " to " + figure_text(figure.most) +
                         ", such as " + figure_text(figure.value) + ": \"" + state.figure_text +
                         "\" is none of that.";
    return;
  }
  state.figure_fault.clear();
  queue.push(SetShopFigure{figure.key, *value});
}

/// Under the figure in hand: its reason, a line to fill in, the way back.
void draw_in_hand(Sheet& sheet, const ShopFigure& figure, ShopState& state, CommandQueue& queue) {
  say(sheet, Face::note, sheet.theme.faint, figure.because + " (" + figure.source + ")");
  const float width = std::min(sheet.px(220), ImGui::GetContentRegionAvail().x);
  bool done = field(sheet, "shop/figure/value",
                    figure_text(figure.least) + " to " + figure_text(figure.most) +
                        (figure.unit.empty() ? "" : ' ' + figure.unit),
                    state.figure_text, {figure_text(figure.value), width});
  done |= button(sheet, "shop/figure/set", "Keep it",
                 {.enabled = !state.figure_text.empty(), .face = Face::note});
  const ShopFigure* shipped = differs(*state.page, figure);
  if (shipped != nullptr &&
      flow_button(sheet, "shop/figure/back",
                  "Back to the shipped " + with_unit(shipped->value, *shipped),
                  {.face = Face::note})) {
    queue.push(SetShopFigure{figure.key, {}});
  }
  if (!state.figure_fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, state.figure_fault);
  }
  if (done && !state.figure_text.empty()) {
    set_figure(figure, state, queue);
  }
  gap(sheet, 4);
}

void draw_figure(Sheet& sheet, const ShopFigure& figure, ShopState& state, CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const bool chosen = state.figure == figure.key;
  const ShopFigure* shipped = differs(*state.page, figure);
  const std::string value = with_unit(figure.value, figure);
  const std::string note =
      shipped == nullptr ? "" : "your own; shipped " + with_unit(shipped->value, *shipped);
  const float width = ImGui::GetContentRegionAvail().x;
  const float pad = sheet.px(6);
  const float figures = width_of(sheet, Face::figure_note, value);
  const float room = width - figures - 3 * pad;
  const float title_high = wrapped_height(sheet, Face::text, room, figure.title);
  const float note_high =
      note.empty() ? 0 : wrapped_height(sheet, Face::note, width - 2 * pad, note);
  const Touch touch = press_area(sheet, "shop/figure/" + figure.key, figure.title, width,
                                 title_high + note_high + sheet.px(6));
  if (chosen || touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  const float y = touch.box.top + sheet.px(3);
  write_wrapped(sheet, Face::text, theme.ink, touch.box.left + pad, y, room, figure.title);
  write(sheet, Face::figure_note, theme.ink, touch.box.right - pad - figures, y + sheet.px(2),
        value);
  if (!note.empty()) {
    write_wrapped(sheet, Face::note, theme.faint, touch.box.left + pad, y + title_high,
                  width - 2 * pad, note);
  }
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    state.figure = chosen ? "" : figure.key;
    state.figure_text.clear();
    state.figure_fault.clear();
  }
  if (chosen) {
    draw_in_hand(sheet, figure, state, queue);
  }
}

}  // namespace

void draw_shop_figures(Sheet& sheet, ShopState& state, CommandQueue& queue) {
  section(sheet, "What mending is reckoned with");
  if (state.page->figures.now.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "No figures of a shop were found.");
    return;
  }
  say(sheet, Face::note, sheet.theme.faint,
      "Press a figure for its reason, and to set your own. What is shipped is judgement: begin "
      "with "
      "the hour at the bench.");
  const std::vector<ShopFigure> figures = state.page->figures.now;
  for (const ShopFigure& figure : figures) {
    draw_figure(sheet, figure, state, queue);
  }
}

}  // namespace dryout::window
