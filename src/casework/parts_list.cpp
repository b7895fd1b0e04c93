#include "casework/parts_list.h"

#include <algorithm>
#include <cmath>

#include "casework/set_stock.h"
#include "casework/wording.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

using decision::PartNeed;
using decision::Substitute;

const NamePart* named_part(const CaseInHand& hand, std::size_t item) {
  for (const NamePart& part : hand.state.parts) {
    if (hand.ground.item("part:" + part.reference) == item) {
      return &part;
    }
  }
  return nullptr;
}

PartNeed need_of(const CaseInHand& hand, std::size_t item) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const knowledge::PartGroup& group = *hand.ground.group_of(item);
  const auto* board = knowledge::find(hand.ground.equipment->boards,
                                      hand.ground.equipment->blocks.at(compiled.block).board);
  PartNeed need;
  need.reference = compiled.title;
  need.board = board == nullptr ? "" : mid_sentence(board->title);
  need.role = group.role;
  need.technology = knowledge::technology_of(*hand.ground.knowledge, group);
  need.capacitance = group.capacitance;
  need.rated = group.rated;
  need.count = count_of(hand, item);
  if (const NamePart* part = named_part(hand, item)) {
    need.technology = part->technology.empty() ? need.technology : part->technology;
    need.capacitance = part->capacitance.value_or(need.capacitance);
    need.rated = part->rated.value_or(need.rated);
  }
  return need;
}

std::string life_text(double hours) { return quantities::whole_number(hours) + " h"; }

std::string part_text(const CaseInHand& hand, const Substitute& part) {
  const auto* technology = knowledge::find(hand.ground.knowledge->technologies, part.technology);
  std::string text = part.capacitance > quantities::Farad(0)
                         ? decision::buyers_value(part.capacitance)
                         : "value as the old part";
  text += part.rated > quantities::Volt(0)
              ? ' ' + quantities::format(part.rated) + (part.certified ? " a.c." : "")
              : ", volts as the old part";
  text += part.temperature_min ? ' ' + quantities::format(*part.temperature_min) : "";
  text += technology == nullptr ? "" : ' ' + mid_sentence(technology->title);
  text += part.life_hours_min ? ", " + life_text(*part.life_hours_min) : "";
  text += part.esr == "low" ? ", low ESR" : part.esr.empty() ? "" : ", ESR as the old part";
  return text + (part.certified ? ", certified class" : "");
}

std::vector<std::string> reasons_of(const Substitute& part,
                                    const decision::SubstitutionRules& rules) {
  std::vector<std::string> reasons;
  for (const decision::SubstitutionRule& rule : rules.rules) {
    if (std::find(part.rules.begin(), part.rules.end(), rule.id) != part.rules.end()) {
      reasons.push_back(rule.title + ": " + rule.because);
    }
  }
  return reasons;
}

}  // namespace

PartsList parts_list_of(const CaseInHand& hand, const std::vector<std::size_t>& items,
                        const decision::SubstitutionRules& rules) {
  std::vector<PartNeed> needs;
  PartsList list;
  for (const std::size_t item : items) {
    if (!is_capacitor(hand.ground.compiled.items[item])) {
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
  const auto lines = decision::shopping_list(needs, rules);
  for (const decision::ShoppingLine& line : lines) {
    list.rows.push_back({part_text(hand, line.part), line.needed, line.spares, line.for_parts,
                         reasons_of(line.part, rules), line.look_at});
  }
  list.csv = decision::to_csv(lines);
  return list;
}

}  // namespace dryout::casework
