// How long an electrolytic capacitor is expected to serve, by the formulas makers print. All of
// them start from an endurance tested at a rated temperature and count down from there; they are
// rules of thumb with a decade of temperature in them, not physics to the last per cent, and none
// is meant outside 40 to 105 degrees.
#pragma once

#include <span>

#include "quantities/celsius.h"
#include "quantities/quantity.h"

namespace dryout::decision {

/// Tested endurance: so many hours at that temperature.
struct Endurance {
  quantities::Second life;
  quantities::Celsius at;
};

/// L = L0 * 2^((T0 - T) / 10): life doubles with every ten degrees less (makers' life pages; e.g.
/// Rubycon technical note, chapter 5).
[[nodiscard]] quantities::Second life_at(const Endurance& endurance, quantities::Celsius ambient);

/// The same with the voltage multiplier (4.3 - 3.3 Va/Vr) of Cornell Dubilier's application guide
/// (from memory); the ratio is taken within 0 to 1.
[[nodiscard]] quantities::Second life_at(const Endurance& endurance, quantities::Celsius ambient,
                                         double voltage_ratio);

/// Time spent at one temperature in a repeating cycle.
struct Spell {
  quantities::Second duration;
  quantities::Celsius at;
};
/// Life under a cycle of spells: wear adds up, 1/L = sum(share_i / L_i) (Cosel Q&A a0057).
[[nodiscard]] quantities::Second life_in_cycle(const Endurance& endurance,
                                               std::span<const Spell> cycle);
/// The one temperature that wears as fast as the cycle does.
[[nodiscard]] quantities::Celsius equivalent_temperature(const Endurance& endurance,
                                                         std::span<const Spell> cycle);

}  // namespace dryout::decision
