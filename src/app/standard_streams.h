// Standard output as a promise: what a command says it printed has reached where it was sent.
#pragma once

#include <string>

namespace dryout::app {

/// Streams that were handed in closed are opened on nothing, so that no file of ours takes their
/// place and is printed into; a reader that goes away is noticed instead of ending the program.
void hold_standard_streams();

/// Brings what was printed to its place. Why it did not get there, "" = it did.
[[nodiscard]] std::string why_output_was_lost();

/// Whether standard output is a pipe that nobody reads any more, as behind `| head`: whoever closed
/// it has what they wanted, and nothing needs to be said.
[[nodiscard]] bool reader_of_output_is_gone();

}  // namespace dryout::app
