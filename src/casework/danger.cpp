#include "casework/danger.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace dryout::casework {
namespace {

using knowledge::Caution;
using knowledge::CheckRule;
using knowledge::Rail;
using planning::Danger;

constexpr std::array<std::string_view, 4> danger_words{"none", "stored-charge", "mains",
                                                       "high-tension"};

/// d.c. above this is treated as hazardous live (60 V d.c.: the limit of extra-low voltage ES1 in
/// IEC 62368-1, from memory); below it a rail is no danger of its own.
constexpr double hazardous_volts = 60.0;
/// From here on supplies are for hands trained on them (common practice).
constexpr double kilovolt = 1000.0;

template <class Range, class T>
bool holds(const Range& range, const T& value) {
  return std::find(range.begin(), range.end(), value) != range.end();
}

bool is_high(const Rail& rail) {
  return rail.kind == "high-tension" || rail.kind == "extra-high-tension" ||
         rail.kind == "primary" || (rail.kind != "mains" && std::abs(rail.volts) > hazardous_volts);
}

bool is_at(std::string_view place, const Rail& rail) {
  if (place == "mains") {
    return rail.kind == "mains" || rail.kind == "primary";
  }
  if (place == "high-tension") {
    return is_high(rail);
  }
  if (place == "kilovolts") {
    return rail.kind == "high-tension" && std::abs(rail.volts) > kilovolt;
  }
  if (place == "valves") {
    return rail.kind == "heater" || rail.kind == "filament" || rail.kind == "series-heater";
  }
  return place == rail.kind || (place == "live-chassis" && rail.kind == "series-heater");
}

bool is_at_one(const Caution& caution, const Rail& rail) {
  return std::any_of(caution.where.begin(), caution.where.end(),
                     [&](const std::string& place) { return is_at(place, rail); });
}

/// Some speak of one kind of place alone: wherever hands go there, they are told.
bool is_of_this_place(const Caution& caution, const Rail& rail) {
  return caution.by_itself && !holds(caution.where, "mains") &&
         !holds(caution.where, "high-tension") && is_at_one(caution, rail);
}

/// A part across the mains keeps its peak after the plug is pulled, until something drains it.
bool has_parts_across_mains(const knowledge::Equipment& equipment) {
  return std::any_of(equipment.groups.begin(), equipment.groups.end(),
                     [](const auto& group) { return group.role == "mains-x"; });
}

Danger danger_of_rail(const Ground& ground, const Rail& rail, bool live) {
  if (rail.kind == "mains") {
    const bool charged = has_parts_across_mains(*ground.equipment);
    return live ? Danger::mains : charged ? Danger::stored_charge : Danger::none;
  }
  if (!is_high(rail)) {
    return Danger::none;
  }
  return !live                    ? Danger::stored_charge
         : rail.kind == "primary" ? Danger::mains
                                  : Danger::high_tension;
}

void add(Hazard& hazard, const Caution* caution) {
  if (caution != nullptr && !holds(hazard.cautions, caution)) {
    hazard.cautions.push_back(caution);
  }
}

/// The caution for a danger that no caution of the check speaks of: the equipment's own, else any
/// that the knowledge has.
const Caution* caution_for(const Ground& ground, Danger danger) {
  for (const std::string& id : ground.equipment->hazards) {
    const auto* caution = knowledge::find(ground.knowledge->cautions, id);
    if (caution != nullptr && danger_of(caution->danger) == danger && !caution->by_itself &&
        has_a_place(ground, *caution)) {
      return caution;
    }
  }
  for (const Caution& caution : ground.knowledge->cautions) {
    if (danger_of(caution.danger) == danger && !caution.by_itself && has_a_place(ground, caution)) {
      return &caution;
    }
  }
  return nullptr;
}

/// Some go by what stands at the place, not in the set: the bias of the stage that a valve serves.
bool is_of_that_stage(const Ground& ground, const Caution& caution, const Whereabouts& where) {
  if (!holds(caution.where, std::string("bias")) || where.block == nullptr) {
    return true;
  }
  const auto fed_by_bias = [&](const knowledge::Block& block) {
    return std::any_of(block.fed_by.begin(), block.fed_by.end(), [&](const std::string& id) {
      const auto* rail = knowledge::find(ground.equipment->rails, id);
      return rail != nullptr && rail->kind == "bias";
    });
  };
  return fed_by_bias(*where.block) ||
         std::any_of(where.block->signal_to.begin(), where.block->signal_to.end(),
                     [&](const std::string& to) {
                       const auto* next = knowledge::find(ground.equipment->blocks, to);
                       return next != nullptr && fed_by_bias(*next);
                     });
}

/// One that speaks of a danger of its own kind does not speak of the danger at large.
bool speaks_of(const Hazard& hazard, Danger danger) {
  return std::any_of(hazard.cautions.begin(), hazard.cautions.end(), [&](const auto* caution) {
    return danger_of(caution->danger) == danger && !caution->by_itself;
  });
}

/// `tools`: also what is no danger by itself, but goes with the check's own spray, solder or
/// solvent.
void add_check(const Ground& ground, const CheckRule& check, const Whereabouts& where,
               Hazard& hazard, bool tools = true) {
  for (const std::string& id : check.cautions) {
    const auto* caution = knowledge::find(ground.knowledge->cautions, id);
    if (caution == nullptr || !has_a_place(ground, *caution) ||
        !is_of_that_stage(ground, *caution, where) ||
        (!tools && danger_of(caution->danger) == Danger::none)) {
      continue;
    }
    add(hazard, caution);
    const Danger danger = danger_of(caution->danger);
    hazard.danger = std::max(hazard.danger, hazard.live ? danger : unplugged(danger));
  }
}

/// Where the chassis is live, every place of the set is.
void add_live_chassis(const Ground& ground, Hazard& hazard) {
  for (const Caution& caution : ground.knowledge->cautions) {
    if (holds(caution.where, "live-chassis") && has_a_place(ground, caution)) {
      add(hazard, &caution);
      hazard.danger = std::max(hazard.danger, danger_of(caution.danger));
    }
  }
}

void add_place(const Ground& ground, const Whereabouts& where, Hazard& hazard) {
  if (hazard.live) {
    add_live_chassis(ground, hazard);
  }
  for (const Rail* rail : where.rails) {
    const Danger danger = danger_of_rail(ground, *rail, hazard.live);
    if (danger == Danger::none) {
      continue;
    }
    hazard.danger = std::max(hazard.danger, danger);
    for (const Caution& caution : ground.knowledge->cautions) {
      // A tube or a bank keeps its charge; the primary side is only live with the plug in.
      const bool lasting = hazard.live || danger_of(caution.danger) == Danger::high_tension;
      if (lasting && is_of_this_place(caution, *rail)) {
        add(hazard, &caution);
      }
    }
    if (!speaks_of(hazard, danger)) {
      add(hazard, caution_for(ground, danger));
    }
  }
  if (hazard.danger == Danger::stored_charge && !speaks_of(hazard, Danger::stored_charge)) {
    add(hazard, caution_for(ground, Danger::stored_charge));
  }
}

/// A tester that brings more than 60 V shocks, and charges what it measures, in a set of any volts.
void add_test_volts(const Ground& ground, const knowledge::PartGroup* group,
                    quantities::Volt test_volts, Hazard& hazard) {
  const double volts = std::max(test_volts.si(), group == nullptr ? 0.0 : group->rated.si());
  if (volts <= hazardous_volts) {
    return;
  }
  hazard.danger = std::max(hazard.danger, Danger::stored_charge);
  for (const Caution& caution : ground.knowledge->cautions) {
    if (holds(caution.where, std::string("test-volts"))) {
      add(hazard, &caution);
    }
  }
}

/// Readings that one set-up of probes gives: a dead set with the part in place.
bool is_bridge_reading(std::string_view quantity) {
  return quantity == readings::word_of(ReadingKind::esr) ||
         quantity == readings::word_of(ReadingKind::impedance) ||
         quantity == readings::word_of(ReadingKind::capacitance) ||
         quantity == readings::word_of(ReadingKind::dissipation);
}

/// The checks at a part and at its group, in the order of the findings.
std::vector<std::size_t> checks_at(const Ground& ground, const std::string& part,
                                   const std::string& group) {
  std::vector<std::size_t> found;
  for (const std::string* place : {&part, part == group ? nullptr : &group}) {
    if (place == nullptr || place->empty()) {
      continue;
    }
    if (const auto there = ground.checks_at.find(*place); there != ground.checks_at.end()) {
      found.insert(found.end(), there->second.begin(), there->second.end());
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// "leakage" and "volts" of a check are the leakage current and the direct volts of a reading.
bool asks_for(const CheckRule& check, ReadingKind kind) {
  constexpr std::array<std::pair<std::string_view, ReadingKind>, 3> short_words{
      {{"leakage", ReadingKind::leakage_current},
       {"resistance", ReadingKind::dc_resistance},
       {"volts", ReadingKind::dc_volts}}};
  return !check.quantity.empty() &&
         (check.quantity == readings::word_of(kind) ||
          holds(short_words, std::pair<std::string_view, ReadingKind>(check.quantity, kind)));
}

}  // namespace

Danger danger_of(std::string_view word) {
  const auto* found = std::find(danger_words.begin(), danger_words.end(), word);
  return found == danger_words.end() ? Danger::none
                                     : static_cast<Danger>(found - danger_words.begin());
}

std::string_view word_of(Danger danger) {
  return danger_words.at(static_cast<std::size_t>(danger));
}

Danger unplugged(Danger danger) {
  return danger == Danger::none ? Danger::none : Danger::stored_charge;
}

bool has_high_tension(const knowledge::Equipment& equipment) {
  return std::any_of(equipment.rails.begin(), equipment.rails.end(), is_high);
}

bool has_a_place(const Ground& ground, const Caution& caution) {
  const knowledge::Equipment& equipment = *ground.equipment;
  if (ground.year_built &&
      (*ground.year_built < caution.year_from || *ground.year_built > caution.year_to)) {
    return false;
  }
  const bool has_tantalum =
      holds(caution.where, std::string("solid-tantalum")) &&
      std::any_of(equipment.groups.begin(), equipment.groups.end(), [&](const auto& group) {
        return knowledge::technology_of(*ground.knowledge, group) == "solid-tantalum";
      });
  return caution.where.empty() || has_tantalum || holds(equipment.hazards, caution.id) ||
         std::any_of(equipment.rails.begin(), equipment.rails.end(),
                     [&](const Rail& rail) { return is_at_one(caution, rail); });
}

bool is_read_at_test_volts(ReadingKind kind) {
  return kind == ReadingKind::leakage_current || kind == ReadingKind::insulation;
}

bool is_read_live(ReadingKind kind) {
  return kind == ReadingKind::ripple || kind == ReadingKind::dc_volts;
}

Whereabouts whereabouts_of(const Ground& ground, const diagnosis::CompiledFinding& finding) {
  const knowledge::Equipment& equipment = *ground.equipment;
  Whereabouts where;
  if (const auto* rail = knowledge::find(equipment.rails, finding.place)) {
    where.rails.push_back(rail);
    const auto makes = [&](const knowledge::Block& block) { return holds(block.makes, rail->id); };
    const auto maker = std::find_if(equipment.blocks.begin(), equipment.blocks.end(), makes);
    where.block = maker == equipment.blocks.end() ? nullptr : &*maker;
    return where;
  }
  if (const auto item = finding.place.empty() ? std::nullopt : ground.item(finding.place)) {
    return whereabouts_of(ground, *item);
  }
  where.block = knowledge::find(equipment.blocks, finding.place);
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

Whereabouts whereabouts_of(const Ground& ground, std::size_t item) {
  const knowledge::Block& block = ground.equipment->blocks.at(ground.compiled.items[item].block);
  diagnosis::CompiledFinding at_block;
  at_block.place = block.id;
  Whereabouts where = whereabouts_of(ground, at_block);
  where.block = &block;
  const auto* group = ground.group_of(item);
  const auto* rail =
      group == nullptr ? nullptr : knowledge::find(ground.equipment->rails, group->rail);
  if (rail != nullptr && !holds(where.rails, rail)) {
    where.rails.push_back(rail);
  }
  return where;
}

Hazard hazard_of(const Ground& ground, diagnosis::KnownFinding finding) {
  const diagnosis::CompiledFinding& place = ground.compiled.named(finding);
  const CheckRule* check = knowledge::find(ground.knowledge->checks, place.check);
  Hazard hazard;
  if (check != nullptr) {
    hazard.live = check->state == CheckRule::State::powered;
    const Whereabouts where = whereabouts_of(ground, place);
    add_check(ground, *check, where, hazard);
    const auto item = place.place.empty() ? std::nullopt : ground.item(place.place);
    if (item && (asks_for(*check, ReadingKind::leakage_current) ||
                 asks_for(*check, ReadingKind::insulation))) {
      add_test_volts(ground, ground.group_of(*item), quantities::Volt(0.0), hazard);
    }
    add_place(ground, where, hazard);
  }
  return hazard;
}

namespace {

/// The checks of that state at the part, the one that fits the reading best first among these
/// kinds: those that ask for it, those of the same set-up, any.
struct ChecksThere {
  std::vector<const CheckRule*> asking, same_setup, lifted_setup, any;
};

ChecksThere checks_there(const Ground& ground, std::size_t item, ReadingKind kind, bool live) {
  const std::string& id = ground.compiled.network.items[item].id;
  const std::string part = id.substr(id.find(':') + 1);
  const std::string& group = ground.compiled.items[item].group;
  const bool by_bridge = is_bridge_reading(readings::word_of(kind));
  ChecksThere there;
  for (const std::size_t at_place : checks_at(ground, part, group)) {
    const CheckRule* check =
        knowledge::find(ground.knowledge->checks, ground.compiled.findings[at_place].check);
    if (check == nullptr || (check->state == CheckRule::State::powered) != live) {
      continue;
    }
    const bool lifted = check->state == CheckRule::State::lifted;
    // A tester of series resistance shows the impedance: one and the same touch of the probes.
    if (asks_for(*check, kind) ||
        (kind == ReadingKind::impedance && asks_for(*check, ReadingKind::esr))) {
      there.asking.push_back(check);
    } else if (by_bridge && is_bridge_reading(check->quantity)) {
      (lifted ? there.lifted_setup : there.same_setup).push_back(check);
    } else {
      there.any.push_back(check);
    }
  }
  return there;
}

}  // namespace

Hazard hazard_of_reading(const Ground& ground, std::size_t item, ReadingKind kind,
                         quantities::Volt test_volts) {
  Hazard hazard;
  hazard.live = is_read_live(kind);
  const Whereabouts where = whereabouts_of(ground, item);
  const ChecksThere there = checks_there(ground, item, kind, hazard.live);
  const auto& fitting = !there.asking.empty()       ? there.asking
                        : !there.same_setup.empty() ? there.same_setup
                                                    : there.lifted_setup;
  // Whatever is measured there, the hands and the charge are the same: where no check is of this
  // kind, what is dangerous in any of them stands, but not what goes with their own tools.
  for (const CheckRule* check : fitting.empty() ? there.any : fitting) {
    add_check(ground, *check, where, hazard, !fitting.empty());
  }
  if (is_read_at_test_volts(kind)) {
    add_test_volts(ground, ground.group_of(item), test_volts, hazard);
  }
  add_place(ground, where, hazard);
  return hazard;
}

}  // namespace dryout::casework
