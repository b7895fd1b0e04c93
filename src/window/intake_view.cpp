#include "window/intake_view.h"

#include <imgui.h>

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

bool draw_lines(Sheet& sheet, IntakeState& state) {
  const float whole = ImGui::GetContentRegionAvail().x;
  const float half = (whole - sheet.px(8)) / 2;
  bool done = false;
  done |= field(sheet, "intake/set", "Set, as the label says", state.set_name,
                {"maker and model", half});
  ImGui::SameLine();
  done |= field(sheet, "intake/year", "Built in", state.year, {"year, if known", half});
  done |= field(sheet, "intake/complaint", "What the owner says", state.complaint,
                {"in the owner's own words"});
  done |= field(sheet, "intake/owner", "Owner", state.owner, {"name or ticket", half});
  return done;
}

void draw_equipment(Sheet& sheet, const casework::Catalogue& catalogue, IntakeState& state) {
  section(sheet, "Nearest kind of equipment");
  field(sheet, "intake/search", "", state.search, {"type to narrow the list"});
  gap(sheet, 4);
  std::string family;
  bool any = false;
  for (const casework::EquipmentChoice& choice : catalogue.equipment) {
    if (words_matched(state.search, choice.title + ' ' + choice.family) == 0) {
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
      state.equipment = choice.id;
      state.fault.clear();
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
  bool done = draw_lines(sheet, state);
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
      queue.push(StartCase{*intake});
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
  bool done = draw_lines(sheet, state);
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
