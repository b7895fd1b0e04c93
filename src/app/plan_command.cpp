// dryout plan PROBLEM.json: a policy for a bare troubleshooting problem, with its exact cost.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <iomanip>
#include <ostream>
#include <string>
#include <vector>

#include "app/commands.h"
#include "documents/parse.h"
#include "planning/plan.h"
#include "quantities/check.h"

namespace dryout::app {
namespace {

using planning::TroubleshootingProblem;

void print(std::ostream& out, const TroubleshootingProblem& problem, const planning::Step& step,
           int depth) {
  const std::string margin(static_cast<std::size_t>(depth) * 2, ' ');
  if (step.kind == planning::Step::Kind::give_up) {
    out << margin << "give up\n";
    return;
  }
  const bool check = step.kind == planning::Step::Kind::check;
  out << margin
      << (check ? "check " + problem.checks[step.index].id
                : "repair " + problem.repairs[step.index].id)
      << '\n';
  for (std::size_t k = 0; k < step.then.size(); ++k) {
    if (step.then[k] != nullptr) {
      out << margin << " if "
          << (check ? problem.checks[step.index].outcomes[k] : std::string("still faulty"))
          << ":\n";
      print(out, problem, *step.then[k], depth + 1);
    }
  }
}

Exit plan_file(const Terminal& terminal, const std::string& path, const std::string& policy_name) {
  const auto document = documents::read_file(path);
  if (!document) {
    return refuse(terminal, document.problems());
  }
  const auto problem = planning::read_problem(*document);
  if (!problem) {
    return refuse(terminal, problem.problems());
  }
  const auto policy =
      std::find_if(planning::policies.begin(), planning::policies.end(),
                   [&](planning::Policy known) { return planning::name_of(known) == policy_name; });
  CHECK(policy != planning::policies.end());  // the parser took only known names
  // The exact optimum is looked for as long as somebody waits for it.
  constexpr std::chrono::seconds patience(45);
  const auto give_up_at = std::chrono::steady_clock::now() + patience;
  const auto plan = planning::plan(
      *problem, *policy, [give_up_at] { return std::chrono::steady_clock::now() < give_up_at; });
  if (!plan) {
    return refuse(terminal, plan.problems(), Exit::answer_is_no);
  }
  if (terminal.json) {
    return answer(terminal, planning::to_json(*problem, *plan));
  }
  terminal.out << "expected " << std::fixed << std::setprecision(2) << plan->expected_minutes
               << " minutes\n";
  print(terminal.out, *problem, *plan->first, 0);
  return Exit::done;
}

}  // namespace

void add_plan(Commands& commands) {
  std::string& path = commands.text();
  std::string& policy = commands.text("ours");
  std::vector<std::string> names;
  names.reserve(planning::policies.size());
  for (const planning::Policy known : planning::policies) {
    names.emplace_back(planning::name_of(known));
  }
  CLI::App* command = commands.add(
      "plan", "A policy for a bare troubleshooting problem",
      [&](const Invocation& invocation) { return plan_file(invocation.terminal, path, policy); });
  command->add_option("problem", path, "Troubleshooting problem, JSON")->required();
  command->add_option("--policy", policy, "Who plans")
      ->check(CLI::IsMember(names))
      ->capture_default_str();
}

}  // namespace dryout::app
