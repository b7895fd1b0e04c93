#include "casework/stored_charge.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "casework/wording.h"
#include "circuit/discharge.h"
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
constexpr double mains_over_nominal = 1.1;
constexpr double string_from_volts = 1000.0;

struct Store {
  std::string title;
  Charged part;
  std::optional<Farad> typical;  ///< set where the part's own marks are not known
  int count = 1;
  bool wet = false;

  [[nodiscard]] double joules() const { return circuit::stored_energy(part).si(); }
  [[nodiscard]] bool shocks() const {
    return part.volts.si() > shown_above_volts &&
           part.volts.si() * part.capacitance.si() > coulombs_least;
  }
  [[nodiscard]] bool counts() const { return shocks() || joules() >= burning_joules; }
};

/// The most that can stand across one of the group: what the rail has, on the mains its peak at
/// high mains, or all that the part is rated for.
Volt volts_across(const Ground& ground, const PartGroup& group) {
  const auto* rail = knowledge::find(ground.equipment->rails, group.rail);
  const double nominal = rail == nullptr ? 0.0 : std::abs(rail->volts);
  if (rail != nullptr && (rail->kind == "mains" || rail->kind == "secondary")) {
    return quantities::volts(nominal * std::numbers::sqrt2 * mains_over_nominal);
  }
  return std::max(quantities::volts(nominal), group.rated);
}

Store store_of(const Ground& ground, const PartGroup& group) {
  const std::string technology = knowledge::technology_of(*ground.knowledge, group);
  Store store;
  store.title = mid_sentence(group.title);
  store.wet = technology.find("aluminium") != std::string::npos;
  store.part = {group.capacitance * (store.wet ? can_over_mark : other_over_mark),
                volts_across(ground, group)};
  store.typical = group.capacitance;
  store.count = group.count;
  if (group.rated.si() > 0.0 && store.part.volts > group.rated && group.count > 1) {
    store.title +=
        ", " + std::to_string(group.count) + " in series";  // else they would not stand it
    store.part.capacitance /= group.count;
    store.typical = *store.typical / static_cast<double>(group.count);
    store.count = 1;
  }
  return store;
}

/// The same for a part whose marks were noted.
Store store_of(const Ground& ground, const PartGroup& group, const NamePart& part) {
  PartGroup alone = group;
  alone.count = 1;
  Store store = store_of(ground, alone);
  store.title = part.reference;
  if (part.capacitance) {
    store.part.capacitance = *part.capacitance;
    store.typical.reset();
  }
  if (part.rated) {
    alone.rated = *part.rated;
    store.part.volts = volts_across(ground, alone);
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
  line += " at up to " + quantities::whole_number(store.part.volts.si()) + " V, " +
          quantities::significant_figures(step.energy.si(), 2) + " J";
  line += store.count > 1 ? " in each of " + std::to_string(store.count) : "";
  line += ". Discharge through " + quantities::format(step.resistor) + " that stands " +
          quantities::whole_number(std::ceil(step.voltage_rating.si())) + " V and " +
          watts(circuit::rating_to_buy(step)) + " (" + watts(step.peak_power) + " at first)";
  // No hand lets go within a second: that is the least to hold it for.
  line += ", held " + quantities::whole_number(std::max(1.0, std::ceil(step.hold.si()))) +
          " s: about " + quantities::fixed_point(step.left.si(), 1) + " V left. Measure it";
  line += store.wet ? "; up to " + quantities::whole_number(std::ceil(step.rebound.si())) +
                          " V can come back in days."
                    : ".";
  line += store.shocks() ? "" : " It gives no shock, but a ring or a tool across it burns.";
  line += step.voltage_rating.si() > string_from_volts
              ? " Above 1 kV a string of resistors, each rated for its share, and trained hands."
              : "";
  return line;
}

std::string told(const std::optional<Store>& store) {
  return store && store->counts() ? told(*store) : std::string();
}

/// The one that stores most among those at a rail, in a block, or (neither given) in the set.
std::optional<Store> largest_at(const Ground& ground, const CaseState& state,
                                const Whereabouts& where, bool anywhere) {
  std::optional<Store> largest;
  const auto take = [&](const Store& store) {
    if (store.counts() && (!largest || store.joules() > largest->joules())) {
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
        take(store_of(ground, group, part));
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
  return told(std::optional(is_part ? store_of(ground, *group, *part) : store_of(ground, *group)));
}

std::string discharge_told(const Ground& ground, const CaseState& state,
                           const diagnosis::CompiledFinding& finding) {
  const auto item = finding.place.empty() ? std::nullopt : ground.item(finding.place);
  return item ? discharge_told(ground, state, *item)
              : told(largest_at(ground, state, whereabouts_of(ground, finding),
                                finding.place.empty()));
}

}  // namespace dryout::casework
