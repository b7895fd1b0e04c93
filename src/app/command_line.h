// The command line: one command per file, all over the same casework as the window.
// Exit codes: 0 done, 1 the answer is "no", 2 wrong usage or unreadable input, 3 internal fault.
#pragma once

namespace dryout::app {

[[nodiscard]] int run_command_line(int argc, char** argv);

}  // namespace dryout::app
