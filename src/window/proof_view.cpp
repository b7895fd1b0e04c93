#include <imgui.h>

#include <algorithm>

#include "window/caution_panel.h"
#include "window/drawing.h"
#include "window/hand_over_view.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::MendingView;
using casework::ProofStep;
using casework::Proved;

bool still_open(const ProofStep& step) { return !step.done && !step.failed && !step.skipped; }

/// The step in hand: the one picked, else the first that is open; null when all are told.
const ProofStep* step_in_hand(const MendingView& mending, const HandOverState& state) {
  const auto picked = std::find_if(mending.proof.begin(), mending.proof.end(),
                                   [&](const ProofStep& step) { return step.id == state.step; });
  if (picked != mending.proof.end()) {
    return &*picked;
  }
  const auto next = std::find_if(mending.proof.begin(), mending.proof.end(), still_open);
  return next == mending.proof.end() ? nullptr : &*next;
}

void draw_mark(const Sheet& sheet, Box box, const ProofStep& step) {
  const Theme& theme = sheet.theme;
  const float thick = sheet.px(2.5F);
  outline(sheet, box, theme.ink, 1.5F, 2);
  const float middle = (box.top + box.bottom) / 2;
  const float third = box.width() / 3;
  if (step.done) {
    line(box.left + sheet.px(3), middle, box.left + third + sheet.px(1), box.bottom - sheet.px(3),
         theme.clears, thick);
    line(box.left + third + sheet.px(1), box.bottom - sheet.px(3), box.right - sheet.px(2),
         box.top + sheet.px(3), theme.clears, thick);
  } else if (step.failed) {
    line(box.left + sheet.px(3), box.top + sheet.px(3), box.right - sheet.px(3),
         box.bottom - sheet.px(3), theme.accuses, thick);
    line(box.left + sheet.px(3), box.bottom - sheet.px(3), box.right - sheet.px(3),
         box.top + sheet.px(3), theme.accuses, thick);
  } else if (step.skipped) {
    line(box.left + sheet.px(3), middle, box.right - sheet.px(3), middle, theme.faint, thick);
  }
}

void draw_line(Sheet& sheet, const ProofStep& step, bool in_hand, HandOverState& state) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const float indent = sheet.px(32);
  const std::string words = step.remark.empty() ? step.title : step.title + ": " + step.remark;
  const Face face = in_hand ? Face::strong : Face::text;
  const float high = wrapped_height(sheet, face, width - indent - sheet.px(8), words);
  const Touch touch = press_area(sheet, "proof/" + step.id, step.title, width, high + sheet.px(8));
  if (in_hand || touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  const float top = touch.box.top + sheet.px(6);
  draw_mark(sheet,
            {touch.box.left + sheet.px(6), top, touch.box.left + sheet.px(22), top + sheet.px(16)},
            step);
  write_wrapped(sheet, face, still_open(step) || in_hand ? theme.ink : theme.faint,
                touch.box.left + indent, touch.box.top + sheet.px(4), width - indent - sheet.px(8),
                words);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    state.step = step.id;
    state.remark.clear();
  }
}

void tell(const ProofStep& step, Proved outcome, HandOverState& state, CommandQueue& queue) {
  if (step.symptom.empty()) {
    queue.push(casework::RecordProof{step.id, outcome, state.remark});
  } else {
    queue.push(casework::RetestSymptom{step.symptom, outcome == Proved::failed});
  }
  state.step.clear();
  state.remark.clear();
}

void draw_answers(Sheet& sheet, const ProofStep& step, HandOverState& state, CommandQueue& queue) {
  const bool retest = !step.symptom.empty();
  bool entered = false;
  if (!retest) {
    entered = field(sheet, "proof/remark", "What was seen", state.remark, {"38.1 V, steady"});
    gap(sheet, 2);
  }
  if (button(sheet, "proof/good", retest ? "Gone" : "In order",
             {.weight = Weight::next, .key = U'g'}) ||
      entered) {
    tell(step, Proved::passed, state, queue);
  }
  if (flow_button(sheet, "proof/bad", retest ? "Still there" : "Not in order", {.key = U'b'})) {
    tell(step, Proved::failed, state, queue);
  }
  if (!retest &&
      flow_button(sheet, "proof/left-out", "Left out", {.weight = Weight::quiet, .key = U'l'})) {
    tell(step, Proved::skipped, state, queue);
  }
}

void draw_step_in_hand(Sheet& sheet, const ProofStep& step, HandOverState& state,
                       CommandQueue& queue) {
  if (!step.caution.empty()) {
    draw_caution(sheet, {step.id, step.caution_title, step.caution, step.danger});
    gap(sheet, 2);
  }
  say(sheet, Face::text, sheet.theme.ink, step.wording);
  say(sheet, Face::note, sheet.theme.faint, step.because);
  draw_answers(sheet, step, state, queue);
  gap(sheet, 6);
}

}  // namespace

void draw_proof(Sheet& sheet, const MendingView& mending, HandOverState& state,
                CommandQueue& queue) {
  const auto settled = std::count_if(mending.proof.begin(), mending.proof.end(),
                                     [](const ProofStep& step) { return !still_open(step); });
  section(sheet, "Proof, " + std::to_string(settled) + " of " +
                     std::to_string(mending.proof.size()) + " told");
  if (mending.fitted.empty()) {
    say(sheet, Face::note, sheet.theme.faint,
        "Nothing is noted as mended yet. After each repair the proof begins anew.");
  }
  const ProofStep* in_hand = step_in_hand(mending, state);
  for (const ProofStep& step : mending.proof) {
    draw_line(sheet, step, &step == in_hand, state);
    if (&step == in_hand) {
      draw_step_in_hand(sheet, step, state, queue);
    }
  }
}

}  // namespace dryout::window
