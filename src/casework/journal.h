// The journal of a case: what was done, in order, and never changed. Undoing a step is itself an
// entry that names the step; what stands is found by reading all of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "casestore/case_store.h"
#include "casework/command.h"
#include "quantities/result.h"

namespace dryout::casework {

/// Takes back the command of that sequence, or brings it back.
struct Undo {
  int of = 0;
};
struct Redo {
  int of = 0;
};

struct Entry {
  int sequence = 0;     ///< 1, 2, 3, ...
  std::int64_t at = 0;  ///< seconds since the epoch
  std::variant<Command, Undo, Redo> act;
};

using Journal = std::vector<Entry>;

/// Which commands of a journal are in force.
struct Standing {
  std::vector<const Entry*> in_force;  ///< entries with a Command, oldest first
  std::optional<int> undo;  ///< the newest step that may be taken back (the intake may not)
  std::optional<int> redo;  ///< the step taken back last, until another command is given
};
[[nodiscard]] Standing standing_of(const Journal& journal);

/// Whether an entry may follow: an Undo names a command in force that is not the first, a Redo the
/// step that Standing::redo names.
[[nodiscard]] bool may_follow(const Standing& standing, const Entry& entry);

[[nodiscard]] casestore::NewEvent to_event(const Entry& entry);
/// A journal as the store gives it. What cannot be read is a problem naming the store and event.
[[nodiscard]] quantities::Result<Journal> journal_of(const std::vector<casestore::EventRow>& rows,
                                                     const std::string& store);

}  // namespace dryout::casework
