#include "window/symptoms_view.h"

#include <imgui.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "window/drawing.h"
#include "window/symptom_place_row.h"
#include "window/symptom_search.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::Seen;
using casework::SymptomView;

/// The three answers, at the right end of the row; for the mouse. Keys act on the row itself.
void draw_answers(Sheet& sheet, const SymptomView& symptom, CommandQueue& queue) {
  struct Answer {
    const char* word;
    const char* id;
    Seen seen;
    bool given;
  };
  const Answer answers[] = {{"yes", "yes", Seen::yes, symptom.seen == "yes"},
                            {"no", "no", Seen::no, symptom.seen == "no"},
                            {"unclear", "unclear", Seen::unclear, false}};
  for (const Answer& answer : answers) {
    const std::string name = "symptom/" + symptom.id + '/' + answer.id;
    if (button(sheet, name, answer.word,
               {.weight = answer.given ? Weight::chosen : Weight::plain, .tab_stop = false})) {
      queue.push(casework::ReportSymptom{symptom.id, answer.seen});
    }
    ImGui::SameLine();
  }
}

float answers_width(const Sheet& sheet) {
  return button_width(sheet, "yes") + button_width(sheet, "no") + button_width(sheet, "unclear") +
         2 * sheet.px(8);
}

void answer_by_key(Sheet& sheet, const SymptomView& symptom, const Touch& touch,
                   CommandQueue& queue) {
  if (touch.pressed) {
    queue.push(
        casework::ReportSymptom{symptom.id, symptom.seen == "yes" ? Seen::unclear : Seen::yes});
  }
  if (!touch.focused) {
    return;
  }
  if (sheet.keys.take(U'y')) {
    queue.push(casework::ReportSymptom{symptom.id, Seen::yes});
  } else if (sheet.keys.take(U'n')) {
    queue.push(casework::ReportSymptom{symptom.id, Seen::no});
  } else if (sheet.keys.take(U'u')) {
    queue.push(casework::ReportSymptom{symptom.id, Seen::unclear});
  }
}

void draw_row(Sheet& sheet, const casework::CaseView& view, const SymptomView& symptom,
              CommandQueue& queue) {
  const Theme& theme = sheet.theme;
  const float whole = ImGui::GetContentRegionAvail().x;
  const bool stacked = whole < sheet.px(520);
  const float words_width = stacked ? whole : whole - answers_width(sheet) - sheet.px(16);
  const std::string heard =
      symptom.owner_words.empty() ? "" : "\u201c" + symptom.owner_words.front() + "\u201d";
  const float inner = words_width - sheet.px(24);
  const float title_high = wrapped_height(sheet, Face::text, inner, symptom.title);
  const float heard_high = heard.empty() ? 0 : wrapped_height(sheet, Face::note, inner, heard);
  const Touch touch = press_area(sheet, "symptom/" + symptom.id, symptom.title, words_width,
                                 title_high + heard_high + sheet.px(10));
  if (symptom.seen == "yes") {
    fill(sheet, {touch.box.left, touch.box.top, touch.box.left + sheet.px(5), touch.box.bottom},
         theme.accuses);
  }
  const float x = touch.box.left + sheet.px(14);
  write_wrapped(sheet, Face::text, theme.ink, x, touch.box.top + sheet.px(4), inner, symptom.title);
  write_wrapped(sheet, Face::note, theme.faint, x, touch.box.top + sheet.px(5) + title_high, inner,
                heard);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.hovered && !symptom.quick_test.empty()) {
    explain(sheet, "To be sure in a minute: " + symptom.quick_test);
  }
  answer_by_key(sheet, symptom, touch, queue);
  if (!stacked) {
    ImGui::SameLine(0, sheet.px(16));
  }
  draw_answers(sheet, symptom, queue);
  ImGui::NewLine();
  if (symptom.seen == "yes") {
    draw_place_row(sheet, view, symptom, touch.focused, queue);
  }
  if (touch.focused && !symptom.quick_test.empty()) {
    say(sheet, Face::note, theme.faint, "To be sure in a minute: " + symptom.quick_test);
  }
}

constexpr std::size_t guesses = 4;  ///< symptoms offered for a complaint

/// Told ones first, then those that sound like the complaint, then the rest by family. Each stands
/// once.
void draw_all(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
              CommandQueue& queue) {
  std::vector<bool> drawn(view.symptoms.size(), false);
  const auto draw = [&](std::size_t place, bool& begun, const char* title) {
    if (!std::exchange(begun, true)) {
      section(sheet, title);
    }
    drawn[place] = true;
    draw_row(sheet, view, view.symptoms[place], queue);
  };
  bool told = false;
  for (std::size_t i = 0; i < view.symptoms.size(); ++i) {
    if (!view.symptoms[i].seen.empty()) {
      draw(i, told, "Told so far");
    }
  }
  bool guessed = false;
  if (!view.complaint.empty()) {
    std::vector<std::size_t> likely = find_symptoms(view, view.complaint, catalogue);
    likely.resize(std::min(likely.size(), guesses));
    for (const std::size_t place : likely) {
      if (!drawn[place]) {
        draw(place, guessed, "Sounds like what the owner said");
      }
    }
  }
  std::string family;
  for (std::size_t i = 0; i < view.symptoms.size(); ++i) {
    if (!drawn[i]) {
      bool same = std::exchange(family, view.symptoms[i].family) == view.symptoms[i].family;
      draw(i, same, capitalised(family).c_str());
    }
  }
}

}  // namespace

bool any_symptom_told(const casework::CaseView& view) {
  return std::any_of(view.symptoms.begin(), view.symptoms.end(),
                     [](const casework::SymptomView& symptom) { return !symptom.seen.empty(); });
}

void draw_symptoms(Sheet& sheet, const casework::CaseView& view,
                   const casework::Catalogue& catalogue, SymptomsState& state,
                   CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "What does it do wrong?");
  if (!view.complaint.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "The owner said: \u201c" + view.complaint + "\u201d");
  }
  if (field(sheet, "symptoms/search", "", state.search,
            {"search in the owner's words: hums, dead, goes quiet ..."})) {
    const std::vector<std::size_t> found = find_symptoms(view, state.search, catalogue);
    if (!found.empty()) {
      sheet.items.focus_on("symptom/" + view.symptoms[found.front()].id);
    }
  }
  gap(sheet, 2);
  if (button(sheet, "symptoms/probe", "On to probing", {.weight = Weight::next, .key = U'p'})) {
    queue.push(GoTo{Station::probe});
  }
  if (!any_symptom_told(view) &&
      flow_button(sheet, "symptoms/only-old", "Nothing wrong, only old: which batches to measure",
                  {.weight = Weight::quiet, .face = Face::note})) {
    queue.push(GoTo{Station::mend});
  }
  say(sheet, Face::note, sheet.theme.faint,
      "Keys on a row: Y it does, N it does not, U can't be told. A clear no is worth as much as "
      "a yes. Where and when it does: the numbers below it; pressed once more, it is fine there.");
  const std::vector<std::size_t> found = find_symptoms(view, state.search, catalogue);
  if (state.search.empty()) {
    draw_all(sheet, view, catalogue, queue);
  } else {
    for (const std::size_t place : found) {
      draw_row(sheet, view, view.symptoms[place], queue);
    }
  }
  if (found.empty()) {
    say(sheet, Face::text, sheet.theme.faint,
        "Nothing here has these words. Try what is heard or seen rather than what is suspected.");
  }
}

}  // namespace dryout::window
