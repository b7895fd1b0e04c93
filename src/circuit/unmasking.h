// When a soldered-in capacitor can't be judged where it sits: what would make it visible. Either
// another frequency, or one other leg lifted.
#pragma once

#include <string>
#include <vector>

#include "circuit/in_circuit.h"

namespace dryout::circuit {

struct Unmasking {
  /// Of the frequencies asked about: those at which an open target reads at least `contrast` times
  /// what it reads at its limit.
  std::vector<quantities::Hertz> frequencies;
  /// Elements, any one of which taken off the board would do the same at the present frequency.
  std::vector<std::string> lifted;
};

/// The point must name a target and a limit. The limit is taken as the same at every frequency,
/// which is fair for the plateau of ESR between about 10 kHz and 1 MHz and generous below it.
[[nodiscard]] quantities::Result<Unmasking> ways_to_see(
    const Netlist& netlist, const ProbePoint& point,
    const std::vector<quantities::Hertz>& frequencies, double contrast = 2.0);

}  // namespace dryout::circuit
