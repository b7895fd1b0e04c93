// Steady alternating currents in a linear network at one frequency: modified nodal analysis
// (Ho, Ruehli, Brennan, The modified nodal approach to network analysis, IEEE Trans. CAS-22,
// 1975, from memory). Dense below 60 unknowns, sparse above; one step of iterative refinement.
//
// Parts of a network that hang together only through a transformer's field each get a reference
// node of their own, so a floating secondary needs no earth. A part of exactly 0 ohm joins its
// nodes; a capacitor of 0 F is left out.
#pragma once

#include <complex>
#include <cstddef>
#include <optional>
#include <vector>

#include "circuit/netlist.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::circuit {

/// What drives the network: currents pushed into one node and drawn from another, and voltages in
/// series with elements (v_from - v_to = Z i + volt).
struct Excitation {
  struct Current {
    NodePair nodes;  ///< enters the network at `from`, leaves it at `to`
    double ampere = 1.0;
  };
  struct SeriesVoltage {
    std::size_t element = 0;  ///< must be among the watched elements
    double volt = 1.0;
  };
  std::vector<Current> currents;
  std::vector<SeriesVoltage> voltages;
};

struct AcSolution {
  std::vector<std::complex<double>> node_volts;       ///< against the node's own reference
  std::vector<std::complex<double>> watched_amperes;  ///< parallel to `watched`
};

/// One solution for each excitation, from one factorisation. A network without a finite answer (a
/// lossless resonance, an ideal transformer working into nothing) is a problem. `currents` must
/// run between connected nodes (are_connected), and watched elements must be neither 0 ohm nor 0 F.
[[nodiscard]] quantities::Result<std::vector<AcSolution>> solve_ac(
    const Netlist& netlist, quantities::Hertz frequency, const std::vector<Excitation>& excitations,
    const std::vector<std::size_t>& watched = {});

/// Whether a current can pass between the nodes: through parts, not through a transformer's field.
[[nodiscard]] bool are_connected(const Netlist& netlist, NodePair nodes);

/// The impedance between two nodes; nothing where no path joins them (infinite).
[[nodiscard]] quantities::Result<std::optional<std::complex<double>>> impedance_between(
    const Netlist& netlist, quantities::Hertz frequency, NodePair nodes);

/// Z of one element at a frequency; not finite where it is open.
[[nodiscard]] std::complex<double> impedance_of(const Element& element,
                                                quantities::Hertz frequency);

}  // namespace dryout::circuit
