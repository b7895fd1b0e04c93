// The program's door. With words after the name it is the command line; alone it opens the bench
// window, or, where there is no display, says so and names the guided session.
#include "app/command_line.h"

int main(int argc, char** argv) { return dryout::app::run_command_line(argc, argv); }
