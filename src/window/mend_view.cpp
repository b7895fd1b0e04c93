#include "window/mend_view.h"

#include <imgui.h>

#include <algorithm>
#include <array>

#include "window/drawing.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

constexpr std::array<const char*, 4> actions{"replaced", "resoldered", "cleaned", "adjusted"};
constexpr std::size_t offered = 8;

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

void draw_proof(Sheet& sheet, const casework::CaseView& view, CommandQueue& queue) {
  section(sheet, "Proof: is the complaint gone?");
  bool any = false;
  for (const casework::SymptomView& symptom : view.symptoms) {
    if (symptom.seen != "yes") {
      continue;
    }
    any = true;
    say(sheet, Face::text, sheet.theme.ink, symptom.title);
    if (!symptom.quick_test.empty()) {
      say(sheet, Face::note, sheet.theme.faint, symptom.quick_test);
    }
    if (button(sheet, "retest/" + symptom.id + "/gone", "Gone", {.face = Face::note})) {
      queue.push(casework::RetestSymptom{symptom.id, false});
    }
    if (flow_button(sheet, "retest/" + symptom.id + "/still", "Still there",
                    {.face = Face::note})) {
      queue.push(casework::RetestSymptom{symptom.id, true});
    }
  }
  if (!any) {
    say(sheet, Face::text, sheet.theme.faint, "No symptom was noted, so none can be tried again.");
  }
}

void draw_closed(Sheet& sheet, const casework::CaseView& view, HandOverState& state,
                 CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Handed over");
  say(sheet, Face::text, sheet.theme.ink,
      view.cause.empty() ? "No cause was found." : "Cause: " + view.cause);
  gap(sheet, 4);
  const bool done = field(sheet, "close/reason", "Why it comes back", state.reason,
                          {"the hum is back after a week"});
  if (button(sheet, "close/reopen", "Take it up again") || done) {
    queue.push(casework::ReopenCase{state.reason});
    state.reason.clear();
  }
}

}  // namespace

void draw_mend(Sheet& sheet, const casework::CaseView& view, MendState& state,
               CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Mend and prove");
  section(sheet, "What was mended");
  if (view.suspects.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "Nothing is under suspicion yet.");
  }
  pick_item(sheet, view, "mend/item/", state.item);
  gap(sheet, 4);
  for (std::size_t i = 0; i < actions.size(); ++i) {
    const ButtonLook look{.weight =
                              static_cast<int>(i) == state.action ? Weight::chosen : Weight::plain};
    if (i > 0) {
      flow(sheet, button_width(sheet, actions[i], look));
    }
    if (button(sheet, std::string("mend/action/") + actions[i], actions[i], look)) {
      state.action = static_cast<int>(i);
    }
  }
  const bool done =
      field(sheet, "mend/fitted", "What went in", state.fitted, {"maker, series, value, volts"});
  gap(sheet, 2);
  const bool pressed = button(sheet, "mend/note", "Note the repair",
                              {.weight = Weight::next, .enabled = !state.item.empty()});
  if ((pressed || done) && !state.item.empty()) {
    queue.push(casework::RecordRepair{state.item, actions[static_cast<std::size_t>(state.action)],
                                      state.fitted});
    state.fitted.clear();
  }
  if (state.item.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Pick above what was mended.");
  }
  draw_proof(sheet, view, queue);
  gap(sheet, 6);
  if (button(sheet, "mend/on", "On to handing over")) {
    queue.push(GoTo{Station::hand_over});
  }
}

void draw_hand_over(Sheet& sheet, const casework::CaseView& view, HandOverState& state,
                    CommandQueue& queue) {
  if (view.closed) {
    draw_closed(sheet, view, state, queue);
    return;
  }
  say(sheet, Face::heading, sheet.theme.ink, "Hand it over");
  section(sheet, "What was the cause?");
  pick_item(sheet, view, "close/cause/", state.cause);
  if (button(sheet, "close/cause/none", "No cause found",
             {.weight = state.cause.empty() ? Weight::chosen : Weight::plain,
              .face = Face::note,
              .width = ImGui::GetContentRegionAvail().x})) {
    state.cause.clear();
  }
  const bool done = field(sheet, "close/summary", "In a sentence, for the owner and for next time",
                          state.summary, {"dried reservoir pair replaced"});
  gap(sheet, 2);
  if (button(sheet, "close/close", "Close the case", {.weight = Weight::next}) || done) {
    queue.push(casework::CloseCase{state.cause, state.summary});
  }
}

}  // namespace dryout::window
