#include "window/mend_view.h"

#include <imgui.h>

#include <algorithm>
#include <array>

#include "casework/check_command.h"
#include "window/options_view.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::repair_actions;
constexpr std::size_t offered = 8;

void draw_actions(Sheet& sheet, MendState& state) {
  bool begun = false;
  for (std::size_t i = 0; i < repair_actions.size(); ++i) {
    const std::string name(repair_actions.at(i));
    const bool chosen = static_cast<int>(i) == state.action;
    const ButtonLook look{.weight = chosen ? Weight::chosen : Weight::plain};
    if (row_button(sheet, begun, "mend/action/" + name, name, look)) {
      state.action = static_cast<int>(i);
    }
  }
}

void draw_repair(Sheet& sheet, const casework::CaseView& view, MendState& state,
                 CommandQueue& queue) {
  section(sheet, "What was mended");
  if (view.suspects.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "Nothing is under suspicion yet.");
  }
  pick_item(sheet, view, "mend/item/", state.item);
  gap(sheet, 4);
  draw_actions(sheet, state);
  const bool done =
      field(sheet, "mend/fitted", "What went in", state.fitted, {"maker, series, value, volts"});
  gap(sheet, 2);
  const bool pressed = button(sheet, "mend/note", "Note the repair",
                              {.weight = Weight::next, .enabled = !state.item.empty()});
  if ((pressed || done) && !state.item.empty()) {
    queue.push(casework::RecordRepair{
        state.item, std::string(repair_actions.at(static_cast<std::size_t>(state.action))),
        state.fitted});
    state.fitted.clear();
  }
  if (state.item.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Pick above what was mended.");
  }
}

void draw_fitted(const Sheet& sheet, const casework::MendingView& mending) {
  for (const casework::Fitted& fitted : mending.fitted) {
    say(sheet, Face::text, sheet.theme.ink,
        fitted.item_title + ": " + fitted.action +
            (fitted.fitted.empty() ? "" : ", " + fitted.fitted));
  }
}

}  // namespace

void pick_item(Sheet& sheet, const casework::CaseView& view, const std::string& name,
               std::string& item) {
  for (std::size_t i = 0; i < std::min(view.suspects.size(), offered); ++i) {
    const casework::SuspectView& suspect = view.suspects[i];
    const std::string label = suspect.title + "  " + percent(suspect.suspicion);
    if (button(sheet, name + suspect.item, label,
               {.weight = suspect.item == item ? Weight::chosen : Weight::plain,
                .face = Face::note,
                .width = ImGui::GetContentRegionAvail().x})) {
      item = suspect.item;
    }
  }
}

void draw_mend(Sheet& sheet, const casework::CaseView& view, const casework::MendingView* mending,
               MendState& state, CommandQueue& queue) {
  if (mending != nullptr) {
    draw_options(sheet, *mending, state, queue);
    draw_shopping(sheet, *mending, state, queue);
  }
  draw_repair(sheet, view, state, queue);
  if (mending != nullptr) {
    draw_fitted(sheet, *mending);
  }
  gap(sheet, 6);
  if (button(sheet, "mend/on", "On to proving and handing over")) {
    queue.push(GoTo{Station::hand_over});
  }
}

}  // namespace dryout::window
