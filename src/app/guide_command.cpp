// dryout guide [CASE]: the whole job in a terminal.
#include <CLI/CLI.hpp>
#include <ostream>

#include "app/commands.h"
#include "app/guided_session.h"

namespace dryout::app {
namespace {

Exit guide(const Invocation& invocation, const std::string& name) {
  const Terminal& terminal = invocation.terminal;
  const Conversation talk(terminal);
  if (name.empty()) {
    auto workshop = open_workshop(invocation.surroundings);
    if (!workshop) {
      return refuse(terminal, workshop.problems());
    }
    if (const auto demo = lay_out_demo(invocation.surroundings, **workshop); !demo) {
      return refuse(terminal, demo.problems());
    }
    GuidedSession session(talk, **workshop);
    const auto number = session.begin();
    return number ? session.work(*number) : Exit::done;
  }
  auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  if (!opened->kept) {
    terminal.out << "This case comes from a file: it is worked on here, but not kept. Take it in "
                    "with `dryout case import` to keep it.\n";
  }
  return GuidedSession(talk, *opened->workshop).work(opened->number);
}

}  // namespace

void add_guide(Commands& commands) {
  std::string& name = commands.text();
  commands
      .add("guide", "The whole job in a terminal, question by question",
           [&name](const Invocation& invocation) { return guide(invocation, name); })
      ->add_option("case", name, "Case number or case file to go on with");
}

}  // namespace dryout::app
