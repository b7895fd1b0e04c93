// What was done to a case, step by step, as it was written down: no rule is asked, so that a case
// can be read whatever its equipment, its rules or its store have come to.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "casestore/salvage.h"
#include "quantities/result.h"

namespace dryout::casework {

struct PlainLine {
  int event = 0;
  std::string when;     ///< local time; "" = the step is not there
  std::string kind;     ///< the word of the command: take-in, record-reading, undo, ...
  std::string text;     ///< "item C12, kind esr, value 2.4"
  bool undone = false;  ///< a later step takes it back
  bool sound = true;    ///< false: damaged or missing
};

struct PlainLog {
  std::int64_t number = 0;
  std::string set_name;
  std::vector<PlainLine> lines;
};

/// The members of a step's body as they stand: "item C12, kind esr, value 2.4".
[[nodiscard]] std::string plain_text(const std::string& body);

[[nodiscard]] PlainLog plain_log_of(const casestore::SalvagedCase& salvaged);

/// From a store, without opening more of it than must be: a store that is damaged or may not be
/// written will do.
[[nodiscard]] quantities::Result<PlainLog> plain_log(const std::string& store, std::int64_t number);
/// From the text of a case file, whole or not: its first case.
[[nodiscard]] quantities::Result<PlainLog> plain_log_of_text(const std::string& text,
                                                             const std::string& file);

}  // namespace dryout::casework
