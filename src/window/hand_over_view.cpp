#include "window/hand_over_view.h"

#include <imgui.h>

#include <algorithm>

#include "window/drawing.h"
#include "window/mend_view.h"
#include "window/papers.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::MendingView;

void draw_compared(const Sheet& sheet, const MendingView& mending) {
  if (mending.compared.empty()) {
    return;
  }
  section(sheet, "Before and after");
  for (const casework::BeforeAfter& pair : mending.compared) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const std::string before = pair.before_shown;
    const std::string after = pair.after_shown;
    const float column = std::max(sheet.px(90), width_of(sheet, Face::figure_note, before));
    const float third = at.x + width - column;
    const float second = third - sheet.px(30) - column;
    const KindWords* kind = kind_words(pair.kind);
    const std::string title =
        pair.item_title + ", " + (kind == nullptr ? pair.kind : std::string(kind->title));
    const float high = write_wrapped(sheet, Face::text, sheet.theme.ink, at.x, at.y,
                                     second - at.x - sheet.px(10), title);
    const float y = at.y + sheet.px(2);
    write(sheet, Face::figure_note, sheet.theme.faint, second, y, before);
    arrow(sheet, third - sheet.px(26), y + sheet.px(9), third - sheet.px(8), y + sheet.px(9),
          sheet.theme.faint, sheet.px(1.5F));
    write(sheet, Face::figure_note, sheet.theme.ink, third, y, after);
    ImGui::Dummy(ImVec2(width, high + sheet.px(2)));
  }
}

void draw_left(const Sheet& sheet, const MendingView& mending) {
  if (mending.left.empty()) {
    return;
  }
  section(sheet, "Left in the set, and its risk");
  for (const std::string& sentence : mending.left) {
    say(sheet, Face::text, sheet.theme.ink, sentence);
  }
}

std::string cause_title(const casework::CaseView& view) {
  const auto found = std::find_if(
      view.suspects.begin(), view.suspects.end(),
      [&](const casework::SuspectView& suspect) { return suspect.item == view.cause; });
  return found == view.suspects.end() ? view.cause : found->title;
}

void draw_closed(Sheet& sheet, const casework::CaseView& view, HandOverState& state,
                 CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Handed over");
  say(sheet, Face::text, sheet.theme.ink,
      view.cause.empty() ? "No cause was found." : "Cause: " + cause_title(view));
  gap(sheet, 4);
  const bool done = field(sheet, "close/reason", "Why it comes back", state.reason,
                          {"the hum is back after a week"});
  if (button(sheet, "close/reopen", "Take it up again") || done) {
    queue.push(casework::ReopenCase{state.reason});
    state.reason.clear();
  }
}

void draw_closing(Sheet& sheet, const casework::CaseView& view, HandOverState& state,
                  CommandQueue& queue) {
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

}  // namespace

void draw_hand_over(Sheet& sheet, const casework::CaseView& view, const MendingView* mending,
                    HandOverState& state, CommandQueue& queue) {
  if (view.closed) {
    draw_closed(sheet, view, state, queue);
  } else {
    say(sheet, Face::heading, sheet.theme.ink, "Prove it and hand it over");
    if (mending != nullptr) {
      draw_proof(sheet, *mending, state, queue);
    }
  }
  if (mending != nullptr) {
    draw_compared(sheet, *mending);
    draw_left(sheet, *mending);
  }
  section(sheet, "On paper");
  draw_paper_buttons(sheet, {"owner", "bench", "case"}, queue);
  if (!view.closed) {
    draw_closing(sheet, view, state, queue);
  }
}

}  // namespace dryout::window
