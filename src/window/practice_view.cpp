#include "window/practice_view.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

#include "window/drawing.h"
#include "window/symptom_search.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::PracticeTally;
using casework::PracticeView;
using casework::PracticeWay;

constexpr const char* play_only =
    "This is play. On a real set the cautions come first, and local codes and licensed practice "
    "before them.";

/// 0 = any set; none where the text is not a number of a set.
std::optional<std::uint64_t> seed_of(const std::string& text) {
  std::uint64_t seed = 0;
  const char* end = text.data() + text.size();
  const auto [stop, fault] = std::from_chars(text.data(), end, seed);
  const bool read = fault == std::errc() && stop == end && seed > 0;
  return text.empty() ? std::optional<std::uint64_t>(0)
         : read       ? std::optional<std::uint64_t>(seed)
                      : std::nullopt;
}

void start(PracticeState& state, CommandQueue& queue) {
  const std::optional<std::uint64_t> seed = seed_of(state.seed);
  state.fault = state.equipment.empty() ? "Pick a kind of equipment below."
                : !seed ? "The number of a set is a whole number above 0, or empty for any set."
                        : "";
  if (state.fault.empty()) {
    queue.push(StartPractice{state.equipment, *seed});
  }
}

void draw_steps(const Sheet& sheet, const PracticeWay& way) {
  if (way.steps.empty()) {
    say(sheet, Face::note, sheet.theme.faint, "Nothing was done.");
  }
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    say(sheet, Face::note, sheet.theme.ink,
        std::to_string(i + 1) + "  " + way.steps[i].text + "  (" +
            quantities::format_duration(way.steps[i].spent) + ')');
  }
}

/// One way as a bar of its minutes and its counts.
void draw_way(const Sheet& sheet, const std::string& who, const PracticeWay& way,
              quantities::Second longest) {
  const PracticeTally& tally = way.tally;
  say(sheet, Face::strong, sheet.theme.ink, who);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const std::string minutes = quantities::format_duration(tally.spent);
  const float words = width_of(sheet, Face::figure_note, minutes) + sheet.px(10);
  const auto share = static_cast<float>(tally.spent.si() / std::max(1.0, longest.si()));
  const Box bar{at.x, at.y, at.x + (width - words) * share, at.y + sheet.px(16)};
  fill(sheet, bar, tally.cured ? sheet.theme.ink : sheet.theme.card);
  outline(sheet, bar, sheet.theme.ink);
  write(sheet, Face::figure_note, sheet.theme.ink, bar.right + sheet.px(8), at.y, minutes);
  ImGui::Dummy(ImVec2(width, sheet.px(18)));
  const std::pair<const char*, std::string> rows[] = {
      {"Wrong replacements", std::to_string(tally.needless)},
      {"Mended in all", std::to_string(tally.mended)},
      {"Checks made", std::to_string(tally.checks)},
      {"of them dangerous", std::to_string(tally.dangerous_checks)},
      {"The complaint", tally.cured ? "gone" : "still there"}};
  for (const auto& [word, figure] : rows) {
    const ImVec2 row = ImGui::GetCursorScreenPos();
    write(sheet, Face::text, sheet.theme.faint, row.x, row.y, word);
    write(sheet, Face::text, sheet.theme.ink, row.x + std::min(sheet.px(190), width * 0.62F), row.y,
          figure);
    ImGui::Dummy(ImVec2(width, sheet.px(20)));
  }
  gap(sheet, 2);
  draw_steps(sheet, way);
}

void draw_side_by_side(const Sheet& sheet, const PracticeView& practice) {
  const quantities::Second longest =
      std::max(practice.yours.tally.spent, practice.expert.tally.spent);
  // A table of the library: two columns that wrap their words each for itself.
  if (ImGui::BeginTable("ways", 2)) {
    ImGui::TableNextColumn();
    draw_way(sheet, "You", practice.yours, longest);
    ImGui::TableNextColumn();
    draw_way(sheet, "By the program's advice", practice.expert, longest);
    ImGui::EndTable();
  }
}

void draw_end(Sheet& sheet, const PracticeView& practice, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink,
      practice.gave_up ? "What it was" : "The complaint is gone");
  for (const std::string& fault : practice.faults) {
    say(sheet, Face::strong, sheet.theme.ink, "\u00b7 " + fault);
  }
  gap(sheet, 2);
  if (!practice.compared) {
    const std::size_t steps = practice.expert.steps.size();
    say(sheet, Face::text, sheet.theme.faint,
        "The advice is at work on the same set: " + std::to_string(steps) +
            (steps == 1 ? " step so far." : " steps so far."));
    queue.push(FollowAdvice{});
  }
  for (const std::string& line : practice.comparison) {
    say(sheet, Face::text, sheet.theme.ink, line);
  }
  gap(sheet, 4);
  if (button(sheet, "practice/another", "Another set of this kind", {.weight = Weight::next})) {
    queue.push(StartPractice{practice.equipment, 0});
  }
  if (flow_button(sheet, "practice/again", "The same set again", {})) {
    queue.push(StartPractice{practice.equipment, practice.seed});
  }
  if (flow_button(sheet, "practice/leave", "Leave practice", {.weight = Weight::quiet})) {
    queue.push(LeavePractice{});
  }
  section(sheet, "The two ways");
  draw_side_by_side(sheet, practice);
}

void draw_exits(Sheet& sheet, CommandQueue& queue) {
  if (button(sheet, "practice/hint", "A hint: what we would check",
             {.key = U'h', .face = Face::note})) {
    queue.push(AskHint{});
  }
  if (flow_button(sheet, "practice/give-up", "Give up and see", {.face = Face::note})) {
    queue.push(GiveUpPractice{});
  }
  if (flow_button(sheet, "practice/leave", "Leave practice",
                  {.weight = Weight::quiet, .face = Face::note})) {
    queue.push(LeavePractice{});
  }
}

std::string so_far(const PracticeTally& tally) {
  return quantities::format_duration(tally.spent) + " so far, " + std::to_string(tally.checks) +
         (tally.checks == 1 ? " check, " : " checks, ") + std::to_string(tally.mended) + " mended";
}

}  // namespace

void draw_practice_start(Sheet& sheet, const casework::Catalogue& catalogue, PracticeState& state,
                         CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Practice");
  say(sheet, Face::text, sheet.theme.ink,
      "A set with hidden faults is drawn from what the program knows. You hear the complaint, "
      "choose what to probe and what to mend; minutes and wrong replacements are counted. At the "
      "end you see what it was and where the program's advice would have gone. Nothing of it is "
      "kept.");
  say(sheet, Face::note, sheet.theme.faint, play_only);
  bool begin = field(sheet, "practice/seed", "Number of the set (the same number, the same set)",
                     state.seed, {"empty: any set", sheet.px(300)});
  gap(sheet, 4);
  begin |= button(sheet, "practice/start", "Draw me a set", {.weight = Weight::next});
  if (!state.fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, state.fault);
  }
  section(sheet, "Which kind of equipment");
  field(sheet, "practice/search", "", state.search, {"type to narrow the list"});
  for (const casework::EquipmentChoice& choice : catalogue.equipment) {
    if (words_matched(state.search, choice.title + ' ' + choice.family) > 0 &&
        button(sheet, "practice/equipment/" + choice.id, choice.title,
               {.weight = choice.id == state.equipment ? Weight::chosen : Weight::plain,
                .width = ImGui::GetContentRegionAvail().x})) {
      state.equipment = choice.id;
      state.fault.clear();
    }
  }
  if (begin) {
    start(state, queue);
  }
}

void draw_practice(Sheet& sheet, const PracticeView& practice, CommandQueue& queue) {
  if (practice.over) {
    draw_end(sheet, practice, queue);
    return;
  }
  say(sheet, Face::heading, sheet.theme.ink, "Set " + std::to_string(practice.seed));
  say(sheet, Face::text, sheet.theme.faint, practice.equipment_title + ". The owner says:");
  for (const std::string& complaint : practice.complaint) {
    say(sheet, Face::strong, sheet.theme.ink, "\u00b7 " + complaint);
  }
  gap(sheet, 4);
  if (button(sheet, "practice/probe", "Choose a check", {.weight = Weight::next})) {
    queue.push(GoTo{Station::probe});
  }
  if (flow_button(sheet, "practice/suspects", "Suspects, and mending them", {})) {
    queue.push(GoTo{Station::suspects});
  }
  gap(sheet, 2);
  draw_exits(sheet, queue);
  section(sheet, so_far(practice.yours.tally));
  draw_steps(sheet, practice.yours);
  gap(sheet, 6);
  say(sheet, Face::note, sheet.theme.faint, play_only);
}

void draw_practice_column(Sheet& sheet, const PracticeView& practice, CommandQueue& queue) {
  say(sheet, Face::strong, sheet.theme.ink, "Practice");
  say(sheet, Face::note, sheet.theme.ink, so_far(practice.yours.tally));
  gap(sheet, 4);
  say(sheet, Face::note, sheet.theme.faint, "The owner says:");
  for (const std::string& complaint : practice.complaint) {
    say(sheet, Face::text, sheet.theme.ink, complaint);
  }
  gap(sheet, 6);
  draw_exits(sheet, queue);
  gap(sheet, 6);
  draw_steps(sheet, practice.yours);
}

}  // namespace dryout::window
