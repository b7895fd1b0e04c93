#include "casework/stored_charge.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "casework/wording.h"
#include "circuit/discharge.h"
#include "knowledge/mains_side.h"
#include "knowledge/rail_peak.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

using circuit::Charged;
using knowledge::PartGroup;
using quantities::Farad;
using quantities::Volt;

constexpr double shown_above_volts = 60.0;
/// A charge below this is not taken as hazardous live (45 uC: IEC 61010-1, 6.3.1 c, second-hand).
constexpr double coulombs_least = 45e-6;
/// Energy that burns whoever bridges it with a ring or a tool, from 2 V on (20 J: IEC 60950-1, 1.2,
/// hazardous energy level; from memory).
constexpr double burning_joules = 20.0;
/// Old cans were made -10/+50 % (common practice); other parts stay within a fifth.
constexpr double can_over_mark = 1.5;
constexpr double other_over_mark = 1.2;
/// From here on a touch is told of whatever the charge is: it throws the hand, and the figures of
/// the standard are no bench's excuse (judgement).
constexpr double string_from_volts = 1000.0;

struct Store {
  std::string title;
  Charged part;
  std::optional<Farad> typical;  ///< set where the part's own marks are not known
  int count = 1;
  int in_parallel = 1;       ///< that stand across one another, all of them in `part`
  std::string peak_of = {};  ///< of what the volts are the peak; "" = direct current
  bool wet = false;

  [[nodiscard]] double joules() const { return circuit::stored_energy(part).si(); }
  [[nodiscard]] bool shocks() const {
    return part.volts.si() > shown_above_volts &&
           part.volts.si() * part.capacitance.si() > coulombs_least;
  }
  [[nodiscard]] bool counts() const { return shocks() || joules() >= burning_joules; }
};

bool told_anyway(const Store& store) {
  return store.counts() || store.part.volts.si() > string_from_volts;
}

/// Its volts, on whatever rail the drawing puts it, are those of the mains: a mark in volts a.c.
/// (or an old one in volts d.c.) says nothing of their peak.
bool meets_the_mains(const Ground& ground, const PartGroup& group, const std::string& technology) {
  const auto* rail = knowledge::find(ground.equipment->rails, group.rail);
  const bool on_them = rail == nullptr ? knowledge::is_on_the_mains(*ground.equipment, group)
                                       : rail->kind == "mains";
  return group.role == "mains-x" || group.role == "mains-y" || technology == "mains-film" ||
         (on_them && (rail != nullptr || group.role == "motor-suppressor"));
}

struct VoltsAcross {
  Volt volts;
  std::string peak_of;  ///< "" = direct current
};

/// The most that can stand across one of the group: the peak of what alternates there, what high
/// tension rises to with no valve drawing current, or all that the part is rated for.
VoltsAcross volts_across(const Ground& ground, const PartGroup& group,
                         const std::string& technology) {
  const knowledge::Equipment& equipment = *ground.equipment;
  const Volt mains = knowledge::mains_peak(equipment);
  const std::string of_the_mains = "the mains a tenth high";
  if (group.role == "motor-run") {
    // Sources differ: some reckon with the mains alone. The second winding of a split-phase motor
    // and its capacitor resonate above them, and the mark in volts a.c. is what the motor's maker
    // chose for that (common practice), so the mark is taken where it is more.
    const Volt marked = group.rated * std::numbers::sqrt2;
    return marked > mains ? VoltsAcross{marked, "its mark in volts a.c."}
                          : VoltsAcross{mains, of_the_mains};
  }
  if (mains > Volt(0.0) && meets_the_mains(ground, group, technology)) {
    return {mains, of_the_mains};
  }
  const auto* rail = knowledge::find(equipment.rails, group.rail);
  const double nominal = rail == nullptr ? 0.0 : std::abs(rail->volts);
  if (rail != nullptr && rail->kind == "secondary") {
    return {quantities::volts(nominal * std::numbers::sqrt2 * knowledge::mains_over_nominal),
            "the winding with the mains a tenth high"};
  }
  const Volt risen = knowledge::unloaded_peak(equipment, group.rail);
  return {std::max({quantities::volts(nominal), risen, group.rated}), ""};
}

/// Cans straight across a rail of direct current which none of them would stand alone. Whatever
/// lies across the mains, and all but wet cans, stands by itself or beside its brothers.
bool is_a_string(const Ground& ground, const PartGroup& group, bool wet) {
  const auto* rail = knowledge::find(ground.equipment->rails, group.rail);
  const auto* role = knowledge::find(ground.knowledge->roles, group.role);
  return wet && role != nullptr && role->across_rail && rail != nullptr && rail->kind != "mains" &&
         rail->kind != "secondary" && group.count > 1 && group.rated.si() > 0.0 &&
         std::abs(rail->volts) > group.rated.si();
}

Store store_of(const Ground& ground, const PartGroup& group) {
  const std::string technology = knowledge::technology_of(*ground.knowledge, group);
  Store store;
  store.title = mid_sentence(group.title);
  store.wet = technology.find("aluminium") != std::string::npos;
  const VoltsAcross across = volts_across(ground, group, technology);
  store.part = {group.capacitance * (store.wet ? can_over_mark : other_over_mark), across.volts};
  store.peak_of = across.peak_of;
  store.typical = group.capacitance;
  store.count = group.count;
  if (is_a_string(ground, group, store.wet)) {
    store.title +=
        ", " + std::to_string(group.count) + " in series";  // else they would not stand it
    store.part.capacitance /= group.count;
    store.typical = *store.typical / static_cast<double>(group.count);
    store.count = 1;
  } else if (group.role == "mains-x" && group.count > 1) {
    store.title += ", " + std::to_string(group.count) + " in parallel";
    store.part.capacitance *= group.count;
    store.typical = *store.typical * static_cast<double>(group.count);
    store.in_parallel = group.count;
    store.count = 1;
  }
  return store;
}

/// What lies across a named part besides itself: the others of its group that stand in parallel.
Farad beside(const Ground& ground, const CaseState& state, const PartGroup& group,
             const NamePart& part) {
  PartGroup alone = group;
  alone.count = 1;
  const Farad typical = store_of(ground, alone).part.capacitance;
  Farad others(0.0);
  int named = 0;
  for (const NamePart& other : state.parts) {
    if (other.group == group.id) {
      ++named;
      others +=
          other.reference == part.reference ? Farad(0.0) : other.capacitance.value_or(typical);
    }
  }
  return others + typical * static_cast<double>(std::max(0, group.count - named));
}

/// The same for a part whose marks were noted.
Store store_of(const Ground& ground, const CaseState& state, const PartGroup& group,
               const NamePart& part) {
  PartGroup alone = group;
  alone.rated = part.rated.value_or(group.rated);
  Store store = store_of(ground, alone);
  if (is_a_string(ground, alone, store.wet)) {
    store.title = part.reference + " and its string, " + store.title;
    return store;
  }
  alone.count = 1;
  const int in_parallel = store.in_parallel;
  store = store_of(ground, alone);
  store.title = part.reference;
  if (part.capacitance) {
    store.part.capacitance = *part.capacitance;
    store.typical.reset();
  }
  if (in_parallel > 1) {
    store.title += " and what stands beside it across the mains";
    const Farad others = beside(ground, state, group, part);
    store.part.capacitance += others;
    if (store.typical) {
      store.typical = *store.typical * static_cast<double>(in_parallel);
    }
  }
  return store;
}

const NamePart* named(const CaseState& state, const std::string& reference) {
  const auto found =
      std::find_if(state.parts.begin(), state.parts.end(),
                   [&](const NamePart& part) { return part.reference == reference; });
  return found == state.parts.end() ? nullptr : &*found;
}

std::string watts(quantities::Watt power) {
  return (power.si() < 10.0 ? quantities::significant_figures(power.si(), 2)
                            : quantities::whole_number(power.si())) +
         " W";
}

std::string told(const Store& store) {
  const circuit::DischargeStep step =
      circuit::plan_discharge(store.part, circuit::discharge_resistor(store.part),
                              store.wet ? circuit::wet_absorption : circuit::film_absorption);
  std::string line = "Here: " + store.title + ", ";
  if (store.typical) {
    line += "at worst " + quantities::format(store.part.capacitance, 2) + " (typical " +
            quantities::format(*store.typical) + "; its own mark is not noted)";
  } else {
    line += quantities::format(store.part.capacitance);
  }
  line += " at up to " + quantities::whole_number(store.part.volts.si()) + " V" +
          (store.peak_of.empty() ? "" : " (the peak of " + store.peak_of + ")") + ", " +
          quantities::significant_figures(step.energy.si(), 2) + " J";
  line += store.count > 1 ? " in each of " + std::to_string(store.count) : "";
  line += ". Discharge through " + quantities::format(step.resistor) + " that stands " +
          quantities::whole_number(std::ceil(step.voltage_rating.si())) + " V and " +
          watts(circuit::rating_to_buy(step)) + " (" + watts(step.peak_power) + " at first)";
  // No hand lets go within a second: that is the least to hold it for.
  line += ", held " + quantities::whole_number(std::max(1.0, std::ceil(step.hold.si()))) +
          " s: about " + quantities::fixed_point(step.left.si(), 1) + " V left" +
          (store.count > 1 ? ", later where they stand in parallel" : "") + ". Measure it";
  line += store.wet ? "; up to " + quantities::whole_number(std::ceil(step.rebound.si())) +
                          " V can come back in days."
                    : ".";
  line += store.part.volts.si() > shown_above_volts
              ? ""
              : " It gives no shock, but a ring or a tool across it burns.";
  line += step.voltage_rating.si() > string_from_volts
              ? " Above 1 kV a string of resistors, each rated for its share, and trained hands."
              : "";
  return line;
}

std::string told(const std::optional<Store>& store) {
  return store && told_anyway(*store) ? told(*store) : std::string();
}

/// The one that stores most among those at a rail, in a block, or (neither given) in the set.
std::optional<Store> largest_at(const Ground& ground, const CaseState& state,
                                const Whereabouts& where, bool anywhere) {
  std::optional<Store> largest;
  const auto take = [&](const Store& store) {
    if (told_anyway(store) && (!largest || store.joules() > largest->joules())) {
      largest = store;
    }
  };
  for (const PartGroup& group : ground.equipment->groups) {
    const bool on_rail =
        std::any_of(where.rails.begin(), where.rails.end(),
                    [&](const knowledge::Rail* rail) { return rail->id == group.rail; });
    if (!anywhere && !on_rail && (where.block == nullptr || where.block->id != group.block)) {
      continue;
    }
    take(store_of(ground, group));
    for (const NamePart& part : state.parts) {
      if (part.group == group.id) {
        take(store_of(ground, state, group, part));
      }
    }
  }
  return largest;
}

}  // namespace

std::string discharge_told(const Ground& ground, const CaseState& state, std::size_t item) {
  const PartGroup* group = ground.group_of(item);
  if (group == nullptr) {
    return {};
  }
  const std::string& id = ground.compiled.network.items[item].id;
  const NamePart* part = named(state, id.substr(id.find(':') + 1));
  const bool is_part = part != nullptr && part->group == group->id;
  return told(
      std::optional(is_part ? store_of(ground, state, *group, *part) : store_of(ground, *group)));
}

std::string discharge_told(const Ground& ground, const CaseState& state,
                           const diagnosis::CompiledFinding& finding) {
  const auto item = finding.place.empty() ? std::nullopt : ground.item(finding.place);
  return item ? discharge_told(ground, state, *item)
              : told(largest_at(ground, state, whereabouts_of(ground, finding),
                                finding.place.empty()));
}

}  // namespace dryout::casework
