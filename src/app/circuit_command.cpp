// dryout circuit NETLIST.json: what a meter sees in circuit.
#include <CLI/CLI.hpp>
#include <optional>
#include <ostream>

#include "app/commands.h"
#include "circuit/netlist_json.h"
#include "documents/parse.h"
#include "quantities/measure.h"

namespace dryout::app {
namespace {

using circuit::InCircuitAnswer;

std::string ohms_or(const std::optional<double>& value, const char* otherwise) {
  return value ? quantities::format(quantities::Ohm(*value)) : otherwise;
}

void print(std::ostream& out, const InCircuitAnswer& seen) {
  out << "reads         " << ohms_or(seen.reading, "no path") << '\n';
  if (seen.about_target) {
    if (seen.reading_at_limit) {
      out << "at the limit  " << ohms_or(seen.reading_at_limit, "") << '\n';
    }
    out << "if open       " << ohms_or(seen.reading_if_open, "without bound") << '\n'
        << "at most       " << ohms_or(seen.ceiling, "without bound") << '\n';
  }
  if (seen.masked) {
    out << (*seen.masked ? "masked: an open part would still read below the limit\n"
                         : "not masked: an open part would show\n");
  }
  if (seen.inverted_reading) {
    out << "a reading of " << ohms_or(seen.inverted_reading, "") << " means ESR";
    for (const double esr : seen.esr_solutions) {
      out << ' ' << quantities::format(quantities::Ohm(esr));
    }
    out << ' ' << seen.esr_remark << '\n';
  }
}

Exit see(const Terminal& terminal, const std::string& path, const std::string& reading_text) {
  std::optional<double> reading;
  if (!reading_text.empty()) {
    const auto value =
        quantities::parse_measure(reading_text, quantities::Measure::circuit_resistance);
    if (!value) {
      return refuse(terminal, value.problems());
    }
    reading = *value;
  }
  const auto document = documents::read_file(path);
  if (!document) {
    return refuse(terminal, document.problems());
  }
  const auto file = circuit::read_netlist(*document);
  if (!file) {
    return refuse(terminal, file.problems());
  }
  const auto seen = circuit::answer_in_circuit(file->netlist, file->point, reading);
  if (!seen) {
    return refuse(terminal, seen.problems());
  }
  if (terminal.json) {
    return answer(terminal, circuit::to_json(*seen));
  }
  print(terminal.out, *seen);
  return Exit::done;
}

}  // namespace

void add_circuit(Commands& commands) {
  std::string& path = commands.text();
  std::string& reading = commands.text();
  CLI::App* command = commands.add(
      "circuit", "What a meter sees in circuit",
      [&](const Invocation& invocation) { return see(invocation.terminal, path, reading); });
  command->add_option("netlist", path, "Netlist with probes, JSON")->required();
  command->add_option("--reading", reading, "Which ESR of the target gives this reading?");
}

}  // namespace dryout::app
