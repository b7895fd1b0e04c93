#include "window/probe_view.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

#include "quantities/printed_number.h"
#include "window/drawing.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::CheckView;

/// "Probes   between the can and chassis": a faint word, then the text in its own column.
void draw_fact(const Sheet& sheet, const char* word, const std::string& text) {
  if (text.empty()) {
    return;
  }
  const float column = sheet.px(96);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x - column;
  write(sheet, Face::note, sheet.theme.faint, at.x, at.y + sheet.px(3), word);
  const float high =
      write_wrapped(sheet, Face::text, sheet.theme.ink, at.x + column, at.y, width, text);
  ImGui::Dummy(ImVec2(column + width, high + sheet.px(4)));
}

/// What tells nothing new is no advice, only a place to go on looking.
bool tells(const CheckView& check) {
  constexpr double from_bits = 1e-3;
  return check.gain_bits >= from_bits;
}

std::string cost_words(const CheckView& check) {
  std::string words = quantities::format_duration(check.effort);
  if (!check.opens_titles.empty()) {
    words += ", after " + quantities::format_duration(check.access_effort) +
             " to open: " + joined(check.opens_titles);
  }
  return words;
}

void draw_figures(const Sheet& sheet, const CheckView& check) {
  say(sheet, Face::note, sheet.theme.faint,
      "It looks bad with " + percent(check.looks_bad) + ". It is worth " +
          quantities::fixed_point(check.gain_bits, 2) + " bit of knowledge; expected saving " +
          quantities::format_duration(check.saving) + '.');
  if (!check.because.empty()) {
    say(sheet, Face::note, sheet.theme.faint, check.because);
  }
  if (!check.source.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Source: " + check.source);
  }
}

void draw_check(Sheet& sheet, const casework::CaseView& view, const CheckView& check,
                const casework::Catalogue& catalogue, ProbeState& state, CommandQueue& queue) {
  const bool best = &check == &view.next.front() && !state.set_answers;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const bool advised = best && tells(check);
  const std::string tag = advised ? "Do this next" : (best ? "To look further" : "Picked by you");
  const Box mark{at.x, at.y, at.x + width_of(sheet, Face::note, tag) + sheet.px(16),
                 at.y + sheet.px(24)};
  fill(sheet, mark, advised ? sheet.theme.next : sheet.theme.card, 3);
  write(sheet, Face::note, advised ? sheet.theme.on_next : sheet.theme.ink, mark.left + sheet.px(8),
        mark.top + sheet.px(4), tag);
  ImGui::Dummy(ImVec2(mark.width(), mark.height()));
  say(sheet, Face::heading, sheet.theme.ink, check.title);
  if (!check.place_title.empty()) {
    say(sheet, Face::strong, sheet.theme.ink, "at " + check.place_title);
  }
  if (!state.set_answers) {
    say(sheet, Face::text, sheet.theme.faint, check.reason);
  }
  gap(sheet, 4);
  if (check.acknowledged) {
    draw_fact(sheet, "State", set_state(check.state));
    draw_fact(sheet, "With", check.instrument);
    draw_fact(sheet, "Probes", check.probes);
    draw_fact(sheet, "Good", check.good);
    draw_fact(sheet, "Bad", check.bad);
  }
  draw_fact(sheet, "Takes", cost_words(check));
  gap(sheet, 4);
  draw_check_entry(sheet, view, check, catalogue, state, queue, Face::text);
}

/// Two bars one above the other: now, and then.
void draw_change(Sheet& sheet, const casework::WhatIfChange& change, CommandQueue& queue) {
  const float width = ImGui::GetContentRegionAvail().x;
  const float number = width_of(sheet, Face::figure_note, "> 99 %") + sheet.px(10);
  const float words = std::min(sheet.px(300), width * 0.45F);
  const float room = words - sheet.px(46);
  const float high = wrapped_height(sheet, Face::text, room, change.title);
  const Touch touch = press_area(sheet, "probe/if/" + change.item, change.title, width,
                                 std::max(sheet.px(38), high + sheet.px(8)));
  if (touch.hovered) {
    fill(sheet, touch.box, sheet.theme.card, 4);
  }
  write_wrapped(sheet, Face::text, sheet.theme.ink, touch.box.left,
                (touch.box.top + touch.box.bottom - high) / 2, room, change.title);
  Box bar{touch.box.left + words, touch.box.top + sheet.px(4), touch.box.right - number,
          touch.box.top + sheet.px(16)};
  const std::pair<const char*, quantities::Probability> rows[] = {{"now", change.now},
                                                                  {"then", change.then}};
  for (const auto& [word, share] : rows) {
    write(sheet, Face::note, sheet.theme.faint, bar.left - sheet.px(40), bar.top - sheet.px(3),
          word);
    suspicion_bar(sheet, bar, share);
    write(sheet, Face::figure_note, sheet.theme.ink, bar.right + sheet.px(8), bar.top - sheet.px(3),
          percent(share));
    bar.top += sheet.px(16);
    bar.bottom += sheet.px(16);
  }
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    queue.push(ShowSuspect{change.item});
  }
}

void ask_what_if(Sheet& sheet, const CheckView& check, CommandQueue& queue) {
  if (!check.acknowledged) {
    return;
  }
  struct Question {
    const char* name;
    const char* label;
    casework::Seen bad;
  };
  static constexpr Question questions[] = {
      {"probe/if-bad", "What if it looks bad?", casework::Seen::yes},
      {"probe/if-good", "What if it looks good?", casework::Seen::no}};
  bool begun = false;
  for (const Question& question : questions) {
    const ButtonLook look{.weight = Weight::quiet, .face = Face::note};
    if (row_button(sheet, begun, question.name, question.label, look)) {
      queue.push(AskWhatIf{{casework::RecordOutcome{check.check, check.place, question.bad, ""}}});
    }
  }
}

void draw_what_if(Sheet& sheet, ProbeState& state, CommandQueue& queue) {
  if (!state.what_if) {
    return;
  }
  const casework::WhatIfView& then = *state.what_if;
  section(sheet, "What would change (nothing is noted)");
  say(sheet, Face::strong, sheet.theme.ink, then.sentence);
  if (!then.reading.empty()) {
    say(sheet, Face::text, sheet.theme.ink, then.reading);
  }
  for (const casework::WhatIfChange& change : then.changes) {
    draw_change(sheet, change, queue);
  }
  say(sheet, Face::text, sheet.theme.ink, then.leading);
  if (!then.next.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Next would be: " + then.next);
  }
  if (button(sheet, "probe/if-enough", "Enough of that",
             {.weight = Weight::quiet, .face = Face::note})) {
    state.what_if.reset();
  }
}

void draw_choices(Sheet& sheet, const CheckView& check, ProbeState& state, CommandQueue& queue) {
  gap(sheet, 4);
  if (button(sheet, "probe/decline", "Can't or won't",
             {.weight = Weight::quiet, .key = U'r', .face = Face::note})) {
    queue.push(casework::DeclineCheck{check.check, check.place, "out of reach or refused"});
  }
  if (state.set_answers) {
    return;
  }
  if (!check.opens.empty() &&
      flow_button(sheet, "probe/open", "Now open: " + check.opens_titles.front(),
                  {.weight = Weight::quiet, .key = U'n', .face = Face::note})) {
    queue.push(casework::OpenAccess{check.opens.front()});
  }
  if (flow_button(sheet, "probe/figures", state.show_figures ? "Hide the figures" : "Show me why",
                  {.weight = Weight::quiet, .key = U'w', .face = Face::note})) {
    state.show_figures = !state.show_figures;
  }
  if (state.show_figures) {
    draw_figures(sheet, check);
  }
  ask_what_if(sheet, check, queue);
  draw_what_if(sheet, state, queue);
}

void draw_alternative(Sheet& sheet, const CheckView& check, bool in_hand, bool advise,
                      CommandQueue& queue) {
  const float width = ImGui::GetContentRegionAvail().x;
  const std::string title =
      check.title + (check.place_title.empty() ? "" : ": " + check.place_title);
  const float figures = sheet.px(advise ? 210 : 120);
  const float room = width - figures - sheet.px(20);
  const float high = wrapped_height(sheet, Face::text, room, title);
  const Touch touch = press_area(sheet, "probe/other/" + check.check + '/' + check.place, title,
                                 width, high + sheet.px(14));
  if (touch.hovered || in_hand) {
    fill(sheet, touch.box, sheet.theme.card, 4);
  }
  const float y = touch.box.top + sheet.px(7);
  write_wrapped(sheet, Face::text, sheet.theme.ink, touch.box.left + sheet.px(10), y, room, title);
  if (advise) {
    write(sheet, Face::figure_note, sheet.theme.faint, touch.box.right - figures, y + sheet.px(2),
          quantities::fixed_point(check.gain_bits, 2) + " bit");
  }
  write(sheet, Face::figure_note, sheet.theme.faint, touch.box.right - sheet.px(115),
        y + sheet.px(2),
        quantities::format_duration(check.effort + check.access_effort) +
            (check.dangerous ? " !" : ""));
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.hovered) {
    explain(sheet, title + (advise ? "\n" + check.reason : "") + "\nTakes " + cost_words(check));
  }
  if (touch.pressed) {
    queue.push(ShowCheck{check.check, check.place});
  }
}

/// The others, best first; those that would tell nothing only when asked for.
void draw_alternatives(Sheet& sheet, const casework::CaseView& view, const CheckView* in_hand,
                       ProbeState& state, CommandQueue& queue) {
  constexpr int at_first = 6;
  const bool asked = state.set_answers || state.alternatives > at_first;
  const auto most = static_cast<std::size_t>(state.alternatives);
  std::size_t shown = 0;
  for (const CheckView& check : view.next) {
    if (shown == most || !(asked || tells(check))) {
      break;
    }
    if (shown++ == 0 && in_hand != nullptr) {
      section(sheet, "Or instead");
    }
    draw_alternative(sheet, check, &check == in_hand, !state.set_answers, queue);
  }
  if (shown == 0) {
    say(sheet, Face::note, sheet.theme.faint,
        "No check that can be made here would tell anything new.");
  }
  if (view.next.size() > shown &&
      button(sheet, "probe/more", "More of them", {.weight = Weight::quiet, .face = Face::note})) {
    constexpr int more = 12;
    state.alternatives += more;
  }
}

void draw_declined(Sheet& sheet, const casework::CaseView& view, CommandQueue& queue) {
  if (view.declined.empty()) {
    return;
  }
  section(sheet, "Set aside");
  for (const CheckView& check : view.declined) {
    const std::string label = "Propose again: " + check.title +
                              (check.place_title.empty() ? "" : ", " + check.place_title);
    if (button(sheet, "probe/reconsider/" + check.check + '/' + check.place, label,
               {.weight = Weight::quiet, .face = Face::note})) {
      queue.push(casework::ReconsiderCheck{check.check, check.place});
    }
  }
}

void draw_nothing_left(Sheet& sheet, const casework::CaseView& view, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "No check left that would pay for itself");
  say(sheet, Face::text, sheet.theme.faint,
      view.log.size() < 2 ? "Tell what the set does wrong first; checks follow from symptoms."
                          : "Look at the suspects and decide, or take a set-aside check back.");
  gap(sheet, 4);
  if (button(sheet, "probe/to-symptoms", "Symptoms", {})) {
    queue.push(GoTo{Station::symptoms});
  }
  if (flow_button(sheet, "probe/to-suspects", "Suspects", {.weight = Weight::next})) {
    queue.push(GoTo{Station::suspects});
  }
}

}  // namespace

const CheckView* check_in_hand(const casework::CaseView& view, const ProbeState& state) {
  const auto picked = std::find_if(view.next.begin(), view.next.end(), [&](const CheckView& c) {
    return c.check == state.check && c.place == state.place;
  });
  if (picked != view.next.end()) {
    return &*picked;
  }
  return view.next.empty() || state.set_answers ? nullptr : &view.next.front();
}

void turn_to_check(ProbeState& state, const CheckView* check) {
  const std::string now = check == nullptr ? "" : check->check + '@' + check->place;
  if (now.empty() || now == state.typed_for) {
    return;
  }
  ReadingFormState& form = state.reading;
  if (!state.typed_for.empty()) {
    TypedAtCheck& left = state.typed_at[state.typed_for];
    left = {std::exchange(state.remark, {}),   std::exchange(state.part, {}),
            std::exchange(state.print, {}),    std::exchange(form.figure, {}),
            std::exchange(form.limit, {}),     std::exchange(form.beside, {}),
            std::exchange(form.test_volts, {})};
    form.fault.clear();
    state.print_fault.clear();
  }
  if (const auto here = state.typed_at.find(now); here != state.typed_at.end()) {
    const TypedAtCheck& typed = here->second;
    state.remark = typed.remark;
    state.part = typed.part;
    state.print = typed.print;
    form.figure = typed.figure;
    form.limit = typed.limit;
    form.beside = typed.beside;
    form.test_volts = typed.test_volts;
    state.typed_at.erase(here);
  }
  state.typed_for = now;
}

void draw_probe(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
                ProbeState& state, CommandQueue& queue) {
  const CheckView* check = check_in_hand(view, state);
  turn_to_check(state, check);
  if (view.next.empty()) {
    draw_nothing_left(sheet, view, queue);
  } else {
    if (check == nullptr) {
      say(sheet, Face::heading, sheet.theme.ink, "Which check would you make?");
    } else {
      draw_check(sheet, view, *check, catalogue, state, queue);
      draw_choices(sheet, *check, state, queue);
    }
    draw_alternatives(sheet, view, check, state, queue);
  }
  draw_declined(sheet, view, queue);
}

}  // namespace dryout::window
