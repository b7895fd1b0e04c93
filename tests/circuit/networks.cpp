#include "networks.h"

#include <cmath>

namespace dryout::circuit {
namespace {

double between(std::mt19937_64& random, double low, double high) {
  return std::exp(std::uniform_real_distribution(std::log(low), std::log(high))(random));
}

std::size_t below(std::mt19937_64& random, std::size_t count) {
  return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
}

Element random_part(std::mt19937_64& random, std::string id, NodePair nodes) {
  switch (below(random, 3)) {
    case 0:
      return resistor(std::move(id), nodes, between(random, 0.05, 1e5));
    case 1:
      return inductor(std::move(id), nodes, between(random, 1e-7, 1e-2),
                      between(random, 0.01, 10.0));
    default:
      return capacitor(std::move(id), nodes, between(random, 1e-10, 1e-3),
                       between(random, 0.005, 50.0), between(random, 1e-10, 5e-8));
  }
}

std::size_t add_node(Netlist& netlist) {
  netlist.nodes.push_back("n" + std::to_string(netlist.nodes.size()));
  return netlist.nodes.size() - 1;
}

}  // namespace

Element resistor(std::string id, NodePair nodes, double ohm) {
  return {std::move(id), Element::Kind::resistor, nodes, ohm, 0.0, 0.0};
}
Element inductor(std::string id, NodePair nodes, double henry, double ohm) {
  return {std::move(id), Element::Kind::inductor, nodes, ohm, henry, 0.0};
}
Element capacitor(std::string id, NodePair nodes, double farad, double esr, double esl) {
  return {std::move(id), Element::Kind::capacitor, nodes, esr, esl, farad};
}

Netlist random_network(std::mt19937_64& random, std::size_t nodes) {
  Netlist netlist;
  netlist.elements.push_back(
      capacitor("C0", {0, 1}, between(random, 1e-7, 1e-3), between(random, 0.01, 20.0), 1e-8));
  add_node(netlist);
  for (std::size_t n = 1; n < nodes; ++n) {
    const std::size_t added = add_node(netlist);
    netlist.elements.push_back(
        random_part(random, "T" + std::to_string(n), {added, below(random, added)}));
  }
  for (std::size_t extra = 0; extra < nodes; ++extra) {
    const std::size_t from = below(random, nodes);
    const std::size_t to = (from + 1 + below(random, nodes - 1)) % nodes;
    netlist.elements.push_back(random_part(random, "X" + std::to_string(extra), {from, to}));
  }
  return netlist;
}

Netlist with_transformer(Netlist netlist, std::mt19937_64& random, bool ideal) {
  const std::size_t primary_nodes = netlist.nodes.size();
  const std::size_t p = add_node(netlist);
  const std::size_t q = add_node(netlist);
  const std::size_t tap = add_node(netlist);
  Transformer transformer;
  transformer.id = "TX";
  transformer.ideal = ideal;
  transformer.coupling = between(random, 0.3, 0.999);
  transformer.windings = {
      {{0, 1 + below(random, primary_nodes - 1)}, 0, 0, 0}, {{p, q}, 0, 0, 0}, {{q, tap}, 0, 0, 0}};
  for (Winding& winding : transformer.windings) {
    winding.inductance_H = between(random, 1e-4, 1e-1);
    winding.turns = between(random, 5.0, 500.0);
    winding.resistance_ohm = between(random, 0.01, 20.0);
  }
  netlist.transformers.push_back(transformer);
  netlist.elements.push_back(random_part(random, "S1", {p, q}));
  netlist.elements.push_back(resistor("S2", {q, tap}, between(random, 1.0, 1e4)));
  netlist.elements.push_back(capacitor("S3", {p, tap}, between(random, 1e-8, 1e-4), 0.3));
  return netlist;
}

Netlist ladder(std::size_t sections) {
  Netlist netlist;
  const std::size_t ground = add_node(netlist);
  std::size_t at = add_node(netlist);
  for (std::size_t s = 0; s < sections; ++s) {
    netlist.elements.push_back(capacitor("C" + std::to_string(s), {at, ground}, 1e-5, 0.4, 1e-8));
    const std::size_t next = add_node(netlist);
    netlist.elements.push_back(inductor("L" + std::to_string(s), {at, next}, 1e-5, 0.05));
    at = next;
  }
  netlist.elements.push_back(resistor("R", {at, ground}, 50.0));
  return netlist;
}

}  // namespace dryout::circuit
