// How the outcome of a check gets in: heed the cautions first, then one key, or one figure.
#include <imgui.h>

#include <algorithm>
#include <utility>

#include "window/caution_panel.h"
#include "window/probe_view.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::CheckView;
using casework::Seen;

void draw_cautions(Sheet& sheet, const CheckView& check, CommandQueue& queue, Face face) {
  say(sheet, face == Face::text ? Face::note : Face::heading, sheet.theme.ink,
      "Read to the end (Page \u2193), then A.");
  for (const casework::CautionView& caution : check.cautions) {
    draw_caution(sheet, caution, face == Face::text ? Face::text : Face::heading);
  }
  gap(sheet, 2);
  // Below its cautions, and deaf until they were scrolled past: nobody heeds what was not shown.
  if (button(sheet, "probe/acknowledge", "Read and heeded",
             {.weight = Weight::next, .key = U'a', .face = face, .key_needs_sight = true})) {
    queue.push(casework::AcknowledgeCautions{check.check, check.place});
  }
}

void draw_outcomes(Sheet& sheet, const CheckView& check, ProbeState& state, CommandQueue& queue,
                   Face face) {
  struct Outcome {
    const char* id;
    const char* word;
    char32_t key;
    Seen bad;
  };
  static constexpr Outcome outcomes[] = {{"probe/bad", "Looked bad", U'b', Seen::yes},
                                         {"probe/good", "Looked good", U'g', Seen::no},
                                         {"probe/unclear", "Unclear", U'u', Seen::unclear}};
  bool first = true;
  for (const Outcome& outcome : outcomes) {
    const ButtonLook look{.key = outcome.key, .face = face};
    if (!first) {
      flow(sheet, button_width(sheet, outcome.word, look));
    }
    first = false;
    if (button(sheet, outcome.id, outcome.word, look)) {
      queue.push(casework::RecordOutcome{check.check, check.place, outcome.bad,
                                         std::exchange(state.remark, {})});
    }
  }
}

void submit(const casework::CaseView& view, const CheckView& check, ProbeState& state,
            CommandQueue& queue) {
  ReadingFormState& form = state.reading;
  form.item = state.part.empty() ? check.place : state.part;
  if (const auto reading = reading_of(form)) {
    push_reading(view, check.place, *reading, queue);
    form.figure.clear();
    state.part.clear();
  }
}

void draw_reading(Sheet& sheet, const casework::CaseView& view, const CheckView& check,
                  const KindWords& kind, ProbeState& state, CommandQueue& queue, Face face) {
  const std::string begun = sheet.keys.take_figure();
  if (!begun.empty()) {
    state.reading.figure = begun;
    sheet.items.focus_on("probe/reading/figure");
  }
  gap(sheet, 4);
  bool done = draw_figure_field(sheet, "probe/reading", kind, state.reading, face);
  if (face == Face::text) {
    flow(sheet, sheet.px(230));
    done |= field(sheet, "probe/part", "On which part? (empty: the group)", state.part,
                  {"C12", sheet.px(230)});
  }
  done |= button(sheet, "probe/enter", "Enter the reading", {.face = face});
  if (!state.reading.fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, state.reading.fault);
  }
  if (face == Face::text) {
    draw_reading_details(sheet, "probe/reading", kind, state.reading);
  }
  if (done) {
    submit(view, check, state, queue);
  }
}

/// Whether a number read at this place is a reading of a capacitor; on a rail or in a block it is a
/// remark beside the outcome.
bool belongs_to_capacitor(const casework::CaseView& view, const std::string& place) {
  return std::any_of(view.suspects.begin(), view.suspects.end(),
                     [&place](const casework::SuspectView& suspect) {
                       return suspect.capacitor &&
                              (suspect.item == "group:" + place || suspect.item == "part:" + place);
                     });
}

void draw_remark(Sheet& sheet, const CheckView& check, ProbeState& state, Face face) {
  const std::string begun = sheet.keys.take_figure();
  if (!begun.empty()) {
    state.remark = begun;
    sheet.items.focus_on("probe/remark");
  }
  gap(sheet, 4);
  field(sheet, "probe/remark", "Meter showed (noted with the outcome)", state.remark,
        {check.quantity, sheet.px(face == Face::text ? 230 : 420), face});
}

}  // namespace

void draw_check_entry(Sheet& sheet, const casework::CaseView& view, const CheckView& check,
                      ProbeState& state, CommandQueue& queue, Face face) {
  if (!check.acknowledged) {
    draw_cautions(sheet, check, queue, face);
    return;
  }
  draw_outcomes(sheet, check, state, queue, face);
  const KindWords* kind = kind_words(check.quantity);
  if (kind != nullptr && belongs_to_capacitor(view, check.place)) {
    draw_reading(sheet, view, check, *kind, state, queue, face);
  } else if (!check.quantity.empty()) {
    draw_remark(sheet, check, state, face);
  }
}

}  // namespace dryout::window
