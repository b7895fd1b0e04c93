// The rows beside a journal: facts of a case, its words in the search index, its readings. Written
// together, in the transaction of the event they follow from. Seen only inside this room.
#pragma once

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {

/// A row for a new case, with everything that stands beside it; its number. An empty identity is
/// drawn at random.
[[nodiscard]] quantities::Result<std::int64_t> insert_case(const Database& database,
                                                           const NewCase& fresh);
/// Brings the facts of a case up to date; what has not changed is not written.
[[nodiscard]] quantities::Result<quantities::Done> update_facts(const Database& database,
                                                                std::int64_t number,
                                                                const CaseFacts& facts);

/// Whether what a person typed stands otherwise beside the journal than in it; `typed` without the
/// words that rules add, the first line of the notes (what the equipment is called) among them.
[[nodiscard]] quantities::Result<bool> typed_words_differ(const Database& database,
                                                          std::int64_t number,
                                                          const CaseFacts& typed);

[[nodiscard]] quantities::Result<CaseStatistics> statistics_of(const Database& database,
                                                               std::int64_t number);
[[nodiscard]] quantities::Result<quantities::Done> write_statistics(const Database& database,
                                                                    std::int64_t number,
                                                                    const std::string& equipment,
                                                                    const CaseStatistics& facts);

}  // namespace dryout::casestore
