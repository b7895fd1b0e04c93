// A number that stands beside every event and follows from its place and its content. SQLite reads
// a letter or a digit that turned on the disk without noticing; with the seal such an event is
// refused, instead of a reading of 2.4 coming back as 6.4. Seen only inside this room.
#pragma once

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {

/// Of an event of the case `number`.
[[nodiscard]] std::int64_t seal_of(std::int64_t number, const EventRow& event);

/// Gives SQL the function seal_of(bench_case, sequence, at, kind, body).
[[nodiscard]] quantities::Result<quantities::Done> offer_seals(const Database& database);

/// What is said of an event whose seal is not its own, or that is missing.
[[nodiscard]] quantities::Problem damaged_event(const std::string& store, std::int64_t number,
                                                std::int64_t sequence);

}  // namespace dryout::casestore
