// dryout lint [DIR]: checks a knowledge tree.
#include <CLI/CLI.hpp>
#include <ostream>

#include "app/commands.h"
#include "knowledge/load.h"

namespace dryout::app {
namespace {

using documents::Value;

Value to_json(const quantities::Problems& problems) {
  Value list = Value::array();
  for (const quantities::Problem& problem : problems) {
    list.append(Value::object({{"file", problem.place.file},
                               {"line", problem.place.line},
                               {"pointer", problem.place.pointer},
                               {"message", problem.message},
                               {"found", problem.found},
                               {"accepted", problem.accepted}}));
  }
  return list;
}

Exit lint(const Invocation& invocation, const std::string& directory) {
  const Terminal& terminal = invocation.terminal;
  const knowledge::LintReport report = knowledge::lint(
      directory.empty() ? invocation.surroundings.knowledge : std::vector<std::string>{directory});
  const Exit exit = report.faults.empty() ? Exit::done : Exit::answer_is_no;
  if (terminal.json) {
    (void)answer(terminal, Value::object({{"faults", to_json(report.faults)},
                                          {"warnings", to_json(report.warnings)}}));
    return exit;
  }
  for (const quantities::Problem& fault : report.faults) {
    terminal.out << "fault: " << quantities::describe(fault) << '\n';
  }
  for (const quantities::Problem& warning : report.warnings) {
    terminal.out << "warning: " << quantities::describe(warning) << '\n';
  }
  terminal.out << report.faults.size() << " faults, " << report.warnings.size() << " warnings\n";
  return exit;
}

}  // namespace

void add_lint(Commands& commands) {
  std::string& directory = commands.text();
  commands
      .add("lint", "Checks a knowledge tree (the shipped one and your own by default)",
           [&directory](const Invocation& invocation) { return lint(invocation, directory); })
      ->add_option("directory", directory, "Folder that holds rules/ and symptoms/");
}

}  // namespace dryout::app
