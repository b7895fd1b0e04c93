#include "casestore/chain.h"
#include "casestore/migrations.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Result;

/// The version after which journals are chained, which takes more than SQL.
constexpr std::size_t chains_from = 6;

}  // namespace

/// Takes the write lock, looks again (another program may have been quicker), and steps on.
Result<Done> run_missing_steps(const Database& database) {
  auto transaction = Transaction::begin(database);
  if (!transaction) {
    return transaction.problems();
  }
  const auto version = database.number("PRAGMA user_version");
  if (!version) {
    return version.problems();
  }
  const auto& steps = migrations();
  for (auto i = static_cast<std::size_t>(*version); i < steps.size(); ++i) {
    auto done = database.run(steps[i]);
    if (done && i == chains_from) {
      done = chain_journals(database);
    }
    if (!done) {
      return done;
    }
  }
  const auto marked = database.run("PRAGMA application_id = " + std::to_string(application_id) +
                                   "; PRAGMA user_version = " + std::to_string(steps.size()));
  return marked ? transaction->commit() : marked;
}

const std::vector<std::string>& migrations() {
  static const std::vector<std::string> steps = {migration_1(), migration_2(), migration_3(),
                                                 migration_4(), migration_5(), migration_6(),
                                                 migration_7()};
  return steps;
}

Result<Done> migrate(const Database& database) {
  const auto version = database.number("PRAGMA user_version");
  if (!version) {
    return version.problems();
  }
  if (*version == static_cast<std::int64_t>(migrations().size())) {
    return Done{};
  }
  if (*version > 0) {
    const auto copied = copy_to_free_name(
        database, database.path() + ".version-" + std::to_string(*version) + ".backup");
    if (!copied) {
      return copied.problems();
    }
  }
  return run_missing_steps(database);
}

}  // namespace dryout::casestore
