// Where a command reads and writes, and how it ends. Answers go to `out`, diagnostics to `err`,
// both shown as people may read them (shown_stream.h); with --json exactly one JSON document goes
// to `data` and nothing else.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "documents/value.h"
#include "quantities/problem.h"

namespace dryout::app {

enum class Exit : int {
  done = 0,
  answer_is_no = 1,
  wrong_input = 2,
  internal_fault = 3,
  output_lost = 4  ///< what was printed did not reach its place
};

struct Terminal {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  std::ostream& data;  ///< standard output byte by byte, for documents that programs read
  bool json = false;
};

/// Prints the problems to `err` and ends with wrong_input (or the exit given).
Exit refuse(const Terminal& terminal, const quantities::Problems& problems,
            Exit exit = Exit::wrong_input);

/// Prints one JSON document to `data`.
Exit answer(const Terminal& terminal, const documents::Value& document);

/// "62 %", "0.4 %", "below 0.1 %": a share as a bench reads it.
[[nodiscard]] std::string percent(double share);

}  // namespace dryout::app
