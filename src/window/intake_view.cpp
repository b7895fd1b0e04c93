#include "window/intake_view.h"

#include <imgui.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "window/caution_panel.h"
#include "window/symptom_search.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

std::optional<int> year_of(const std::string& text) {
  int year = 0;
  const char* end = text.data() + text.size();
  const auto [stop, fault] = std::from_chars(text.data(), end, year);
  return fault == std::errc() && stop == end ? std::optional<int>(year) : std::nullopt;
}

/// The intake as the form stands; says in `state.fault` what is missing.
std::optional<casework::TakeIn> intake_of(IntakeState& state) {
  state.fault.clear();
  if (state.equipment.empty()) {
    state.fault = "Pick the nearest kind of equipment: everything else follows from it.";
    return std::nullopt;
  }
  const std::optional<int> year = year_of(state.year);
  if (!state.year.empty() && !year) {
    state.fault = "The year of building is a number such as 1978, or empty when unknown.";
    return std::nullopt;
  }
  return casework::TakeIn{state.equipment, state.set_name, year, state.owner, state.complaint};
}

const casework::EquipmentChoice* choice_of(const casework::Catalogue& catalogue,
                                           const std::string& id) {
  const auto& choices = catalogue.equipment;
  const auto found =
      std::find_if(choices.begin(), choices.end(),
                   [&id](const casework::EquipmentChoice& choice) { return choice.id == id; });
  return found == choices.end() ? nullptr : &*found;
}

int words_of_kind(const casework::EquipmentChoice& choice, const std::string& search) {
  return words_matched(search, choice.title + ' ' + choice.family);
}

/// How many of the words that were typed the best of all kinds has.
int most_words(const casework::Catalogue& catalogue, const std::string& search) {
  int most = 0;
  for (const casework::EquipmentChoice& choice : catalogue.equipment) {
    most = std::max(most, words_of_kind(choice, search));
  }
  return most;
}

void choose(const casework::EquipmentChoice& choice, IntakeState& state) {
  state.equipment = choice.id;
  state.search.clear();
  state.fault.clear();
}

/// The kind by its words: Enter takes the first that has most of them, and goes on to the button.
void draw_kind(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state,
               const std::string& next_button, float width) {
  if (!field(sheet, "intake/search", "Nearest kind of equipment", state.search,
             {"some of its words", width})) {
    return;
  }
  const auto& choices = catalogue.equipment;
  const int most = most_words(catalogue, state.search);
  const auto best =
      std::find_if(choices.begin(), choices.end(), [&](const casework::EquipmentChoice& choice) {
        return words_of_kind(choice, state.search) == most;
      });
  if (!state.search.empty() && most > 0) {
    choose(*best, state);
  }
  if (!state.equipment.empty() && state.search.empty()) {
    sheet.items.focus_on(next_button);
  }
}

/// What the words sound like, where there is a reader of them.
void draw_said(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state,
               const std::vector<std::string>& told) {
  if (catalogue.complaint_reader == nullptr) {
    return;
  }
  const complaints::Beside beside{state.equipment, year_of(state.year)};
  if (const std::string kind = draw_proposals(sheet, *catalogue.complaint_reader, state.complaint,
                                              beside, told, state.proposals);
      !kind.empty()) {
    state.equipment = kind;
    state.fault.clear();
  }
}

/// `told`: the symptoms that are noted already.
bool draw_lines(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state,
                const std::string& next_button, const std::vector<std::string>& told) {
  const float whole = ImGui::GetContentRegionAvail().x;
  const float half = (whole - sheet.px(8)) / 2;
  bool done = false;
  done |= field(sheet, "intake/set", "Set, as the label says", state.set_name,
                {"maker and model", half});
  ImGui::SameLine();
  done |= field(sheet, "intake/year", "Built in", state.year, {"year, if known", half});
  done |= field(sheet, "intake/complaint", "What the owner says", state.complaint,
                {"in the owner's own words"});
  draw_said(sheet, catalogue, state, told);
  done |= field(sheet, "intake/owner", "Owner", state.owner, {"name or ticket", half});
  ImGui::SameLine();
  draw_kind(sheet, catalogue, state, next_button, half);
  if (const auto* chosen = choice_of(catalogue, state.equipment)) {
    say(sheet, Face::note, sheet.theme.ink, "Kind: " + chosen->title);
  }
  return done;
}

void draw_equipment(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state) {
  section(sheet, "Kinds of equipment");
  const int most = most_words(catalogue, state.search);
  std::string family;
  bool any = false;
  for (const casework::EquipmentChoice& choice : catalogue.equipment) {
    if (most == 0 || words_of_kind(choice, state.search) < most) {
      continue;
    }
    any = true;
    if (choice.family != family) {
      family = choice.family;
      say(sheet, Face::note, sheet.theme.faint, capitalised(family));
    }
    const bool chosen = choice.id == state.equipment;
    if (button(sheet, "intake/equipment/" + choice.id, choice.title,
               {.weight = chosen ? Weight::chosen : Weight::plain,
                .width = ImGui::GetContentRegionAvail().x})) {
      choose(choice, state);
    }
    if (chosen && !choice.because.empty()) {
      say(sheet, Face::note, sheet.theme.faint, choice.because);
    }
  }
  if (!any) {
    say(sheet, Face::text, sheet.theme.faint,
        catalogue.equipment.empty() ? "The knowledge that was loaded names no equipment."
                                    : "No kind of equipment has these words.");
  }
}

void draw_fault(Sheet& sheet, const IntakeState& state) {
  if (!state.fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, state.fault);
  }
}

void fill_from(const casework::CaseView& view, IntakeState& state) {
  PartsListState parts = std::move(state.parts);  // a file dropped just now stays
  state = {};
  state.parts = std::move(parts);
  state.of_case = view.number;
  state.set_name = view.set_name;
  state.owner = view.owner;
  state.complaint = view.complaint;
  state.equipment = view.equipment;
  state.year = view.year_built ? std::to_string(*view.year_built) : "";
}

std::vector<std::string> told_symptoms(const casework::CaseView& view) {
  std::vector<std::string> told;
  for (const casework::SymptomView& symptom : view.symptoms) {
    if (!symptom.seen.empty()) {
      told.push_back(symptom.id);
    }
  }
  return told;
}

void draw_access(Sheet& sheet, const casework::CaseView& view, CommandQueue& queue) {
  if (view.access.empty()) {
    return;
  }
  section(sheet, "Opened so far");
  bool begun = false;
  for (const casework::AccessView& access : view.access) {
    const std::string name = "access/" + access.id;
    const std::string label = (access.open ? "Open: " : "Closed: ") + access.title + " (" +
                              quantities::format_duration(access.effort) + ")";
    const ButtonLook look{.weight = access.open ? Weight::chosen : Weight::plain};
    if (row_button(sheet, begun, name, label, look)) {
      if (access.open) {
        queue.push(casework::CloseAccess{access.id});
      } else {
        queue.push(casework::OpenAccess{access.id});
      }
    }
  }
}

}  // namespace

void draw_new_case(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state,
                   CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "A set comes in");
  bool done = draw_lines(sheet, catalogue, state, "intake/take-in", {});
  gap(sheet, 6);
  done |= button(sheet, "intake/take-in", "Take it in", {.weight = Weight::next});
  if (flow_button(sheet, "intake/back", "Back to the cases", {.weight = Weight::quiet})) {
    queue.push(GoTo{Station::cases});
  }
  draw_fault(sheet, state);
  draw_parts_list(sheet, "intake/parts", state.equipment, state.parts, queue);
  draw_equipment(sheet, catalogue, state);
  if (done) {
    if (std::optional<casework::TakeIn> intake = intake_of(state)) {
      StartCase start{*intake};
      for (const std::string& symptom : state.proposals.taken) {
        start.then.emplace_back(casework::ReportSymptom{symptom, casework::Seen::yes});
      }
      queue.push(std::move(start));
    }
  }
}

void draw_intake(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
                 IntakeState& state, CommandQueue& queue) {
  if (state.of_case != view.number) {
    fill_from(view, state);
  }
  say(sheet, Face::heading, sheet.theme.ink, "Taken in");
  for (const casework::CautionView& hazard : view.hazards) {
    draw_caution(sheet, hazard);
  }
  bool done = draw_lines(sheet, catalogue, state, "intake/correct", told_symptoms(view));
  for (const std::string& symptom : std::exchange(state.proposals.taken, {})) {
    queue.push(casework::ReportSymptom{symptom, casework::Seen::yes});
  }
  gap(sheet, 6);
  done |= button(sheet, "intake/correct", "Keep these corrections");
  if (flow_button(sheet, "intake/symptoms", "On to the symptoms", {.weight = Weight::next})) {
    queue.push(GoTo{Station::symptoms});
  }
  draw_fault(sheet, state);
  draw_access(sheet, view, queue);
  draw_parts_list(sheet, "intake/parts", state.equipment, state.parts, queue);
  draw_equipment(sheet, catalogue, state);
  if (done) {
    if (std::optional<casework::TakeIn> intake = intake_of(state)) {
      queue.push(*intake);
    }
  }
}

}  // namespace dryout::window
