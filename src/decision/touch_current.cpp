#include "decision/touch_current.h"

#include <numbers>

namespace dryout::decision {

using quantities::Ampere;
using quantities::Farad;
using quantities::Hertz;

Hertz Mains::frequency() const {
  constexpr double sixty_hertz_below_volts = 150.0;
  return volts.si() < sixty_hertz_below_volts ? Hertz(60.0) : Hertz(50.0);
}

Ampere touch_current(Farad capacitance, const Mains& mains) {
  return Ampere(2.0 * std::numbers::pi * mains.frequency().si() * capacitance.si() *
                mains.highest().si());
}

Farad capacitance_for(Ampere current, const Mains& mains) {
  return Farad(current.si() /
               (2.0 * std::numbers::pi * mains.frequency().si() * mains.highest().si()));
}

}  // namespace dryout::decision
