// A passive network as plain data: what a meter's test signal meets between its two tips. Values
// are bare doubles in SI units, because this is the input of a numeric kernel; netlist_json.h
// reads and checks them.
//
// Every two-terminal part is one series chain, which is what parts are at these frequencies:
//   Z = resistance + j w inductance [+ 1 / (j w capacitance), capacitors only]
// with resistance = the ESR of a capacitor or the winding resistance of a coil, inductance = the
// ESL of a capacitor.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace dryout::circuit {

/// Two nodes, as indices into Netlist::nodes. Current counts positive from `from` to `to`.
struct NodePair {
  std::size_t from = 0;
  std::size_t to = 0;
};

struct Element {
  enum class Kind { resistor, inductor, capacitor };
  std::string id;
  Kind kind = Kind::resistor;
  NodePair nodes;
  double resistance_ohm = 0.0;
  double inductance_H = 0.0;
  double capacitance_F = 0.0;  ///< capacitors only; 0 = not there (open)
};

/// A winding of a transformer. `inductance_H` counts for coupled windings, `turns` for ideal ones.
struct Winding {
  NodePair nodes;  ///< `from` is the dotted end
  double inductance_H = 0.0;
  double turns = 1.0;
  double resistance_ohm = 0.0;
};

/// Coupled: v_i = R_i i_i + j w sum_k M_ik i_k with M_ik = k sqrt(L_i L_k); leakage is what the
/// coupling factor leaves, (1 - k^2) L. Ideal: volts go as turns, ampere-turns sum to zero.
struct Transformer {
  std::string id;
  bool ideal = false;
  double coupling = 1.0;  ///< 0 to 1, the same between all pairs; unused where ideal
  std::vector<Winding> windings;
};

struct Netlist {
  std::vector<std::string> nodes;
  std::vector<Element> elements;
  std::vector<Transformer> transformers;
};

}  // namespace dryout::circuit
