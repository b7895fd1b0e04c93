#include "app/case_action.h"

#include <optional>

#include "app/print_view.h"
#include "app/view_json.h"
#include "casework/check_command.h"
#include "casework/heeding.h"
#include "casework/words.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

using casework::Command;
using quantities::Problem;
using quantities::Result;

/// What was typed must be told apart from what is near it.
constexpr int figures_told = 6;

/// The numbers of a command as they were understood, told before they are kept: "0.47 Ω against 2
/// Ω".
std::string numbers_in(const Command& command) {
  if (const auto* reading = std::get_if<casework::RecordReading>(&command)) {
    const quantities::Unit unit = casework::unit_of(reading->kind);
    std::string text = reading->over_range
                           ? std::string("OL, beyond the meter's range")
                           : quantities::format_engineering(reading->value, unit, figures_told);
    if (reading->limit) {
      text += " against " + quantities::format_engineering(*reading->limit, unit, figures_told);
    }
    return text;
  }
  std::string text;
  if (const auto* part = std::get_if<casework::NamePart>(&command)) {
    if (part->capacitance) text = quantities::format(*part->capacitance, figures_told);
    if (part->rated) {
      text += (text.empty() ? "" : ", ") + quantities::format(*part->rated, figures_told);
    }
  }
  return text;
}

/// What to type first, where cautions stand before the command.
quantities::Problems with_heeding_named(quantities::Problems problems, const Command& command,
                                        std::int64_t number) {
  const auto heeding = casework::heeding_for(command);
  for (Problem& problem : problems) {
    if (heeding && problem.message == casework::heed_first) {
      problem.accepted = "`dryout case acknowledge " + std::to_string(number) + ' ' +
                         heeding->check + (heeding->place.empty() ? "" : '@' + heeding->place) +
                         "`, which prints them, and then this again";
    }
  }
  return problems;
}

Exit act(const Invocation& invocation, const std::string& name, const MakeCommand& make) {
  const Terminal& terminal = invocation.terminal;
  const Result<Command> command = make();
  if (!command) {
    return refuse(terminal, command.problems());
  }
  auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  if (!opened->kept) {
    return refuse(terminal, {{"a case file is only looked at here",
                              {name, 0, {}},
                              "",
                              "a case number: take the file in with `dryout case import`"}});
  }
  if (const std::string numbers = numbers_in(*command); !terminal.json && !numbers.empty()) {
    terminal.out << "Understood: " << numbers << '\n' << std::flush;
  }
  const auto* heeding = std::get_if<casework::AcknowledgeCautions>(&*command);
  const auto heeded = heeding == nullptr
                          ? std::nullopt
                          : std::optional(opened->workshop->cautions_at(opened->number, *heeding));
  const auto view = opened->workshop->apply(opened->number, *command);
  if (!view) {
    return refuse(terminal, with_heeding_named(view.problems(), *command, opened->number));
  }
  if (!terminal.json && heeded && *heeded) {
    print_cautions(terminal.out, (*heeded)->cautions, (*heeded)->reminder, "");
  }
  if (terminal.json) {
    return answer(terminal, case_json(*view));
  }
  print_damage(terminal.out, opened->damage());
  terminal.out << (view->log.empty() ? "" : quantities::shown_line(view->log.back().text) + '\n')
               << view->leading.sentence << '\n';
  if (!view->readings.empty() && std::holds_alternative<casework::RecordReading>(*command)) {
    terminal.out << view->readings.back().sentence << '\n';
    for (const std::string& caveat : view->readings.back().caveats) {
      terminal.out << "  note: " << caveat << '\n';
    }
  }
  return Exit::done;
}

}  // namespace

Action::Action(Commands& commands, CLI::App* parent, const char* name, const char* help)
    : commands_(commands), case_(commands.text()), make_(commands.makers.emplace_back()) {
  command_ = commands.add(
      name, help,
      [this_case = &case_, make = &make_](const Invocation& invocation) {
        return act(invocation, *this_case, *make);
      },
      parent);
  command_->add_option("case", case_, "Case number")->required();
  if (const std::string_view written = casework::written_verb(name); written != name) {
    command_->alias(std::string(written));
  }
}

std::string& Action::word(const char* name, const char* help) {
  std::string& text = commands_.text();
  command_->add_option(name, text, help)->required();
  return text;
}

std::string& Action::option(const char* name, const char* help, std::string fallback) {
  std::string& text = commands_.text(std::move(fallback));
  command_->add_option(name, text, help);
  return text;
}

std::vector<std::string>& Action::options(const char* name, const char* help) {
  std::vector<std::string>& list = commands_.list();
  command_->add_option(name, list, help);
  return list;
}

bool& Action::flag(const char* name, const char* help) {
  bool& raised = commands_.flag();
  command_->add_flag(name, raised, help);
  return raised;
}

}  // namespace dryout::app
