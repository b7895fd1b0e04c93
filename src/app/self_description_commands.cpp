// dryout manual, dryout completion: for packaging, and for whoever builds from source.
#include <CLI/CLI.hpp>
#include <ostream>

#include "app/commands.h"
#include "app/self_description.h"

namespace dryout::app {

void add_self_description(Commands& commands) {
  const CLI::App* root = commands.root;
  commands.add("manual", "Prints the manual page (view it with: man -l FILE)",
               [root](const Invocation& invocation) {
                 invocation.terminal.out << manual_page(*root, DRYOUT_VERSION);
                 return Exit::done;
               });
  commands.add("completion", "Prints what bash needs to complete this program's words",
               [root](const Invocation& invocation) {
                 invocation.terminal.out << bash_completion(*root);
                 return Exit::done;
               });
}

}  // namespace dryout::app
