// The reference: ngspice (a general-purpose circuit simulator, run as a program) solves the same
// network. Its absence fails the tests that need it.
#pragma once

#include <complex>
#include <map>
#include <string>

#include "circuit/netlist.h"
#include "quantities/quantity.h"

namespace dryout::circuit {

/// Runs a deck and returns every "name = number" it printed. A run that can't start, or fails, is
/// a test failure and gives an empty map.
std::map<std::string, double> run_ngspice(const std::string& deck);

/// Impedance seen at `probe` by ngspice's small-signal analysis.
std::complex<double> ngspice_impedance(const Netlist& netlist, quantities::Hertz frequency,
                                       NodePair probe);

}  // namespace dryout::circuit
