// The netlist file of `dryout circuit`, and the answer's JSON.
//
// Elements: {"id", "kind", "nodes": [from, to]} with
//   "resistor": resistance_ohm
//   "inductor": inductance_H, resistance_ohm (optional)
//   "capacitor": capacitance_F, esr_ohm, esl_H (both optional)
//   "transformer": instead of nodes, "windings": [{"nodes", "inductance_H", "resistance_ohm"
//                  (optional)}] and "coupling" (0 to 1)
//   "ideal-transformer": "windings": [{"nodes", "turns", "resistance_ohm" (optional)}]
#pragma once

#include "circuit/in_circuit.h"
#include "circuit/netlist.h"
#include "documents/parse.h"
#include "quantities/result.h"

namespace dryout::circuit {

struct NetlistFile {
  Netlist netlist;
  ProbePoint point;
};

/// Reads the whole file, collecting every fault. A document may be refused for: an unknown node
/// under the probe, a repeated id, a target that is no capacitor, a negative or absurd value.
[[nodiscard]] quantities::Result<NetlistFile> read_netlist(const documents::Document& document);

/// Infinite values are null.
[[nodiscard]] documents::Value to_json(const InCircuitAnswer& answer);

}  // namespace dryout::circuit
