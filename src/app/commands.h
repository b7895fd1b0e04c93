// The list of commands. Each add_...() describes one command (or a family) to the parser and says
// what runs when it is given; command_line.cpp parses and runs.
#pragma once

#include <deque>
#include <functional>
#include <string>
#include <vector>

#include "app/command_line.h"
#include "app/surroundings.h"
#include "app/terminal.h"
#include "casework/command.h"

namespace CLI {
class App;
}

namespace dryout::app {

/// What every command is given when it runs.
struct Invocation {
  const Terminal& terminal;
  const Surroundings& surroundings;
};

using Run = std::function<Exit(const Invocation&)>;

struct Commands {
  CLI::App* root = nullptr;
  std::vector<std::pair<CLI::App*, Run>> runs;

  /// What options say is kept here; a reference stays good as long as the commands do.
  std::deque<std::string> texts;
  std::deque<bool> flags;
  std::deque<int> numbers;
  std::deque<double> reals;
  std::deque<WindowRequest> window_requests;
  std::deque<std::vector<std::string>> lists;
  std::deque<std::function<quantities::Result<casework::Command>()>> makers;
  std::string& text(std::string fallback = {}) { return texts.emplace_back(std::move(fallback)); }
  bool& flag() { return flags.emplace_back(false); }
  std::vector<std::string>& list() { return lists.emplace_back(); }
  double& real(double fallback) { return reals.emplace_back(fallback); }
  int& number(int fallback) { return numbers.emplace_back(fallback); }

  /// Declares a command below `parent` (the root by default).
  CLI::App* add(const std::string& name, const std::string& help, Run run,
                CLI::App* parent = nullptr);
};

void add_window(Commands& commands, const WindowFace& window);
void add_snapshot(Commands& commands, const WindowFace& window);
void add_infer(Commands& commands);
void add_circuit(Commands& commands);
void add_plan(Commands& commands);
void add_simulate(Commands& commands);
void add_reading(Commands& commands);
void add_marking(Commands& commands);
void add_discharge(Commands& commands);
void add_ripple(Commands& commands);
void add_life(Commands& commands);
void add_keep_limit(Commands& commands);
void add_describe_set(Commands& commands);
void add_lint(Commands& commands);
void add_list(Commands& commands);
void add_complaint(Commands& commands);
void add_case(Commands& commands);  ///< case new, list, show, undo, redo, and what follows
void add_case_keeping(Commands& commands, CLI::App* case_command);  ///< export ... restore
void add_export(Commands& commands, CLI::App* case_command);
void add_rescue(Commands& commands, CLI::App* case_command);        ///< rescue, log
void add_case_actions(Commands& commands, CLI::App* case_command);  ///< everything done to a case
void add_shop(Commands& commands);
void add_bundle(Commands& commands, CLI::App* shop_command);  ///< shop export, import
void add_suspects(Commands& commands);
void add_next(Commands& commands);
void add_explain(Commands& commands);
void add_guide(Commands& commands);
void add_decide(Commands& commands);
void add_parts(Commands& commands);
void add_report(Commands& commands);
void add_practice(Commands& commands);
void add_self_description(Commands& commands);  ///< manual, completion

}  // namespace dryout::app
