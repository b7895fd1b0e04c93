// dryout lint [DIR]: checks a knowledge tree.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <ostream>

#include "app/commands.h"
#include "casework/rule_names.h"
#include "complaints/vocabulary.h"
#include "decision/mending_rules.h"
#include "decision/shop_settings.h"
#include "decision/substitution.h"
#include "knowledge/load.h"
#include "readings/assess_reading.h"
#include "readings/coverage.h"

namespace dryout::app {
namespace {

using documents::Value;

Value problems_json(const quantities::Problems& problems) {
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

template <typename T>
void add_problems(const quantities::Result<T>& loaded, quantities::Problems& faults) {
  if (!loaded) {
    faults.insert(faults.end(), loaded.problems().begin(), loaded.problems().end());
  }
}

/// What the other rooms read from the same trees is held to their own loaders, so that a limit or a
/// price that the program would refuse at work is refused here.
knowledge::LintReport lint_all(const std::vector<std::string>& trees) {
  knowledge::LintReport report = knowledge::lint(trees);
  const auto readings = readings::load_reading_knowledge(trees);
  const auto substitution = decision::load_substitution_rules(trees);
  quantities::Result<std::vector<readings::CommonPart>> common_parts{
      std::vector<readings::CommonPart>{}};
  if (std::filesystem::exists(std::filesystem::path(trees.front()) / "rules/common_values")) {
    common_parts = readings::load_common_parts(trees);
  }
  add_problems(readings, report.faults);
  add_problems(substitution, report.faults);
  const auto rules = decision::load_mending_rules(trees);
  add_problems(rules, report.faults);
  const auto vocabulary = complaints::load_vocabulary(trees);
  add_problems(vocabulary, report.faults);
  add_problems(common_parts, report.faults);
  // Names mean nothing while entries are missing because they could not be read.
  const auto base = knowledge::load(trees);
  if (base && readings && substitution && rules && common_parts) {
    const casework::MendingKnowledge mending{{}, {}, *substitution, *rules};
    for (quantities::Problem& problem :
         casework::unknown_names(*base, *readings, mending, *common_parts)) {
      report.faults.push_back(std::move(problem));
    }
  }
  if (base && vocabulary) {
    for (quantities::Problem& problem : complaints::unknown_symptoms(*vocabulary, *base)) {
      report.faults.push_back(std::move(problem));
    }
  }
  // A tree of one's own may have no figures of the shop; laid over another it may have some of
  // them.
  if (std::filesystem::exists(std::filesystem::path(trees.front()) / "rules/decision/shop.json")) {
    add_problems(decision::load_shop_settings(trees), report.faults);
  }
  return report;
}

Exit lint(const Invocation& invocation, const std::string& directory) {
  const Terminal& terminal = invocation.terminal;
  const knowledge::LintReport report = lint_all(
      directory.empty() ? invocation.surroundings.knowledge : std::vector<std::string>{directory});
  const Exit exit = report.faults.empty() ? Exit::done : Exit::answer_is_no;
  if (terminal.json) {
    (void)answer(terminal, Value::object({{"faults", problems_json(report.faults)},
                                          {"warnings", problems_json(report.warnings)}}));
    return exit;
  }
  for (const quantities::Problem& fault : report.faults) {
    terminal.out << "fault: " << quantities::describe(fault) << '\n';
  }
  for (const quantities::Problem& warning : report.warnings) {
    terminal.out << "warning: " << quantities::describe(warning) << '\n';
  }
  terminal.out << report.faults.size() << (report.faults.size() == 1 ? " fault, " : " faults, ")
               << report.warnings.size()
               << (report.warnings.size() == 1 ? " warning\n" : " warnings\n");
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
