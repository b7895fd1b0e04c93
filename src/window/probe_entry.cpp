// How the outcome of a check gets in: heed the cautions first, then one key, or one figure.
#include <imgui.h>

#include <algorithm>
#include <utility>

#include "casework/bench_hints.h"
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
  draw_unread(sheet, check.cautions, check.reminder, face);
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
  bool begun = false;
  for (const Outcome& outcome : outcomes) {
    const ButtonLook look{.key = outcome.key, .face = face};
    if (row_button(sheet, begun, outcome.id, outcome.word, look)) {
      queue.push(casework::RecordOutcome{check.check, check.place, outcome.bad,
                                         std::exchange(state.remark, {})});
    }
  }
}

/// A figure that was typed, or one pasted, while no field is open: it opens the field.
std::string begun_figure(Sheet& sheet) {
  std::string typed = sheet.keys.take_figure();
  if (!typed.empty() || ImGui::GetIO().WantTextInput || !sheet.keys.take(Key::paste)) {
    return typed;
  }
  constexpr std::size_t longest = 40;
  const char* pasted = ImGui::GetClipboardText();
  std::string text = pasted == nullptr ? "" : pasted;
  text.resize(std::min({text.find_first_of("\t\r\n"), longest, text.size()}));
  text.erase(0, std::min(text.find_first_not_of(' '), text.size()));
  return text;
}

/// The reading as typed, asked about instead of noted.
void ask(const casework::CaseView& view, const CheckView& check, ProbeState& state,
         CommandQueue& queue) {
  ReadingFormState& form = state.reading;
  form.item = state.part.empty() ? check.place : state.part;
  if (const auto reading = reading_of(form)) {
    CommandQueue would;
    push_reading(view, {check.place}, *reading, would);
    AskWhatIf question;
    for (const Intention& wish : would.take()) {
      question.commands.push_back(std::get<casework::Command>(wish));
    }
    queue.push(std::move(question));
  }
}

/// The value printed on the part goes into its description, under the part's printed name.
void take_print_over(const CheckView& check, const casework::PrintedValue& value, ProbeState& state,
                     CommandQueue& queue) {
  if (state.part.empty()) {
    state.print_fault = "Say first which part it is: its printed name, such as C12.";
    return;
  }
  casework::NamePart part;
  part.reference = state.part;
  part.group = check.place;
  part.capacitance = value.capacitance;
  part.rated = value.rated;
  queue.push(part);
  state.print.clear();
  state.print_fault.clear();
}

/// Notes the reading; what is printed on the part goes before it, for the limit rests on it.
void submit(Sheet& sheet, const casework::CaseView& view, const CheckView& check,
            const casework::Catalogue& catalogue, ProbeState& state, CommandQueue& queue) {
  ReadingFormState& form = state.reading;
  const auto printed =
      state.print.empty() ? casework::ReadPrint{}
                          : casework::read_print(state.print, check.technology, catalogue.year_now);
  // What could be a date code is nobody's value until it is chosen.
  const bool a_value = !printed.values.empty() && printed.dates.empty();
  if (a_value && state.part.empty()) {
    form.fault =
        "Say which part bears this print, by its printed name such as C12, or clear the print: "
        "of an unnamed part only what is typical is known.";
    sheet.items.focus_on("probe/part");
    return;
  }
  form.item = state.part.empty() ? check.place : state.part;
  if (const auto reading = reading_of(form)) {
    PartBelonging part{check.place};
    if (a_value) {
      part.capacitance = printed.values.front().capacitance;
      part.rated = printed.values.front().rated;
      state.print.clear();
      state.print_fault.clear();
    }
    push_reading(view, part, *reading, queue);
    form.figure.clear();
    state.part.clear();
  }
}

/// What is printed on the part, read while it is typed; Enter takes the first reading over.
void draw_print(Sheet& sheet, const CheckView& check, const casework::Catalogue& catalogue,
                ProbeState& state, CommandQueue& queue) {
  const bool done = field(sheet, "probe/print", "What is printed on it? (value, volts or date)",
                          state.print, {"47 25V, A106, 0931", sheet.px(230)});
  if (state.print.empty()) {
    state.print_fault.clear();
    return;
  }
  const casework::ReadPrint read =
      casework::read_print(state.print, check.technology, catalogue.year_now);
  constexpr std::size_t shown_most = 4;  // beyond are readings that nobody means
  for (std::size_t i = 0; i < std::min(read.values.size(), shown_most); ++i) {
    const casework::PrintedValue& value = read.values[i];
    const ButtonLook look{.weight = i == 0 ? Weight::chosen : Weight::plain, .face = Face::note};
    if (button(sheet, "probe/print/" + std::to_string(i), value.told, look) || (done && i == 0)) {
      take_print_over(check, value, state, queue);
      return;
    }
    say(sheet, Face::note, sheet.theme.faint, capitalised(value.how) + ": " + value.why + '.');
  }
  if (!read.values.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Enter takes the first one over for the part.");
  }
  if (!read.dates.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "As a date: " + joined(read.dates));
  }
  if (!read.fault.empty() || !state.print_fault.empty()) {
    say(sheet, Face::note, sheet.theme.accuses,
        state.print_fault.empty() ? read.fault : state.print_fault);
  }
}

void draw_reading(Sheet& sheet, const casework::CaseView& view, const CheckView& check,
                  const KindWords& kind, const casework::Catalogue& catalogue, ProbeState& state,
                  CommandQueue& queue, Face face) {
  const std::string begun = begun_figure(sheet);
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
  if (face == Face::text && flow_button(sheet, "probe/reading/if", "What if?",
                                        {.weight = Weight::quiet, .face = Face::note})) {
    ask(view, check, state, queue);
  }
  if (!state.reading.fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, state.reading.fault);
  }
  if (face == Face::text) {
    draw_print(sheet, check, catalogue, state, queue);
    draw_reading_details(sheet, "probe/reading", kind,
                         {catalogue, check.across, check.across_because}, state.reading);
  }
  if (done) {
    submit(sheet, view, check, catalogue, state, queue);
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
                      const casework::Catalogue& catalogue, ProbeState& state, CommandQueue& queue,
                      Face face) {
  if (!check.acknowledged) {
    draw_cautions(sheet, check, queue, face);
    return;
  }
  if (state.set_answers) {
    if (button(sheet, "probe/make", "Make this check",
               {.weight = Weight::next, .key = U'm', .face = face})) {
      queue.push(casework::RecordOutcome{check.check, check.place, Seen::unclear, ""});
    }
    return;
  }
  // Heeded earlier in the case; what is new at this check still stands in full.
  draw_unread(sheet, check.cautions, check.reminder, face);
  gap(sheet, 2);
  draw_outcomes(sheet, check, state, queue, face);
  const KindWords* kind = kind_words(check.quantity);
  if (kind != nullptr && belongs_to_capacitor(view, check.place)) {
    draw_reading(sheet, view, check, *kind, catalogue, state, queue, face);
  } else if (!check.quantity.empty()) {
    draw_remark(sheet, check, state, face);
  }
}

}  // namespace dryout::window
