#include "circuit/unmasking.h"

#include "circuit/solve_ac.h"
#include "quantities/check.h"

namespace dryout::circuit {
namespace {

/// An open target stands out by `contrast` against one at its limit. A network that can't be
/// solved that way shows nothing.
bool is_seen(const Netlist& netlist, const ProbePoint& point, double contrast) {
  if (!are_connected(netlist, point.probe)) {
    return false;
  }
  const auto sweep = sweep_resistance(netlist, point.frequency, point.probe, *point.target);
  if (!sweep) {
    return false;
  }
  const auto open = sweep->reading_if_open(point.shows);
  return !open || *open >= contrast * sweep->reading(*point.limit_ohm, point.shows);
}

Netlist without(const Netlist& netlist, std::size_t element) {
  Netlist rest = netlist;
  // Left in its place so that the target keeps its index, but open.
  rest.elements[element].kind = Element::Kind::capacitor;
  rest.elements[element].capacitance_F = 0.0;
  return rest;
}

}  // namespace

quantities::Result<Unmasking> ways_to_see(const Netlist& netlist, const ProbePoint& point,
                                          const std::vector<quantities::Hertz>& frequencies,
                                          double contrast) {
  CHECK(point.target && point.limit_ohm);
  if (!are_connected(netlist, point.probe)) {
    return quantities::Problem{
        "no part joins the two probe nodes", {}, "an open path", "a path between them"};
  }
  Unmasking ways;
  for (const quantities::Hertz frequency : frequencies) {
    ProbePoint there = point;
    there.frequency = frequency;
    if (is_seen(netlist, there, contrast)) {
      ways.frequencies.push_back(frequency);
    }
  }
  for (std::size_t e = 0; e < netlist.elements.size(); ++e) {
    if (e != *point.target && is_seen(without(netlist, e), point, contrast)) {
      ways.lifted.push_back(netlist.elements[e].id);
    }
  }
  return ways;
}

}  // namespace dryout::circuit
