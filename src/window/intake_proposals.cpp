#include "window/intake_proposals.h"

#include <algorithm>

#include "complaints/where_words.h"
#include "quantities/holds.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using quantities::holds;

constexpr std::size_t symptoms_most = 5;
constexpr std::size_t kinds_most = 3;
constexpr std::size_t elsewhere_most = 2;

void listen(const complaints::ComplaintReader& reader, const std::string& said,
            const complaints::Beside& beside, ProposalsState& state) {
  const std::string asked =
      said + '\n' + beside.equipment + '\n' + (beside.year ? std::to_string(*beside.year) : "");
  if (asked != state.heard_for) {
    state.heard_for = asked;
    state.heard = reader.read(said, beside);
  }
}

void take_or_leave(const std::string& id, std::vector<std::string>& taken) {
  if (holds(taken, id)) {
    std::erase(taken, id);
  } else {
    taken.push_back(id);
  }
}

void draw_symptoms_heard(Sheet& sheet, const std::vector<std::string>& told,
                         ProposalsState& state) {
  bool begun = false;
  std::size_t shown = 0;
  bool key_waits = sheet.keys.take(Key::take_proposal);
  for (const complaints::HeardSymptom& symptom : state.heard.symptoms) {
    if (holds(told, symptom.id)) {
      continue;
    }
    if (shown == symptoms_most) {
      break;
    }
    if (shown++ == 0) {
      const std::string where = complaints::told(symptom.where);
      say(sheet, Face::note, sheet.theme.faint,
          "Sounds like (Ctrl T takes the first that is not taken)" +
              (where.empty() ? ":" : ", " + where + ":"));
    }
    const bool taken = holds(state.taken, symptom.id);
    const bool by_key = key_waits && !taken;
    if (row_button(sheet, begun, "intake/symptom/" + symptom.id,
                   (taken ? "Taken: " : "") + symptom.title,
                   {.weight = taken ? Weight::chosen : Weight::plain, .face = Face::note}) ||
        by_key) {
      take_or_leave(symptom.id, state.taken);
      key_waits = key_waits && !by_key;
    }
  }
}

std::string draw_kinds_heard(Sheet& sheet, const complaints::Heard& heard) {
  std::string pressed;
  bool begun = false;
  for (std::size_t i = 0; i < std::min(kinds_most, heard.equipment.size()); ++i) {
    const complaints::HeardEquipment& kind = heard.equipment[i];
    if (row_button(sheet, begun, "intake/kind/" + kind.id, "Likely: " + kind.title,
                   {.weight = Weight::quiet, .face = Face::note})) {
      pressed = kind.id;
    }
  }
  return pressed;
}

}  // namespace

std::string draw_proposals(Sheet& sheet, const complaints::ComplaintReader& reader,
                           const std::string& said, const complaints::Beside& beside,
                           const std::vector<std::string>& told, ProposalsState& state) {
  listen(reader, said, beside, state);
  std::erase_if(state.taken, [&](const std::string& id) { return holds(told, id); });
  draw_symptoms_heard(sheet, told, state);
  for (std::size_t i = 0; i < std::min(elsewhere_most, state.heard.elsewhere.size()); ++i) {
    const complaints::HeardElsewhere& each = state.heard.elsewhere[i];
    say(sheet, Face::note, sheet.theme.ink,
        "Perhaps nothing for this program: " + each.title + ". " + each.advice);
  }
  return beside.equipment.empty() ? draw_kinds_heard(sheet, state.heard) : "";
}

}  // namespace dryout::window
