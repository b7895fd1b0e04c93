#include "decision/life.h"

#include <algorithm>
#include <cmath>

#include "quantities/check.h"

namespace dryout::decision {

using quantities::Celsius;
using quantities::CelsiusDelta;
using quantities::Second;

Second life_at(const Endurance& endurance, Celsius ambient) {
  return endurance.life * std::exp2((endurance.at - ambient).kelvins() / 10.0);
}

Second life_at(const Endurance& endurance, Celsius ambient, double voltage_ratio) {
  const double ratio = std::clamp(voltage_ratio, 0.0, 1.0);
  return life_at(endurance, ambient) * (4.3 - 3.3 * ratio);
}

Second life_in_cycle(const Endurance& endurance, std::span<const Spell> cycle) {
  CHECK(!cycle.empty());
  Second total;
  double wear = 0.0;  // lives used up in one cycle
  for (const Spell& spell : cycle) {
    total += spell.duration;
    wear += spell.duration / life_at(endurance, spell.at);
  }
  return total / wear;
}

Celsius equivalent_temperature(const Endurance& endurance, std::span<const Spell> cycle) {
  const double lives = life_in_cycle(endurance, cycle) / endurance.life;
  return endurance.at + CelsiusDelta(-10.0 * std::log2(lives));
}

}  // namespace dryout::decision
