#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/suspects_view.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::EvidenceLine;
using casework::JudgeSuspect;
using casework::SuspectView;

void draw_states(const Sheet& sheet, const SuspectView& suspect) {
  section(sheet, "How it could stand");
  const float width = ImGui::GetContentRegionAvail().x;
  const float words = std::min(sheet.px(190), width * 0.5F);
  const float number = width_of(sheet, Face::figure_note, "> 99 %") + sheet.px(8);
  for (const casework::StateShare& share : suspect.states) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float high = write_wrapped(sheet, Face::text, sheet.theme.ink, at.x, at.y,
                                     words - sheet.px(8), share.title);
    const Box bar{at.x + words, at.y + sheet.px(4), at.x + width - number, at.y + sheet.px(16)};
    fill(sheet, bar, sheet.theme.card);
    Box part = bar;
    part.right = bar.left + bar.width() * static_cast<float>(share.probability.value());
    const bool sound = share.state == "sound";
    fill(sheet, part, sound ? sheet.theme.clears.faded(120) : sheet.theme.accuses.faded(120));
    outline(sheet, bar, sheet.theme.line);
    write(sheet, Face::figure_note, sheet.theme.ink, bar.right + sheet.px(8), at.y + sheet.px(2),
          percent(share.probability));
    ImGui::Dummy(ImVec2(width, std::max(high, sheet.px(22))));
  }
}

void draw_practice_mending(Sheet& sheet, const SuspectView& suspect, CommandQueue& queue) {
  section(sheet, "In practice");
  if (!suspect.mended.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "You have mended it.");
    return;
  }
  if (button(sheet, "practice/mend", "Mend it and try the set", {.weight = Weight::next})) {
    queue.push(casework::RecordRepair{suspect.item, suspect.capacitor ? "replaced" : "mended", ""});
  }
}

void judge_button(Sheet& sheet, const SuspectView& suspect, const char* name, const char* label,
                  const char* judged, JudgeSuspect::Verdict verdict, CommandQueue& queue) {
  const Weight weight = suspect.judged == judged ? Weight::chosen : Weight::plain;
  const ButtonLook look{.weight = weight, .face = Face::note};
  if (verdict == JudgeSuspect::Verdict::at_fault ? button(sheet, name, label, look)
                                                 : flow_button(sheet, name, label, look)) {
    queue.push(JudgeSuspect{suspect.item, verdict});
  }
}

void draw_judgement(Sheet& sheet, const SuspectView& suspect, CommandQueue& queue) {
  section(sheet, "Your word over the figures");
  judge_button(sheet, suspect, "judge/at-fault", "It is at fault", "at-fault",
               JudgeSuspect::Verdict::at_fault, queue);
  judge_button(sheet, suspect, "judge/cleared", "It is innocent", "cleared",
               JudgeSuspect::Verdict::cleared, queue);
  judge_button(sheet, suspect, "judge/open", "Leave it open", "", JudgeSuspect::Verdict::open,
               queue);
}

template <class Value>
bool read_into(const std::string& text, quantities::Measure measure, std::optional<Value>& value,
               std::string& fault) {
  if (text.empty()) {
    return true;
  }
  const auto parsed = quantities::parse_measure(text, measure);
  if (!parsed) {
    fault = quantities::describe(parsed.problems().front());
    return false;
  }
  value = Value(*parsed);
  return true;
}

void name_part(const SuspectView& group, SuspectsState& state, CommandQueue& queue) {
  state.fault.clear();
  casework::NamePart part;
  part.reference = state.reference;
  part.group = group.item.substr(group.item.find(':') + 1);
  part.make = state.make;
  part.body = state.body;
  if (part.reference.empty()) {
    state.fault = "The printed name is missing, such as C12.";
    return;
  }
  using quantities::Measure;
  if (read_into(state.capacitance, Measure::marked_capacitance, part.capacitance, state.fault) &&
      read_into(state.rated, Measure::rated_volts, part.rated, state.fault)) {
    queue.push(part);
    state.reference.clear();
  }
}

void draw_naming(Sheet& sheet, const SuspectView& suspect, SuspectsState& state,
                 CommandQueue& queue) {
  if (suspect.kind != "group" || state.in_practice) {
    return;
  }
  section(sheet, "Name a part of this group");
  const float width = std::min(sheet.px(190), ImGui::GetContentRegionAvail().x);
  bool done = field(sheet, "part/reference", "Printed name", state.reference, {"C12", width});
  flow(sheet, width);
  done |= number_field(sheet, "part/capacitance", "Capacitance", state.capacitance,
                       range_of(quantities::Measure::marked_capacitance), {"47u", width});
  flow(sheet, width);
  done |= number_field(sheet, "part/rated", "Rated volts", state.rated,
                       range_of(quantities::Measure::rated_volts), {"25", width});
  flow(sheet, width);
  done |= field(sheet, "part/make", "Maker and series", state.make, {"as printed", width});
  flow(sheet, width);
  done |= field(sheet, "part/body", "Body", state.body, {"10x16 radial", width});
  done |= button(sheet, "part/name", "Name it", {.face = Face::note});
  if (!state.fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, state.fault);
  }
  if (done) {
    name_part(suspect, state, queue);
  }
}

/// Half the width of the balance stands for this many decibans, or for the strongest line.
constexpr double least_span = 10.0;

double span_of(const SuspectView& suspect) {
  double span = least_span;
  for (const EvidenceLine& evidence : suspect.evidence) {
    if (std::isfinite(evidence.weight.value)) {
      span = std::max(span, std::abs(evidence.weight.value));
    }
  }
  return span;
}

}  // namespace

void draw_balance(const Sheet& sheet, const SuspectView& suspect) {
  const Theme& theme = sheet.theme;
  if (suspect.evidence.empty()) {
    say(sheet, Face::text, theme.faint, "Nothing seen so far speaks for or against it.");
    return;
  }
  const float width = ImGui::GetContentRegionAvail().x;
  const float number = width_of(sheet, Face::figure_note, "rules it out") + sheet.px(8);
  const float half = (width - number) / 2;
  const double span = span_of(suspect);
  const ImVec2 head = ImGui::GetCursorScreenPos();
  write(sheet, Face::note, theme.clears, head.x, head.y, "clears it");
  const float right = head.x + 2 * half - width_of(sheet, Face::note, "accuses it");
  write(sheet, Face::note, theme.accuses, right, head.y, "accuses it");
  ImGui::Dummy(ImVec2(width, sheet.px(18)));
  for (const EvidenceLine& evidence : suspect.evidence) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float words =
        write_wrapped(sheet, Face::note, theme.ink, at.x, at.y, 2 * half, evidence.text);
    const float middle = at.x + half;
    const auto share = static_cast<float>(std::clamp(evidence.weight.value / span, -1.0, 1.0));
    const float top = at.y + words + sheet.px(2);
    const Box bar{std::min(middle, middle + half * share), top,
                  std::max(middle, middle + half * share), top + sheet.px(10)};
    const bool accuses = share > 0;
    fill(sheet, bar, accuses ? theme.accuses : theme.clears);
    line(middle, at.y + words, middle, bar.bottom + sheet.px(2), theme.faint, sheet.px(1));
    write(sheet, Face::figure_note, theme.ink, at.x + 2 * half + sheet.px(8), top - sheet.px(4),
          decibans(evidence.weight));
    ImGui::Dummy(ImVec2(width, words + sheet.px(18)));
  }
}

void draw_suspect_detail(Sheet& sheet, const casework::CaseView& view, SuspectsState& state,
                         CommandQueue& queue) {
  const SuspectView* suspect = suspect_in_hand(view, state);
  if (suspect == nullptr) {
    return;
  }
  say(sheet, Face::strong, sheet.theme.ink, suspect->title);
  say(sheet, Face::note, sheet.theme.faint,
      std::string(suspect->capacitor ? "capacitors" : "not a capacitor") +
          (suspect->block_title.empty() ? "" : " in " + suspect->block_title) +
          (suspect->board_title.empty() ? "" : ", " + suspect->board_title));
  say(sheet, Face::text, sheet.theme.ink,
      "Now " + percent(suspect->suspicion) + ", " + percent(suspect->before) +
          " before any evidence: " + decibans(suspect->weight));
  draw_states(sheet, *suspect);
  section(sheet, "Evidence, weighed");
  const Box chart = chart_begins();
  draw_balance(sheet, *suspect);
  if (button(sheet, "picture/balance", "Save the picture",
             {.weight = Weight::quiet, .key = U'p', .face = Face::note})) {
    queue.push(SaveChart{"balance"});
  }
  chart_ends(sheet, "balance", chart, queue);
  if (!suspect->paths.empty()) {
    section(sheet, "Why it would show");
    for (const std::string& path : suspect->paths) {
      say(sheet, Face::note, sheet.theme.ink, path);
    }
  }
  if (state.in_practice) {
    draw_practice_mending(sheet, *suspect, queue);
  }
  draw_judgement(sheet, *suspect, queue);
  draw_naming(sheet, *suspect, state, queue);
}

}  // namespace dryout::window
