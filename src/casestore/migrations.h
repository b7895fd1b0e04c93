// How a store grows from version to version. One file per step, never edited once released; the
// version a store has reached stands in its user_version.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "casestore/database.h"
#include "quantities/result.h"

namespace dryout::casestore {

/// Stands in the file's header (SQLite's application_id), so that a foreign database is refused
/// before anything is written to it. The letters "DryO".
inline constexpr std::int64_t application_id = 0x4472794F;

/// SQL of each step; step i leads from version i to i + 1.
[[nodiscard]] const std::vector<std::string>& migrations();
[[nodiscard]] std::string migration_1();  ///< cases and their journals
[[nodiscard]] std::string migration_2();  ///< full-text search
[[nodiscard]] std::string migration_3();  ///< identities; symptoms, parts, causes found by field
[[nodiscard]] std::string migration_4();  ///< facts for statistics, counted as they are written
[[nodiscard]] std::string migration_5();  ///< a seal on every event
[[nodiscard]] std::string migration_6();  ///< beginnings of one letter found at once
[[nodiscard]] std::string migration_7();  ///< steps hang together in a chain

/// Brings the store to the newest version. An older store that holds anything is first copied to
/// "<path>.version-<n>.backup" (with a number behind where that name is taken).
[[nodiscard]] quantities::Result<quantities::Done> migrate(const Database& database);

/// The same without a copy, for what is a copy itself.
[[nodiscard]] quantities::Result<quantities::Done> run_missing_steps(const Database& database);

/// Refuses what is not ours, or is of a version newer than we know, before anything is written.
[[nodiscard]] quantities::Result<quantities::Done> recognise(const Database& database);

/// Gives SQL the functions that migrations ask for.
[[nodiscard]] quantities::Result<quantities::Done> offer_functions(const Database& database);

/// Two programs that open a new store at once may each find the other in the way for a moment;
/// SQLite does not wait by itself while the mode changes.
[[nodiscard]] quantities::Result<quantities::Done> use_write_ahead_log(const Database& database);

/// "<stem>", or with a number behind where that name is taken.
[[nodiscard]] std::string free_name(const std::string& stem);

/// Puts the content of one store in the place of another's, all or nothing, also while others read.
/// Nobody else writes to `to` from before `meanwhile` runs until it is done; where `meanwhile`
/// refuses, nothing has changed.
using Meanwhile = std::function<quantities::Result<quantities::Done>()>;
[[nodiscard]] quantities::Result<quantities::Done> copy_content(const Database& from,
                                                                const Database& to,
                                                                const Meanwhile& meanwhile = {});
/// Copies the whole store, also while others write, into a new file readable by its user alone.
[[nodiscard]] quantities::Result<quantities::Done> copy_store(const Database& database,
                                                              const std::string& destination);
/// The same under a name that nothing has: "<stem>", or with a number behind. The name.
[[nodiscard]] quantities::Result<std::string> copy_to_free_name(const Database& database,
                                                                const std::string& stem);
/// Makes an empty file readable by its user alone; a file that is already there is a problem.
[[nodiscard]] quantities::Result<quantities::Done> make_private_file(const std::string& path);

}  // namespace dryout::casestore
