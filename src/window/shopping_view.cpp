#include <imgui.h>

#include <cmath>

#include "casework/tables.h"
#include "quantities/printed_number.h"
#include "window/drawing.h"
#include "window/options_view.h"
#include "window/papers.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::MendingView;
using casework::ShoppingRow;

std::string count_of(const ShoppingRow& row) {
  return std::to_string(row.needed) + " + " + std::to_string(row.spares);
}

/// The list as one would paste it into a letter to a dealer.
std::string list_text(const std::vector<ShoppingRow>& rows) {
  std::string text;
  for (const ShoppingRow& row : rows) {
    text += count_of(row) + " spare  " + row.part + "  (" + joined(row.for_parts) + ")\n";
  }
  return text;
}

void draw_row(Sheet& sheet, const ShoppingRow& row, std::size_t number, MendState& state) {
  const std::string name = "buy/" + std::to_string(number + 1);
  const float width = ImGui::GetContentRegionAvail().x;
  const float column = sheet.px(64);
  const float inner = width - column - sheet.px(8);
  const Theme& theme = sheet.theme;
  const float part = wrapped_height(sheet, Face::text, inner, row.part);
  const std::string where = "for " + joined(row.for_parts);
  const float lower = wrapped_height(sheet, Face::note, inner, where);
  const Touch touch = press_area(sheet, name, row.part, width, part + lower + sheet.px(10));
  if (touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  const float x = touch.box.left + column;
  const float y = touch.box.top + sheet.px(4);
  write(sheet, Face::figure_note, theme.ink, touch.box.left + sheet.px(6), y + sheet.px(2),
        count_of(row));
  write_wrapped(sheet, Face::text, theme.ink, x, y, inner, row.part);
  write_wrapped(sheet, Face::note, theme.faint, x, y + part, inner, where);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    state.row = state.row == name ? "" : name;
  }
  if (state.row == name) {
    for (const std::string& why : row.why) {
      say(sheet, Face::note, theme.ink, why);
    }
    for (const std::string& look_at : row.look_at) {
      say(sheet, Face::note, theme.ink, "When fitting: " + look_at);
    }
  }
}

}  // namespace

void draw_shopping(Sheet& sheet, const MendingView& mending, MendState& state,
                   CommandQueue& queue) {
  const casework::OptionView& option = mending.options.at(option_in_sight(mending, state));
  section(sheet, "To buy");
  if (option.shopping.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "Nothing, to " + option.title + '.');
    return;
  }
  say(sheet, Face::note, sheet.theme.faint,
      "To " + option.title + ": needed + spare. Press a line for its reasons.");
  for (std::size_t i = 0; i < option.shopping.size(); ++i) {
    draw_row(sheet, option.shopping[i], i, state);
  }
  if (button(sheet, "buy/copy", "Copy the list", {.face = Face::note})) {
    queue.push(CopyText{list_text(option.shopping)});
  }
  if (flow_button(sheet, "buy/copy-table", "Copy the table", {.face = Face::note})) {
    queue.push(CopyText{casework::shopping_table(option.shopping)});
  }
  if (flow_button(sheet, "buy/copy-csv", "Copy as CSV", {.face = Face::note})) {
    queue.push(CopyText{option.csv});
  }
  draw_paper_buttons(sheet, {"parts"}, queue);
}

void draw_sampling(Sheet& sheet, const MendingView& mending, CommandQueue& queue) {
  char32_t key = U'm';  // of the first that is still open
  section(sheet, "Which batches to measure, in this order");
  for (const casework::CohortSample& sample : mending.sampling) {
    const std::string parts =
        std::to_string(sample.parts) + (sample.parts == 1 ? " part, " : " parts, ");
    say(sheet, Face::text, sheet.theme.ink, sample.title);
    say(sheet, Face::note, sheet.theme.faint,
        parts + percent(sample.gives_up) + " that it gives up in that time. On average " +
            quantities::whole_number(sample.mean_if_sound) + " to measure if sound, " +
            quantities::whole_number(sample.mean_if_gone) + " if gone.");
    say(sheet, sample.advice == "measure-another" ? Face::note : Face::strong, sheet.theme.ink,
        sample.sentence);
    if (sample.advice == "measure-another" && !sample.items.empty() &&
        button(sheet, "batch/" + sample.cohort, "Measure this batch",
               {.weight = Weight::quiet, .key = std::exchange(key, U'\0'), .face = Face::note})) {
      queue.push(MeasureBatch{sample.items.front()});
    }
    gap(sheet, 2);
  }
  say(sheet, Face::note, sheet.theme.faint, mending.sampling_rule);
}

}  // namespace dryout::window
