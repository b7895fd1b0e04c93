// Cases as JSON text: whole journals, what was taken back included, so that a case taken in
// elsewhere is the same case. Writing what was read gives the same bytes.
//
//   {"format": "dryout-case", "schema": 1, "identity": "5f0c...", "journal": [
//     {"at": 1772600000, "command": {"do": "take-in", ...}}, {"at": ..., "undo": 2}, ...]}
//   {"format": "dryout-cases", "schema": 1, "cases": [{"identity": ..., "journal": [...]}, ...]}
//
// The identity says who a case is on every bench; a file from before there were any has none.
#pragma once

#include <string>
#include <vector>

#include "casework/journal.h"
#include "quantities/result.h"

namespace dryout::casework {

struct CaseFile {
  std::string identity;  ///< "" = none was given
  Journal journal;
};

[[nodiscard]] std::string case_text(const CaseFile& file);
[[nodiscard]] std::string cases_text(const std::vector<CaseFile>& files);

/// One case or many. `file` is how complaints name the text. Ids are not looked at: admit() does
/// that.
[[nodiscard]] quantities::Result<std::vector<CaseFile>> read_cases_text(const std::string& text,
                                                                        const std::string& file);

}  // namespace dryout::casework
