#include "decision/touch_current.h"

#include <algorithm>
#include <numbers>
#include <numeric>

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

std::vector<Farad> share_out(Farad allowed, const std::vector<Farad>& wanted) {
  std::vector<std::size_t> modest_first(wanted.size());
  std::iota(modest_first.begin(), modest_first.end(), std::size_t{0});
  const auto wants_less = [&wanted](std::size_t a, std::size_t b) {
    const bool a_open = wanted[a] == Farad(0);
    const bool b_open = wanted[b] == Farad(0);
    return a_open != b_open ? b_open : wanted[a] < wanted[b];
  };
  std::stable_sort(modest_first.begin(), modest_first.end(), wants_less);
  std::vector<Farad> shares(wanted.size());
  auto still_to_come = static_cast<double>(wanted.size());
  for (const std::size_t part : modest_first) {
    const Farad even = allowed / still_to_come;
    shares[part] = wanted[part] == Farad(0) ? even : std::min(wanted[part], even);
    allowed -= shares[part];
    still_to_come -= 1.0;
  }
  return shares;
}

}  // namespace dryout::decision
