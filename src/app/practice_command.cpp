// dryout practice: a set with hidden faults for a novice to find, and afterwards what it cost and
// where an expert would have gone. Nothing of it is kept.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>
#include <random>
#include <tuple>

#include "app/commands.h"
#include "app/conversation.h"
#include "app/print_view.h"
#include "casework/practice.h"

namespace dryout::app {
namespace {

using casework::CheckView;
using casework::Practice;
using casework::PracticeTally;
using documents::Value;

constexpr const char* novice_keys =
    "  c check something   m mend something   s suspects   h a hint: the check we would make\n"
    "  q give up and see what it was";

/// The novice is to choose, so the checks stand in the order of their titles, not of their worth.
std::vector<const CheckView*> by_title(const casework::CaseView& view) {
  std::vector<const CheckView*> checks;
  checks.reserve(view.next.size());
  for (const CheckView& check : view.next) {
    checks.push_back(&check);
  }
  std::sort(checks.begin(), checks.end(), [](const CheckView* a, const CheckView* b) {
    return std::tie(a->title, a->place_title) < std::tie(b->title, b->place_title);
  });
  return checks;
}

void make_check(const Conversation& talk, Practice& practice) {
  const auto checks = by_title(practice.view());
  std::vector<std::string> titles;
  std::vector<std::string> marks;
  titles.reserve(checks.size());
  marks.reserve(checks.size());
  for (const CheckView* check : checks) {
    titles.push_back(check->title + ": " + check->place_title + " (" +
                     quantities::format_duration(check->effort + check->access_effort) + ")");
    marks.push_back(check->check + ' ' + check->place + ' ' + check->title + ' ' +
                    check->place_title);
  }
  const auto picked =
      talk.pick("Which check? (a number, or words to narrow the list)", titles, marks);
  if (!picked) {
    return;
  }
  const CheckView& check = *checks[*picked];
  print_check(talk.out(), check);
  if (!check.acknowledged && talk.ask("Type heeded when you have read the cautions:") != "heeded") {
    talk.out() << "Then leave it alone.\n";
    return;
  }
  if (const auto bad = practice.check(check)) {
    talk.out() << (*bad ? "It looks BAD.\n" : "It looks good.\n");
  } else {
    talk.out() << quantities::describe(bad.problems());
  }
}

void mend(const Conversation& talk, Practice& practice) {
  std::vector<std::string> titles;
  titles.reserve(practice.view().suspects.size());
  for (const casework::SuspectView& suspect : practice.view().suspects) {
    titles.push_back(suspect.title);
  }
  const auto picked = talk.pick("What is mended? (a number, or words)", titles, titles);
  if (!picked) {
    return;
  }
  if (const auto cured = practice.mend(practice.view().suspects[*picked])) {
    talk.out() << (*cured ? "The complaint is gone.\n" : "The set still does it.\n");
  } else {
    talk.out() << quantities::describe(cured.problems());
  }
}

/// False where the novice gives up.
bool turn(const Conversation& talk, Practice& practice) {
  const auto said = talk.ask(std::string(novice_keys) + "\n>");
  if (!said || *said == "q") {
    return false;
  }
  if (*said == "c") {
    make_check(talk, practice);
  } else if (*said == "m") {
    mend(talk, practice);
  } else if (*said == "s") {
    print_suspects(talk.out(), practice.view(), 10);
  } else if (*said == "h" && !practice.view().next.empty()) {
    print_check(talk.out(), practice.view().next.front());
  }
  return true;
}

void print(std::ostream& out, const std::string& who, const PracticeTally& tally) {
  out << who << ": " << quantities::format_duration(tally.spent) << ", " << tally.checks
      << (tally.checks == 1 ? " check (" : " checks (") << tally.dangerous_checks << " dangerous), "
      << tally.mended << " mended, " << tally.needless << " of them needlessly, "
      << (tally.cured ? "complaint gone" : "complaint still there") << '\n';
}

void debrief(std::ostream& out, const Practice& yours, const Practice& advised) {
  out << "\nWhat was wrong:\n";
  for (const std::string& fault : yours.faults()) {
    out << "  " << fault << '\n';
  }
  print(out, "You", yours.tally());
  print(out, "By the program's advice", advised.tally());
  out << "Where that went:\n";
  for (const casework::PracticeStep& step : advised.steps()) {
    out << "  " << step.text << "  (" << quantities::format_duration(step.spent) << ")\n";
  }
}

Value practice_json(const Practice& practice) {
  Value steps = Value::array();
  for (const casework::PracticeStep& step : practice.steps()) {
    steps.append(Value::object({{"text", step.text}, {"seconds", step.spent.si()}}));
  }
  const PracticeTally& tally = practice.tally();
  return Value::object({{"seconds", tally.spent.si()},
                        {"checks", tally.checks},
                        {"dangerous_checks", tally.dangerous_checks},
                        {"mended", tally.mended},
                        {"needless", tally.needless},
                        {"cured", tally.cured},
                        {"steps", std::move(steps)}});
}

struct PracticeWish {
  std::string& equipment;
  int& seed;
  bool& show;
};

Exit practise(const Invocation& invocation, const PracticeWish& asked) {
  const Terminal& terminal = invocation.terminal;
  Surroundings surroundings = invocation.surroundings;
  surroundings.store = std::string(casework::in_memory);
  const auto workshop = open_workshop(surroundings);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  const auto seed = static_cast<std::uint64_t>(
      asked.seed > 0 ? asked.seed : static_cast<int>(std::random_device{}() % 1'000'000U) + 1);
  auto yours = Practice::begin(**workshop, asked.equipment, seed);
  auto advised = Practice::begin(**workshop, asked.equipment, seed);
  if (!yours || !advised) {
    return refuse(terminal, yours ? advised.problems() : yours.problems());
  }
  if (const auto done = follow_advice(*advised); !done) {
    return refuse(terminal, done.problems());
  }
  if (asked.show || terminal.json) {
    Value faults = Value::array();
    for (const std::string& fault : yours->faults()) {
      faults.append(fault);
    }
    const Value told = Value::object({{"seed", static_cast<double>(seed)},
                                      {"faults", std::move(faults)},
                                      {"advised", practice_json(*advised)}});
    if (terminal.json) {
      return answer(terminal, told);
    }
    debrief(terminal.out, *yours, *advised);
    return Exit::done;
  }
  const Conversation talk(terminal);
  terminal.out << yours->view().equipment_title << ", practice set " << seed
               << ". The owner says:\n";
  for (const casework::SymptomView& symptom : yours->view().symptoms) {
    if (symptom.seen == "yes") {
      terminal.out << "  " << symptom.title << '\n';
    }
  }
  terminal.out << "This is play: on a real set the cautions come first, and local codes and "
                  "licensed practice before them.\n";
  while (!yours->tally().cured && turn(talk, *yours)) {
  }
  debrief(terminal.out, *yours, *advised);
  return Exit::done;
}

}  // namespace

void add_practice(Commands& commands) {
  const PracticeWish asked{commands.text("stereo-receiver"), commands.number(0), commands.flag()};
  CLI::App* command = commands.add(
      "practice", "A set with hidden faults to find; afterwards, where an expert would have gone",
      [asked](const Invocation& invocation) { return practise(invocation, asked); });
  command->add_option("--equipment", asked.equipment,
                      "Kind of equipment (`dryout list equipment`)");
  command->add_option("--seed", asked.seed, "The same number draws the same set")
      ->check(CLI::Range(1, 1'000'000'000));
  command->add_flag("--show", asked.show, "Only shows what was wrong and the advised way");
}

}  // namespace dryout::app
