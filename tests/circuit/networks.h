// Networks for tests: by hand, and random ones from a seed that a failing test prints.
#pragma once

#include <random>

#include "circuit/netlist.h"

namespace dryout::circuit {

Element resistor(std::string id, NodePair nodes, double ohm);
Element inductor(std::string id, NodePair nodes, double henry, double ohm);
Element capacitor(std::string id, NodePair nodes, double farad, double esr, double esl = 0.0);

/// `nodes` nodes in one connected tangle of R, L, C; node 0 and 1 are meant for the tips.
Netlist random_network(std::mt19937_64& random, std::size_t nodes);

/// The same with a coupled or an ideal transformer feeding a floating secondary with a load.
Netlist with_transformer(Netlist netlist, std::mt19937_64& random, bool ideal);

/// A ladder of `sections` series coils and shunt capacitors: 2 * sections elements.
Netlist ladder(std::size_t sections);

}  // namespace dryout::circuit
