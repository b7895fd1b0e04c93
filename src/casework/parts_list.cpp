#include "casework/parts_list.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "casework/set_stock.h"
#include "casework/wording.h"
#include "knowledge/mains_side.h"
#include "knowledge/rail_peak.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

using decision::PartNeed;
using decision::Substitute;

std::string board_of(const CaseInHand& hand, std::size_t item) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const auto* board = knowledge::find(hand.ground.equipment->boards,
                                      hand.ground.equipment->blocks.at(compiled.block).board);
  return board == nullptr ? "" : mid_sentence(board->title);
}

bool has_hazard(const knowledge::Equipment& equipment, const char* id) {
  return std::find(equipment.hazards.begin(), equipment.hazards.end(), id) !=
         equipment.hazards.end();
}

/// From the mains side of a switcher to its output, not to the metal of the case.
bool crosses_to_the_output(const knowledge::Equipment& equipment,
                           const knowledge::PartGroup& group) {
  const auto* rail = knowledge::find(equipment.rails, group.rail);
  return rail != nullptr && rail->kind == "primary";
}

/// The parts of a group from the mains to metal: those with a name by their marks, the others by
/// what is typical.
void add_bridging(const knowledge::PartGroup& group, const std::vector<NamePart>& parts,
                  std::vector<quantities::Farad>& bridging) {
  int named = 0;
  for (const NamePart& part : parts) {
    if (part.group == group.id) {
      bridging.push_back(part.capacitance.value_or(group.capacitance));
      ++named;
    }
  }
  bridging.insert(bridging.end(), static_cast<std::size_t>(std::max(0, group.count - named)),
                  group.capacitance);
}

/// The others that whoever touches the metal has through him as well, beside one of `own`.
std::vector<quantities::Farad> bridging_beside(const knowledge::Equipment& equipment,
                                               const knowledge::PartGroup& group,
                                               const std::vector<NamePart>& parts,
                                               quantities::Farad own) {
  std::vector<quantities::Farad> bridging;
  if (group.role != "mains-y") {
    return bridging;
  }
  for (const knowledge::PartGroup& other : equipment.groups) {
    if (other.role == "mains-y" &&
        crosses_to_the_output(equipment, other) == crosses_to_the_output(equipment, group)) {
      add_bridging(other, parts, bridging);
    }
  }
  const auto self = std::find(bridging.begin(), bridging.end(), own);
  if (self != bridging.end()) {
    bridging.erase(self);
  }
  return bridging;
}

/// The rail that it stands on, and the mains that the set is made for.
void set_surroundings(const knowledge::Equipment& equipment, const knowledge::PartGroup& group,
                      PartNeed& need) {
  if (const auto* rail = knowledge::find(equipment.rails, group.rail)) {
    need.rail_kind = rail->kind;
    need.rail_volts = quantities::Volt(std::abs(rail->volts));
  }
  const auto mains = std::find_if(equipment.rails.begin(), equipment.rails.end(),
                                  [](const auto& rail) { return rail.kind == "mains"; });
  if (mains != equipment.rails.end() && mains->volts > 0.0) {
    need.mains.volts = quantities::Volt(mains->volts);
  }
  need.behind_valve_rectifier = rectifier_valve_of(equipment) != nullptr;
  need.on_the_mains = knowledge::is_on_the_mains(equipment, group);
  need.live_chassis = has_hazard(equipment, "live-chassis");
  need.earthed = has_hazard(equipment, "protective-earth");
  const knowledge::HighTensionAt high = knowledge::high_tension_at(equipment, group);
  need.unloaded_peak = high.peak;
  need.bias_volts = high.bias;
}

PartNeed need_of(const CaseInHand& hand, std::size_t item) {
  const knowledge::PartGroup& group = *hand.ground.group_of(item);
  PartNeed need = need_of_group(*hand.ground.equipment, group, technology_of_item(hand, item));
  need.reference = hand.ground.compiled.items[item].title;
  need.board = board_of(hand, item);
  need.count = count_of(hand, item);
  if (const NamePart* part = named_part(hand.ground, hand.state, item)) {
    need.capacitance = part->capacitance.value_or(need.capacitance);
    need.rated = part->rated.value_or(need.rated);
    if (const auto body = decision::parse_old_body(part->body)) {
      need.body = *body;
    }
  }
  need.bridging_beside =
      bridging_beside(*hand.ground.equipment, group, hand.state.parts, need.capacitance);
  return need;
}

/// What is no capacitor; nothing where its remedy buys nothing.
std::optional<PartNeed> remedy_need(const CaseInHand& hand, std::size_t item,
                                    const decision::MendingRules& rules) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const decision::Remedy* remedy = rules.remedy_for(compiled.cause);
  if (remedy == nullptr || remedy->buy.empty()) {
    return {};
  }
  PartNeed need;
  need.reference = compiled.title;
  need.board = board_of(hand, item);
  need.other = remedy->buy;
  need.other_why = {remedy->because};
  if (!remedy->look_at.empty()) {
    need.other_look_at = {remedy->look_at};
  }
  return need;
}

std::string life_text(double hours) { return quantities::whole_number(hours) + " h"; }

std::string part_text(const CaseInHand& hand, const Substitute& part) {
  if (!part.other.empty()) {
    return part.other;
  }
  const auto* technology = knowledge::find(hand.ground.knowledge->technologies, part.technology);
  std::string text = part.capacitance > quantities::Farad(0)
                         ? decision::buyers_value(part.capacitance)
                         : "value as the old part";
  text += part.rated > quantities::Volt(0)
              ? ' ' + quantities::format(part.rated) + (part.certified ? " a.c." : "")
              : ", volts as the old part";
  text += decision::ac_text(part);
  text += part.temperature_min ? ' ' + quantities::format(*part.temperature_min) : "";
  text += technology == nullptr ? "" : ' ' + mid_sentence(technology->title);
  text += part.pulse_rated ? ", pulse-rated" : "";
  text += part.life_hours_min ? ", " + life_text(*part.life_hours_min) : "";
  text += part.esr == "low" ? ", low ESR" : part.esr.empty() ? "" : ", ESR as the old part";
  text += part.ripple_min ? ", ripple at least " + quantities::format(*part.ripple_min) : "";
  text += part.body.empty() ? "" : ", " + part.body;
  return text + (part.certified ? part.safety_class.empty()
                                      ? ", certified"
                                      : ", class " + part.safety_class + ", certified"
                                : "");
}

std::vector<std::string> reasons_of(const Substitute& part,
                                    const decision::SubstitutionRules& rules) {
  std::vector<std::string> reasons;
  for (const decision::SubstitutionRule& rule : rules.rules) {
    if (std::find(part.rules.begin(), part.rules.end(), rule.id) != part.rules.end()) {
      reasons.push_back(rule.title + ": " + rule.because);
    }
  }
  reasons.insert(reasons.end(), part.why.begin(), part.why.end());
  return reasons;
}

}  // namespace

const knowledge::Block* rectifier_valve_of(const knowledge::Equipment& equipment) {
  const auto feeds_rectifier = [&](const std::string& to) {
    const auto* next = knowledge::find(equipment.blocks, to);
    return next != nullptr && next->kind == "rectifier";
  };
  const auto found = std::find_if(
      equipment.blocks.begin(), equipment.blocks.end(), [&](const knowledge::Block& block) {
        return block.kind == "valve" &&
               std::any_of(block.signal_to.begin(), block.signal_to.end(), feeds_rectifier);
      });
  return found == equipment.blocks.end() ? nullptr : &*found;
}

PartNeed need_of_group(const knowledge::Equipment& equipment, const knowledge::PartGroup& group,
                       const std::string& technology) {
  PartNeed need;
  need.reference = group.title;
  need.role = group.role;
  need.technology = technology;
  need.capacitance = group.capacitance;
  need.rated = group.rated;
  need.count = group.count;
  set_surroundings(equipment, group, need);
  need.bridging_beside = bridging_beside(equipment, group, {}, group.capacitance);
  return need;
}

PartsList parts_list_of(const CaseInHand& hand, const std::vector<std::size_t>& items,
                        const MendingKnowledge& knowledge) {
  std::vector<PartNeed> needs;
  PartsList list;
  for (const std::size_t item : items) {
    if (!is_capacitor(hand.ground.compiled.items[item])) {
      if (auto need = remedy_need(hand, item, knowledge.rules)) {
        needs.push_back(std::move(*need));
      }
      continue;
    }
    needs.push_back(need_of(hand, item));
    const bool known =
        needs.back().capacitance > quantities::Farad(0) && needs.back().rated > quantities::Volt(0);
    if (!known) {
      list.notices.push_back("Read value and volts of " + mid_sentence(needs.back().reference) +
                             " off the part before you order.");
    }
  }
  const auto lines = decision::shopping_list(needs, knowledge.substitution);
  for (const decision::ShoppingLine& line : lines) {
    list.rows.push_back({part_text(hand, line.part), line.needed, line.spares, line.for_parts,
                         reasons_of(line.part, knowledge.substitution), line.look_at});
  }
  list.csv = decision::to_csv(lines);
  return list;
}

}  // namespace dryout::casework
