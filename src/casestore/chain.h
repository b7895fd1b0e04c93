// How the steps of a case hang together: each bears the digest of the one before it, which follows
// from that one's content and its own predecessor; the newest is on record beside the journal, and
// over all cases a digest of the whole store. A step or a case that is missing, foreign or of
// another store therefore shows; a bit that turned, too (seal.h tells which step it is). Seen only
// inside this room.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {

/// What the first step of a case follows: who the case is.
[[nodiscard]] Digest root_of(const std::string& identity);
/// Of a step of a store's generation that follows `before`.
[[nodiscard]] Digest digest_of(const Digest& before, std::int64_t generation,
                               const EventRow& event);

/// The newest step of a case as it is on record; nothing where there is no such case.
[[nodiscard]] quantities::Result<std::optional<Seen>> head_of(const Database& database,
                                                              std::int64_t number);
/// Brings the record of a case, and that of the store, from `before` (0 steps: a new case) to
/// `after`.
[[nodiscard]] quantities::Result<quantities::Done> move_head(const Database& database,
                                                             std::int64_t number,
                                                             const Seen& before, const Seen& after);

/// The digest of the whole store with the share of one more case in it.
[[nodiscard]] Digest with_share(const Digest& total, std::int64_t number, const Seen& head);

/// Who the store is: its bench, drawn when it was made, and its generation, drawn anew whenever a
/// backup comes back.
struct StoreMark {
  std::string bench;  ///< 8 hexadecimal digits
  std::int64_t generation = 0;
};
[[nodiscard]] quantities::Result<StoreMark> mark_of_store(const Database& database);
/// A new generation, for `cause` ("made", "restored"); an empty bench is drawn at random.
[[nodiscard]] quantities::Result<quantities::Done> begin_generation(const Database& database,
                                                                    const std::string& cause,
                                                                    const std::string& bench);

/// Chains every journal of a store from before there were chains, as it now reads.
[[nodiscard]] quantities::Result<quantities::Done> chain_journals(const Database& database);

/// Records against journals, and the store's against those of the cases.
[[nodiscard]] quantities::Result<quantities::Done> check_heads(const Database& database,
                                                               quantities::Problems& problems);

}  // namespace dryout::casestore
