#include "knowledge/rail_peak.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <string>

#include "knowledge/knowledge_base.h"
#include "quantities/holds.h"

namespace dryout::knowledge {
namespace {

using quantities::holds;
using quantities::Volt;

/// Volts a.c. of the winding, or the mains, that a rail is made of; zero where none is found.
double alternating_behind(const Equipment& equipment, std::string_view rail,
                          std::set<std::string, std::less<>>& seen) {
  double volts = 0.0;
  // A branch behind a resistor rises as far as what it hangs on: nothing draws current there yet.
  const Rail* branch = find(equipment.rails, rail);
  if (branch != nullptr && !branch->from.empty() && seen.insert(branch->from).second) {
    volts = alternating_behind(equipment, branch->from, seen);
  }
  for (const Block& block : equipment.blocks) {
    if (!holds(block.makes, rail)) {
      continue;
    }
    for (const std::string& id : block.fed_by) {
      const Rail* source = find(equipment.rails, id);
      if (source == nullptr || !seen.insert(id).second) {
        continue;
      }
      const bool alternates = source->kind == "secondary" || source->kind == "mains";
      volts = std::max(
          volts, alternates ? std::abs(source->volts) : alternating_behind(equipment, id, seen));
    }
  }
  return volts;
}

}  // namespace

Volt mains_peak(const Equipment& equipment) {
  const auto mains = std::find_if(equipment.rails.begin(), equipment.rails.end(),
                                  [](const Rail& rail) { return rail.kind == "mains"; });
  return mains == equipment.rails.end()
             ? Volt(0.0)
             : Volt(std::abs(mains->volts) * std::numbers::sqrt2 * mains_over_nominal);
}

Volt unloaded_peak(const Equipment& equipment, std::string_view rail) {
  const Rail* found = find(equipment.rails, rail);
  if (found == nullptr || found->kind != "high-tension") {
    return Volt(0.0);
  }
  std::set<std::string, std::less<>> seen{found->id};
  const double one_peak = alternating_behind(equipment, rail, seen) * std::numbers::sqrt2;
  if (one_peak <= 0.0) {
    return Volt(0.0);
  }
  constexpr double rounding = 0.05;  // volts in a drawing are round figures
  const double times = std::max(1.0, std::ceil(std::abs(found->volts) / one_peak - rounding));
  return Volt(times * one_peak * mains_over_nominal);
}

HighTensionAt high_tension_at(const Equipment& equipment, const PartGroup& group) {
  HighTensionAt at;
  if (!group.rail.empty()) {
    at.peak = unloaded_peak(equipment, group.rail);
    return at;
  }
  Volt before{0.0};  // of the stages whose signal comes here: their plates are at its other end
  for (const Block& block : equipment.blocks) {
    const bool own = block.id == group.block;
    if (!own && !holds(block.signal_to, group.block)) {
      continue;
    }
    for (const std::string& id : block.fed_by) {
      Volt& peak = own ? at.peak : before;
      peak = std::max(peak, unloaded_peak(equipment, id));
      const Rail* rail = find(equipment.rails, id);
      if (own && rail != nullptr && rail->kind == "bias") {
        at.bias = std::max(at.bias, Volt(std::abs(rail->volts)));
      }
    }
  }
  // The plate of its own valve is not at a part that feeds its grid.
  const bool of_a_grid = group.role == "grid-coupling" && before > Volt(0.0);
  at.peak = of_a_grid ? before : std::max(at.peak, before);
  return at;
}

}  // namespace dryout::knowledge
