#include "casework/danger.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dryout::casework {
namespace {

using knowledge::CheckRule;
using planning::Danger;

constexpr std::array<std::string_view, 4> danger_words{"none", "stored-charge", "mains",
                                                       "high-tension"};

/// d.c. above this is treated as hazardous live (60 V d.c.: the limit of extra-low voltage ES1 in
/// IEC 62368-1, from memory); below it a rail is no danger of its own.
constexpr double hazardous_volts = 60.0;

/// With the set unplugged, mains is gone and what is left is charge.
Danger unplugged(Danger danger) {
  return danger == Danger::none ? Danger::none : Danger::stored_charge;
}

Danger danger_of_rail(const knowledge::Rail& rail, bool powered) {
  if (rail.kind == "mains") {
    return powered ? Danger::mains : Danger::none;
  }
  if (rail.kind == "primary") {
    return powered ? Danger::mains : Danger::stored_charge;
  }
  const bool high = rail.kind == "high-tension" || rail.kind == "extra-high-tension" ||
                    std::abs(rail.volts) > hazardous_volts;
  if (!high) {
    return Danger::none;
  }
  return powered ? Danger::high_tension : Danger::stored_charge;
}

void add(Hazard& hazard, const knowledge::Caution* caution) {
  const auto& list = hazard.cautions;
  if (caution != nullptr && std::find(list.begin(), list.end(), caution) == list.end()) {
    hazard.cautions.push_back(caution);
  }
}

/// The caution for a danger that no caution of the check speaks of: the equipment's own, else any
/// that the knowledge has.
const knowledge::Caution* caution_for(const Ground& ground, Danger danger) {
  for (const std::string& id : ground.equipment->hazards) {
    const auto* caution = knowledge::find(ground.knowledge->cautions, id);
    if (caution != nullptr && danger_of(caution->danger) == danger) {
      return caution;
    }
  }
  for (const knowledge::Caution& caution : ground.knowledge->cautions) {
    if (danger_of(caution.danger) == danger) {
      return &caution;
    }
  }
  return nullptr;
}

bool speaks_of(const Hazard& hazard, Danger danger) {
  return std::any_of(hazard.cautions.begin(), hazard.cautions.end(),
                     [&](const auto* caution) { return danger_of(caution->danger) == danger; });
}

}  // namespace

Danger danger_of(std::string_view word) {
  const auto* found = std::find(danger_words.begin(), danger_words.end(), word);
  return found == danger_words.end() ? Danger::none
                                     : static_cast<Danger>(found - danger_words.begin());
}

Whereabouts whereabouts_of(const Ground& ground, const diagnosis::CompiledFinding& finding) {
  const knowledge::Equipment& equipment = *ground.equipment;
  Whereabouts where;
  if (const auto* rail = knowledge::find(equipment.rails, finding.place)) {
    where.rails.push_back(rail);
    const auto makes = [&](const knowledge::Block& block) {
      return std::find(block.makes.begin(), block.makes.end(), rail->id) != block.makes.end();
    };
    const auto maker = std::find_if(equipment.blocks.begin(), equipment.blocks.end(), makes);
    where.block = maker == equipment.blocks.end() ? nullptr : &*maker;
    return where;
  }
  if (const auto item = finding.place.empty() ? std::nullopt : ground.item(finding.place)) {
    where.block = &equipment.blocks.at(ground.compiled.items[*item].block);
  } else {
    where.block = knowledge::find(equipment.blocks, finding.place);
  }
  if (where.block != nullptr) {
    for (const auto* ids : {&where.block->fed_by, &where.block->makes}) {
      for (const std::string& id : *ids) {
        if (const auto* rail = knowledge::find(equipment.rails, id)) {
          where.rails.push_back(rail);
        }
      }
    }
  }
  return where;
}

Hazard hazard_of(const Ground& ground, diagnosis::KnownFinding finding) {
  const diagnosis::CompiledFinding& place = ground.compiled.named(finding);
  const CheckRule* check = knowledge::find(ground.knowledge->checks, place.check);
  Hazard hazard;
  if (check == nullptr) {
    return hazard;
  }
  const bool powered = check->state == CheckRule::State::powered;
  for (const std::string& id : check->cautions) {
    const auto* caution = knowledge::find(ground.knowledge->cautions, id);
    add(hazard, caution);
    if (caution != nullptr) {
      const Danger danger = danger_of(caution->danger);
      hazard.danger = std::max(hazard.danger, powered ? danger : unplugged(danger));
    }
  }
  for (const knowledge::Rail* rail : whereabouts_of(ground, place).rails) {
    const Danger danger = danger_of_rail(*rail, powered);
    hazard.danger = std::max(hazard.danger, danger);
    if (danger != Danger::none && !speaks_of(hazard, danger)) {
      add(hazard, caution_for(ground, danger));
    }
  }
  return hazard;
}

}  // namespace dryout::casework
