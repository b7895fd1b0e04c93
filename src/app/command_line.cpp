#include "app/command_line.h"

namespace dryout::app {

int run_command_line(int /*argc*/, char** /*argv*/) { return 2; }

}  // namespace dryout::app
