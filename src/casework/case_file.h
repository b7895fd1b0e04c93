// Cases as JSON text: whole journals, what was taken back included, so that a case taken in
// elsewhere is the same case. Writing what was read gives the same bytes.
//
//   {"format": "dryout-case", "schema": 1, "identity": "5f0c...", "chain": "9b1e...", "journal": [
//     {"at": 1772600000, "command": {"do": "take-in", ...}}, {"at": ..., "undo": 2}, ...]}
//   {"format": "dryout-cases", "schema": 1, "cases": [
//     {"identity": ..., "chain": ..., "journal": [...]}, ...]}
//
// The identity says who a case is on every bench; a file from before there were any has none. The
// chain is the digest in which the steps hang together (casestore/journal_digest.h); a file from
// before there were any has none and is read, one whose steps are others is refused.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "casework/journal.h"
#include "documents/reader.h"
#include "quantities/result.h"

namespace dryout::casework {

struct CaseFile {
  std::string identity;  ///< "" = none was given
  Journal journal;
  bool chained = false;  ///< it was read from a file that bears its chain
};

/// Of one file of one case, or of one case among many.
inline constexpr std::size_t case_bytes_max = std::size_t{512} << 20U;

[[nodiscard]] std::string case_text(const CaseFile& file);
[[nodiscard]] std::string cases_text(const std::vector<CaseFile>& files);

/// As one of many: the element of "cases", without a line break at its end.
[[nodiscard]] std::string case_among_many(const CaseFile& file);
/// What stands before the first of many, between two, and behind the last.
[[nodiscard]] std::string_view many_begin();
inline constexpr std::string_view many_between = ",\n";
inline constexpr std::string_view many_end = "\n  ]\n}\n";
/// One of many, as read from `line` of the file on; `index` among them names it in complaints.
[[nodiscard]] quantities::Result<CaseFile> read_case_among_many(const std::string& text,
                                                                const std::string& file, int line,
                                                                std::size_t index);

/// What stands in a file of many beside its cases: whether it is one of ours, and not newer.
void check_heading_of_many(const documents::Reader& root);
/// Whether a file holds many cases, by how it begins: then it is read case by case.
[[nodiscard]] bool begins_as_many(const std::string& path);
/// The format of the bundle that holds all of a shop: cases and, in "own", its own files.
inline constexpr std::string_view format_of_shop = "dryout-shop";

/// One case or many. `file` is how complaints name the text. Ids are not looked at: admit() does
/// that.
[[nodiscard]] quantities::Result<std::vector<CaseFile>> read_cases_text(const std::string& text,
                                                                        const std::string& file);

}  // namespace dryout::casework
