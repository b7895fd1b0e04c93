// dryout simulate: hidden faults against ways of working, on the shipped equipment.
#include <CLI/CLI.hpp>
#include <iomanip>
#include <ostream>

#include "app/commands.h"

namespace dryout::app {
namespace {

using documents::Value;
using planning::Habit;

struct SimulationWish {
  std::string& equipment;  ///< "" = every kind
  std::string& policy;     ///< "" = every way of working
  int& jobs;
  int& seed;
  double& odds_factor;
  double& misread;
  bool& persist;
  double& give_up;  ///< hours; 0 = as the advice has it
};

void print_heading(std::ostream& out) {
  out << std::left << std::setw(26) << "equipment" << std::setw(22) << "policy" << std::right
      << std::setw(9) << "minutes" << std::setw(9) << "at bench" << std::setw(10) << "needless"
      << std::setw(9) << "misses" << std::setw(8) << "checks" << std::setw(11) << "dangerous"
      << std::setw(8) << "Brier" << std::setw(7) << "log" << '\n';
}

void print(std::ostream& out, const std::string& equipment,
           const planning::SimulationReport& report) {
  out << std::left << std::setw(26) << equipment << std::setw(22) << planning::name_of(report.habit)
      << std::right << std::fixed << std::setprecision(1) << std::setw(9)
      << quantities::in_minutes(report.mean_time) << std::setw(9)
      << quantities::in_minutes(report.at_bench) << std::setprecision(2) << std::setw(10)
      << report.needless_replacements << std::setprecision(3) << std::setw(9) << report.misses
      << std::setprecision(1) << std::setw(8) << report.checks << std::setprecision(2)
      << std::setw(11) << report.dangerous_checks << std::setprecision(3) << std::setw(8)
      << report.verdicts.brier() << std::setprecision(2) << std::setw(7)
      << report.verdicts.log_score() << '\n';
}

std::vector<Habit> chosen_habits(const std::string& policy) {
  for (const Habit habit : planning::habits) {
    if (planning::name_of(habit) == policy) {
      return {habit};
    }
  }
  return {planning::habits.begin(), planning::habits.end()};
}

planning::SimulationSettings settings_of(const SimulationWish& asked) {
  planning::SimulationSettings settings;
  settings.jobs = static_cast<std::size_t>(asked.jobs);
  settings.seed = static_cast<std::uint64_t>(asked.seed);
  settings.odds_factor = asked.odds_factor;
  settings.misread = asked.misread;
  settings.persist = asked.persist;
  if (asked.give_up > 0.0) {
    settings.give_up = quantities::hours(asked.give_up);
  }
  return settings;
}

Exit simulate(const Invocation& invocation, const SimulationWish& asked) {
  const Terminal& terminal = invocation.terminal;
  Surroundings in_memory = invocation.surroundings;
  in_memory.store = casework::in_memory;
  const auto workshop = open_workshop(in_memory);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  std::vector<std::string> kinds{asked.equipment};
  if (asked.equipment.empty()) {
    kinds.clear();
    for (const auto& equipment : (*workshop)->knowledge().equipment) kinds.push_back(equipment.id);
  }
  Value runs = Value::array();
  if (!terminal.json) print_heading(terminal.out);
  for (const std::string& kind : kinds) {
    for (const Habit habit : chosen_habits(asked.policy)) {
      const auto report = (*workshop)->simulate(kind, habit, settings_of(asked));
      if (!report) {
        return refuse(terminal, report.problems());
      }
      if (terminal.json) {
        runs.append(Value::object({{"equipment", kind}, {"report", planning::to_json(*report)}}));
      } else {
        print(terminal.out, kind, *report);
      }
    }
  }
  return terminal.json ? answer(terminal, Value::object({{"runs", runs}})) : Exit::done;
}

}  // namespace

void add_simulate(Commands& commands) {
  const SimulationWish asked{commands.text(),    commands.text(),    commands.number(100),
                             commands.number(1), commands.real(1.0), commands.real(0.0),
                             commands.flag(),    commands.real(0.0)};
  CLI::App* command = commands.add(
      "simulate", "Plays hidden faults against ways of working: minutes, needless repairs, misses",
      [asked](const Invocation& invocation) { return simulate(invocation, asked); });
  std::vector<std::string> names;
  names.reserve(planning::habits.size());
  for (const Habit habit : planning::habits) names.emplace_back(planning::name_of(habit));
  command->add_option("--equipment", asked.equipment, "Kind of equipment; every kind by default");
  command->add_option("--policy", asked.policy, "Way of working; every way by default")
      ->check(CLI::IsMember(names));
  command->add_option("--jobs", asked.jobs, "Sets to play")->check(CLI::Range(1, 1000000));
  command->add_option("--seed", asked.seed, "Of the random numbers")->check(CLI::Range(0, 1 << 30));
  command->add_option("--odds-factor", asked.odds_factor, "How far the world differs, 1 = not")
      ->check(CLI::Range(1.0, 100.0));
  command->add_option("--misread", asked.misread, "Chance that an outcome is noted wrongly")
      ->check(CLI::Range(0.0, 0.5));
  command->add_option("--give-up", asked.give_up, "Hours that a miss is charged with")
      ->check(CLI::Range(0.1, 10000.0));
  command->add_flag("--persist", asked.persist, "Nobody gives up while anything is left to mend");
}

}  // namespace dryout::app
