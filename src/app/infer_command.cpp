// dryout infer NETWORK.json: exact posteriors of a bare fault network.
#include <CLI/CLI.hpp>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "diagnosis/network_json.h"
#include "documents/parse.h"

namespace dryout::app {
namespace {

void print(const Terminal& terminal, const diagnosis::Network& network,
           const diagnosis::Posterior& posterior) {
  terminal.out << "log evidence " << std::setprecision(12) << posterior.log_evidence << '\n';
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    terminal.out << network.items[i].id << ':';
    for (std::size_t s = 0; s < network.items[i].states.size(); ++s) {
      terminal.out << "  " << network.items[i].states[s] << ' ' << percent(posterior.items[i][s]);
    }
    terminal.out << '\n';
  }
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    terminal.out << network.findings[f].id << ": present " << percent(posterior.findings[f])
                 << '\n';
  }
}

Exit infer_file(const Terminal& terminal, const std::string& path) {
  const auto document = documents::read_file(path);
  if (!document) {
    return refuse(terminal, document.problems());
  }
  const auto file = diagnosis::read_network(*document);
  if (!file) {
    return refuse(terminal, file.problems());
  }
  const auto posterior = diagnosis::infer(file->network, file->evidence);
  if (!posterior) {
    return refuse(terminal, posterior.problems(), Exit::answer_is_no);
  }
  if (terminal.json) {
    return answer(terminal, diagnosis::to_json(file->network, *posterior));
  }
  print(terminal, file->network, *posterior);
  return Exit::done;
}

}  // namespace

void add_infer(Commands& commands) {
  std::string& path = commands.text();
  commands
      .add("infer", "Exact posteriors of a bare fault network",
           [&path](const Invocation& invocation) { return infer_file(invocation.terminal, path); })
      ->add_option("network", path, "Fault network with its evidence, JSON")
      ->required();
}

}  // namespace dryout::app
