// Saving what is sound of a store or a case file that is damaged, half-written, of another bench or
// for reading only. No rule is asked and nothing is written but new files in a folder.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "casestore/salvage.h"
#include "quantities/result.h"

namespace dryout::casework {

struct RescuedCase {
  std::int64_t number = 0;
  std::string set_name;
  std::string text;  ///< a case file; "" = no step of it could be put into one
  int steps = 0;     ///< in it
  /// The text bears a chain: all of the case is as it was written. Where steps are lost, or the
  /// chain of the file or the records of the store say otherwise, nobody can vouch for it.
  bool chained = false;
};

struct Rescue {
  std::vector<RescuedCase> cases;
  std::vector<std::string> lost;   ///< what could not be saved or vouched for, one sentence each
  std::vector<std::string> aside;  ///< what was found and stands in no case, as it was found
};

/// Of the bytes of a store or a case file at `path`. Refused only where they cannot be read.
[[nodiscard]] quantities::Result<Rescue> rescue(const std::string& path);

/// The entries of a text of one case or many that can still be read, by their braces. One that
/// cannot keeps its number.
[[nodiscard]] casestore::Salvage salvage_text(const std::string& text);

}  // namespace dryout::casework
