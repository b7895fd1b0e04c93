// dryout case new|list|show|undo|redo: the case store from the command line.
#include <CLI/CLI.hpp>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "app/print_view.h"
#include "app/view_json.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

using casework::CaseView;
using casework::Workshop;
using documents::Value;
using quantities::Result;

Exit show(const Terminal& terminal, const Result<CaseView>& view) {
  if (!view) {
    return refuse(terminal, view.problems());
  }
  if (terminal.json) {
    return answer(terminal, case_json(*view));
  }
  print_head(terminal.out, *view);
  print_notices(terminal.out, *view);
  print_suspects(terminal.out, *view, 5);
  terminal.out << "Next:\n";
  print_next(terminal.out, *view, 3);
  terminal.out << "So far:\n";
  print_log(terminal.out, *view);
  return Exit::done;
}

Exit show_named(const Invocation& invocation, const std::string& name) {
  const auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(invocation.terminal, opened.problems());
  }
  return show(invocation.terminal, opened->workshop->view(opened->number));
}

constexpr int listed_most = 1000;
/// A search stops there (Workshop::search).
constexpr std::size_t found_most = 200;

/// The newest, or those that have the words; all of them (a second for a hundred thousand) only
/// where that is said.
Exit list(const Invocation& invocation, const std::string& words, int most) {
  const Terminal& terminal = invocation.terminal;
  const auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  const auto cases = words.empty() ? (*workshop)->cases(most) : (*workshop)->search(words);
  if (!cases) {
    return refuse(terminal, cases.problems());
  }
  Value json = Value::array();
  for (const casework::CaseSummary& entry : *cases) {
    if (terminal.json) {
      json.append(Value::object({{"case", static_cast<double>(entry.number)},
                                 {"set_name", entry.set_name},
                                 {"equipment", entry.equipment_title},
                                 {"complaint", entry.complaint},
                                 {"opened", entry.opened},
                                 {"state", entry.state}}));
    } else {
      terminal.out << std::right << std::setw(6) << entry.number << "  " << entry.opened << "  "
                   << std::left << std::setw(7) << entry.state << ' '
                   << quantities::shown_line(entry.set_name) << ": "
                   << quantities::shown_line(entry.complaint) << '\n';
    }
  }
  const bool stopped = !words.empty() && cases->size() >= found_most;
  if (terminal.json) {
    return answer(terminal, Value::object({{"cases", json}, {"stopped", stopped}}));
  }
  if (stopped) {
    terminal.out << "The search stops at " << found_most
                 << " cases, and there may be more: one word more narrows it.\n";
  }
  if (words.empty() && most > 0 && cases->size() == static_cast<std::size_t>(most)) {
    terminal.out << "These are the " << most << " changed last; --most 0 lists all.\n";
  }
  if (cases->empty()) {
    terminal.out << (words.empty() ? "No cases yet: `dryout guide`, or `dryout case new`.\n"
                                   : "No case has all of these words.\n");
  }
  return Exit::done;
}

Exit start(const Invocation& invocation, const casework::TakeIn& intake) {
  auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(invocation.terminal, workshop.problems());
  }
  const auto number = (*workshop)->start(intake);
  if (!number) {
    return refuse(invocation.terminal, number.problems());
  }
  return show(invocation.terminal, (*workshop)->view(*number));
}

using Step = Result<CaseView> (Workshop::*)(std::int64_t);

Exit step(const Invocation& invocation, const std::string& name, Step step) {
  auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(invocation.terminal, opened.problems());
  }
  return show(invocation.terminal, ((*opened->workshop).*step)(opened->number));
}

void add_step(Commands& commands, CLI::App* parent, const char* name, const char* help, Step way) {
  std::string& number = commands.text();
  commands
      .add(
          name, help,
          [&number, way](const Invocation& invocation) { return step(invocation, number, way); },
          parent)
      ->add_option("case", number, "Case number")
      ->required();
}

void add_take_back(Commands& commands, CLI::App* parent) {
  std::string& name = commands.text();
  int& event = commands.number(0);
  CLI::App* command = commands.add(
      "take-back", "Takes one step of the log back, wherever it stands",
      [&](const Invocation& invocation) {
        auto opened = open_case(invocation.surroundings, name);
        return opened
                   ? show(invocation.terminal, opened->workshop->take_back(opened->number, event))
                   : refuse(invocation.terminal, opened.problems());
      },
      parent);
  command->add_option("case", name, "Case number")->required();
  command->add_option("event", event, "Its number in the log")->required();
}

void add_new(Commands& commands, CLI::App* parent) {
  std::string& equipment = commands.text();
  std::string& set_name = commands.text();
  std::string& owner = commands.text();
  std::string& complaint = commands.text();
  int& year = commands.number(0);
  CLI::App* command = commands.add(
      "new", "Takes a set in",
      [&](const Invocation& invocation) {
        return start(invocation,
                     {equipment, set_name, year == 0 ? std::nullopt : std::optional<int>(year),
                      owner, complaint});
      },
      parent);
  command->add_option("--equipment", equipment, "Nearest architecture (see list equipment)")
      ->required();
  command->add_option("--set", set_name, "Maker and model as the owner says it")->required();
  command->add_option("--year", year, "Year it was built, as far as known");
  command->add_option("--owner", owner, "Owner");
  command->add_option("--complaint", complaint, "The complaint in the owner's words");
}

}  // namespace

void add_case(Commands& commands) {
  CLI::App* parent = commands.root->add_subcommand("case", "Cases: take in, look, act, hand on");
  parent->fallthrough();
  parent->require_subcommand(1);
  add_new(commands, parent);
  std::string& words = commands.text();
  int& most = commands.number(listed_most);
  CLI::App* listing = commands.add(
      "list", "The cases in the store, last changed first",
      [&](const Invocation& invocation) { return list(invocation, words, most); }, parent);
  listing->add_option("--find", words, "Only cases that hold all of these words");
  listing->add_option("--most", most, "How many at most; 0 = all of them")
      ->check(CLI::NonNegativeNumber)
      ->capture_default_str();
  std::string& shown = commands.text();
  commands
      .add(
          "show", "Where a case stands",
          [&shown](const Invocation& invocation) { return show_named(invocation, shown); }, parent)
      ->add_option("case", shown, "Case number or case file")
      ->required();
  add_case_keeping(commands, parent);
  add_take_back(commands, parent);
  add_step(commands, parent, "undo", "Takes the last step back", &Workshop::undo);
  add_step(commands, parent, "redo", "Takes an undone step again", &Workshop::redo);
  add_case_actions(commands, parent);
}

}  // namespace dryout::app
