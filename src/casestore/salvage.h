// What can still be read of a store that does not open, or not whole: every step whose seal is its
// own, wherever in the file or its log it lies. Nothing is written; the store may be read-only.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "quantities/result.h"

namespace dryout::casestore {

struct SalvagedCase {
  std::int64_t number = 0;
  std::string identity;               ///< "" = its line in the list of cases is gone
  std::optional<CaseFacts> facts;     ///< from that line: what the intake says, if it is lost
  std::int64_t opened_at = 0;         ///< likewise
  std::vector<EventRow> events;       ///< sound steps, oldest first
  std::vector<int> missing;           ///< steps that should be there
  std::vector<int> beyond;            ///< sealed steps behind the last one on record, put aside
  std::vector<std::string> doubtful;  ///< what was found beside, one text each: another content
  /// Why what is here cannot be held to be what was written, one text each: what `case check` asks
  /// of the record of the case and of its chain.
  std::vector<std::string> unvouched;
  bool bears_chain = true;  ///< false: of a case file from before there were chains
  std::string chain;        ///< of a case file: the digest that it bears
};

struct Salvage {
  std::vector<SalvagedCase> cases;  ///< by number
  std::vector<std::string> lost;    ///< what should be there beside the cases, a sentence each
};

/// The bytes are held in memory while they are gone through.
inline constexpr std::size_t salvaged_bytes_max = std::size_t{4} << 30U;

/// Refused only where it is no file, cannot be read at all, or is larger than that: a device or a
/// pipe might never end.
[[nodiscard]] quantities::Result<Salvage> salvage(const std::string& path);

}  // namespace dryout::casestore
