// Ladder networks of 10 to 2000 nodes, and the question the bench asks most: what does a meter see
// of one part among n.
#include <benchmark/benchmark.h>

#include "circuit/in_circuit.h"

namespace {

using dryout::circuit::Element;
using dryout::circuit::MeterShows;
using dryout::circuit::Netlist;

Netlist ladder(std::size_t sections) {
  Netlist netlist;
  netlist.nodes = {"ground", "n0"};
  for (std::size_t s = 0; s < sections; ++s) {
    const std::size_t at = netlist.nodes.size() - 1;
    netlist.elements.push_back(
        {"C" + std::to_string(s), Element::Kind::capacitor, {at, 0}, 0.4, 1e-8, 1e-5});
    netlist.nodes.push_back("n" + std::to_string(s + 1));
    netlist.elements.push_back(
        {"L" + std::to_string(s), Element::Kind::inductor, {at, at + 1}, 0.05, 1e-5, 0.0});
  }
  netlist.elements.push_back(
      {"R", Element::Kind::resistor, {netlist.nodes.size() - 1, 0}, 50.0, 0.0, 0.0});
  return netlist;
}

void answer_in_circuit(benchmark::State& state) {
  const Netlist netlist = ladder(static_cast<std::size_t>(state.range(0)));
  const dryout::circuit::ProbePoint point{
      dryout::quantities::hertz(1e5), {1, 0}, MeterShows::impedance, 0, 3.0};
  for (auto _ : state) {
    benchmark::DoNotOptimize(dryout::circuit::answer_in_circuit(netlist, point, 0.5));
  }
}
BENCHMARK(answer_in_circuit)->RangeMultiplier(4)->Range(8, 2048);

}  // namespace
