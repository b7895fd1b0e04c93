#include "app/command_line.h"

#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>

#include "app/commands.h"
#include "app/kept_files.h"
#include "app/shown_stream.h"
#include "app/standard_streams.h"

namespace dryout::app {
namespace {

constexpr const char* purpose =
    "Guides a bench technician through suspected capacitor faults: what to check next and how, "
    "what\n"
    "a reading proves, when to stop blaming capacitors. Local codes and licensed practice come "
    "first.";

void add_all(Commands& commands, const WindowFace& window) {
  add_window(commands, window);
  add_snapshot(commands, window);
  add_guide(commands);
  add_practice(commands);
  add_case(commands);
  add_shop(commands);
  add_suspects(commands);
  add_next(commands);
  add_explain(commands);
  add_decide(commands);
  add_parts(commands);
  add_report(commands);
  add_reading(commands);
  add_marking(commands);
  add_discharge(commands);
  add_ripple(commands);
  add_life(commands);
  add_keep_limit(commands);
  add_describe_set(commands);
  add_list(commands);
  add_complaint(commands);
  add_lint(commands);
  add_infer(commands);
  add_circuit(commands);
  add_plan(commands);
  add_simulate(commands);
  add_self_description(commands);
}

/// Whatever came of it, an answer that did not arrive is no answer.
int ended(Exit exit) {
  const std::string lost = why_output_was_lost();
  if (lost.empty()) {
    return static_cast<int>(exit);
  }
  if (!reader_of_output_is_gone()) {
    std::cerr << "dryout: what was printed did not reach its place: " << lost
              << "; what the command changed, if it changes anything, is kept\n";
  }
  return static_cast<int>(exit == Exit::internal_fault ? exit : Exit::output_lost);
}

/// Whatever a command is told to write, none is told to write over what the program keeps.
quantities::Result<quantities::Done> check_targets(const CLI::App& command,
                                                   const Surroundings& surroundings) {
  for (const char* name : {"--output", "--report-items", "--papers", "--pictures"}) {
    const CLI::Option* option = command.get_option_no_throw(name);
    if (option == nullptr || option->count() == 0) {
      continue;
    }
    for (const std::string& path : option->results()) {
      if (auto allowed = may_be_written(surroundings, path); !allowed) {
        return allowed;
      }
    }
  }
  return quantities::Done{};
}

Exit run_guarded(const CLI::App& command, const Run& run, const Invocation& invocation) {
  try {
    if (const auto allowed = check_targets(command, invocation.surroundings); !allowed) {
      return refuse(invocation.terminal, allowed.problems());
    }
    return run(invocation);
  } catch (const std::exception& fault) {
    invocation.terminal.err << "dryout: internal fault: " << fault.what()
                            << "\nNothing that was acknowledged is lost. Please report this.\n";
    return Exit::internal_fault;
  }
}

}  // namespace

CLI::App* Commands::add(const std::string& name, const std::string& help, Run run,
                        CLI::App* parent) {
  CLI::App* command = (parent == nullptr ? root : parent)->add_subcommand(name, help);
  command->fallthrough();
  runs.emplace_back(command, std::move(run));
  return command;
}

namespace {

/// Options that CLI11 reads as numbers take a decimal comma as all else that is typed does.
void read_decimal_commas(const Commands& commands) {
  const CLI::Validator comma(
      [](std::string& text) {
        const auto pointed = quantities::with_decimal_point(text);
        if (!pointed) {
          return quantities::describe(pointed.problems().front());
        }
        text = *pointed;
        return std::string();
      },
      "");
  for (const auto& [command, run] : commands.runs) {
    for (CLI::Option* option : command->get_options()) {
      if (option->get_type_name().find("FLOAT") != std::string::npos) {
        option->transform(comma);
      }
    }
  }
}

}  // namespace

int run_command_line(int argc, char** argv, const WindowFace& window) {
  hold_standard_streams();
  CLI::App parser{purpose, "dryout"};
  Commands commands;
  commands.root = &parser;
  bool json = false;
  Surroundings surroundings = find_surroundings();
  std::vector<std::string> knowledge;
  parser.add_flag("--json", json, "One JSON document on standard output, nothing else there");
  parser.add_option("--store", surroundings.store, "The case store")->type_name("FILE");
  parser.add_option("--knowledge", knowledge, "Knowledge trees to use instead of the shipped one")
      ->type_name("DIR");
  parser.set_version_flag("--version", std::string("dryout ") + DRYOUT_VERSION);
  add_all(commands, window);
  read_decimal_commas(commands);
  try {
    parser.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const bool asked = error.get_exit_code() == 0;  // --help, --version
    ShownStream err(std::cerr);
    (void)parser.exit(error, std::cout, err);
    return ended(asked ? Exit::done : Exit::wrong_input);
  }
  if (!knowledge.empty()) {
    surroundings.knowledge = knowledge;
  }
  ShownStream out(std::cout);
  ShownStream err(std::cerr);
  const Terminal terminal{std::cin, out, err, std::cout, json};
  for (const auto& [command, run] : commands.runs) {
    if (command->parsed() && command->get_subcommands().empty()) {
      return ended(run_guarded(*command, run, {terminal, surroundings}));
    }
  }
  // Alone, the name opens the window: the first command declared.
  const bool alone = parser.get_subcommands().empty();
  const auto& [window_command, open_window] = commands.runs.front();
  return ended(alone ? run_guarded(*window_command, open_window, {terminal, surroundings})
                     : Exit::wrong_input);
}

}  // namespace dryout::app
