#include "window/symptom_place_row.h"

#include <algorithm>
#include <string_view>

#include "casework/located_symptoms.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::Seen;
using casework::SymptomPlace;
using casework::SymptomView;

constexpr std::size_t keys_most = 9;

SymptomPlace only(std::string_view axis, const std::string& id) {
  SymptomPlace where;
  (axis == "channel" ? where.channel
   : axis == "band"  ? where.band
   : axis == "path"  ? where.path
                     : where.source) = id;
  return where;
}

PlaceButton place_button(const SymptomView& symptom, const std::string& axis, const std::string& id,
                         const std::string& title) {
  const SymptomPlace where = only(axis, id);
  const auto told = std::find_if(
      symptom.placed.begin(), symptom.placed.end(),
      [&](const SymptomView::Answer& each) { return casework::same_place(each.where, where); });
  PlaceButton button{
      axis + '=' + id, title, told != symptom.placed.end(), {symptom.id, Seen::yes, where}};
  if (button.told && told->seen == "yes") {
    button.says.seen = Seen::no;
  } else if (button.told) {
    button.label += ": fine";
    button.says.seen = Seen::unclear;
  }
  return button;
}

/// The answer to which a condition belongs: the first that says yes.
SymptomPlace told_first(const SymptomView& symptom) {
  const auto there = std::find_if(symptom.placed.begin(), symptom.placed.end(),
                                  [](const auto& each) { return each.seen == "yes"; });
  return there == symptom.placed.end() ? SymptomPlace{} : there->where;
}

}  // namespace

std::vector<PlaceButton> place_buttons(const casework::CaseView& view, const SymptomView& symptom) {
  std::vector<PlaceButton> buttons;
  for (const casework::PlaceAxisView& axis : view.places) {
    for (const auto& choice : axis.choices) {
      buttons.push_back(place_button(symptom, axis.axis, choice.id, choice.title));
    }
  }
  const SymptomPlace now = told_first(symptom);
  const auto condition = [&](const char* name, std::string SymptomPlace::*member,
                             const std::string& word, const char* label) {
    PlaceButton button{
        std::string(name) + '=' + word, label, now.*member == word, {symptom.id, Seen::yes, now}};
    button.says.where.*member = button.told ? "" : word;
    buttons.push_back(std::move(button));
  };
  if (view.has_volume && (symptom.has_rate || symptom.family == "audio")) {
    condition("follows", &SymptomPlace::follows, "volume", "Goes down with the volume");
    condition("follows", &SymptomPlace::follows, "not", "Stays with the volume down");
  }
  if (symptom.has_rate) {
    condition("rate", &SymptomPlace::rate, "mains", "Low, at mains rate");
    condition("rate", &SymptomPlace::rate, "twice", "At twice mains rate");
  }
  condition("when", &SymptomPlace::when, "cold", "When cold");
  condition("when", &SymptomPlace::when, "warm", "When warm");
  condition("when", &SymptomPlace::when, "load", "Under load");
  return buttons;
}

void draw_place_row(Sheet& sheet, const casework::CaseView& view, const SymptomView& symptom,
                    bool focused, CommandQueue& queue) {
  bool begun = false;
  std::size_t number = 0;
  for (const PlaceButton& each : place_buttons(view, symptom)) {
    const bool has_key = ++number <= keys_most;
    const std::string label = has_key ? std::to_string(number) + ' ' + each.label : each.label;
    const bool pressed = row_button(sheet, begun, "symptom/" + symptom.id + '/' + each.id, label,
                                    {.weight = each.told ? Weight::chosen : Weight::quiet,
                                     .face = Face::note,
                                     .tab_stop = false});
    const bool by_key =
        focused && has_key && sheet.keys.take_digit(static_cast<char32_t>(U'0' + number));
    if (pressed || by_key) queue.push(each.says);
  }
}

}  // namespace dryout::window
