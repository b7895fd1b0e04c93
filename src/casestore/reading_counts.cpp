#include "casestore/reading_counts.h"

#include <cmath>
#include <set>

#include "casestore/statistics.h"
#include "quantities/engineering_notation.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problems;
using quantities::Result;

/// What reading_count must hold: each reading once for every question (migration_4.cpp has the same
/// five). Readings alike are put together first, for there are many of few kinds.
constexpr std::string_view counted_readings = R"sql(
SELECT technology, kind, iif(by_size, capacitance, -1.0) AS capacitance,
       iif(by_volts, rated, -1.0) AS rated, iif(by_role, role, '*') AS role, decade, standing, bin,
       sum(readings) AS readings, min(bench_case) AS bench_case
FROM (SELECT technology, kind, capacitance, rated, role, coalesce(age / 10, -1) AS decade, standing,
             bin, count(*) AS readings, min(bench_case) AS bench_case
      FROM reading GROUP BY 1, 2, 3, 4, 5, 6, 7, 8),
     (SELECT column1 AS by_size, column2 AS by_volts, column3 AS by_role
      FROM (VALUES (0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0), (0, 0, 1)))
GROUP BY 1, 2, 3, 4, 5, 6, 7, 8)sql";

/// What sound_count must hold.
constexpr std::string_view counted_sound = R"sql(
SELECT technology, kind, capacitance, rated, bin, count(*) AS readings,
       min(bench_case) AS bench_case
FROM reading WHERE standing = 1 AND alone = 1 GROUP BY 1, 2, 3, 4, 5)sql";

struct Counts {
  std::string table, columns;
  std::string_view expected;
};

const std::vector<Counts>& all_counts() {
  static const std::vector<Counts> counts = {
      {"reading_count", "technology, kind, capacitance, rated, role, decade, standing, bin",
       counted_readings},
      {"sound_count", "technology, kind, capacitance, rated, bin", counted_sound}};
  return counts;
}

/// Rows that differ: part type, how many are counted and there, a case that has such a reading.
std::string differing(const Counts& counts) {
  return "SELECT technology, kind, capacitance, rated, sum(counted), sum(there), min(bench_case) "
         "FROM (SELECT " +
         counts.columns + ", readings AS counted, 0 AS there, NULL AS bench_case FROM " +
         counts.table + " UNION ALL SELECT " + counts.columns + ", 0, readings, bench_case FROM (" +
         std::string(counts.expected) + ")) GROUP BY " + counts.columns +
         " HAVING sum(counted) IS NOT sum(there)";
}

/// "wet-aluminium, esr, 47 µF, 63 V: 5 counted, 1 there".
std::string difference(const Statement& row) {
  std::string type = row.text(0) + ", " + row.text(1);
  if (row.real(2) > 0.0) {
    type += ", " + format(quantities::Farad(row.real(2)));
  }
  if (row.real(3) > 0.0) {
    type += ", " + format(quantities::Volt(row.real(3)));
  }
  return quantities::excerpt(type) + ": " + row.text(4) + " counted, " + row.text(5) + " there";
}

/// One turned byte shifts many counts: they make one sentence.
Result<Done> hold_against_readings(const Database& database, const Counts& counts,
                                   Problems& problems) {
  auto statement = Statement::prepare(database, differing(counts));
  if (!statement) {
    return statement.problems();
  }
  int others = -1;
  std::string found;
  std::set<std::int64_t> uncounted;  // cases
  auto done = statement->for_each_row([&] {
    if (++others == 0) {
      found = difference(*statement);
    }
    if (statement->integer(5) > statement->integer(4)) {
      uncounted.insert(statement->integer(6));
    }
  });
  if (!done || found.empty()) {
    return done;
  }
  if (others > 0) {
    found += ", and " + std::to_string(others) + " more such counts";
  }
  if (!uncounted.empty()) {
    found += "; look at case " + std::to_string(*uncounted.begin());
  }
  problems.push_back({"readings are not counted as they are",
                      {database.path(), 0, {}},
                      found,
                      "`dryout case check --rebuild`, which counts them anew"});
  return Done{};
}

/// A reading that stands under another size than its value's.
struct Misplaced {
  std::int64_t number = 0;  ///< of the case
  std::int64_t event = 0;
  std::optional<int> bin;  ///< the right one; none where the value itself cannot be
};

Result<std::vector<Misplaced>> misplaced_readings(const Database& database) {
  auto statement =
      Statement::prepare(database, "SELECT bench_case, event, value, bin FROM reading");
  if (!statement) {
    return statement.problems();
  }
  std::vector<Misplaced> found;
  const auto done = statement->for_each_row([&] {
    const double value = statement->real(2);
    const bool possible = std::isfinite(value) && value > 0.0;
    const std::optional<int> bin = possible ? std::optional(bin_of(value)) : std::nullopt;
    if (bin != statement->integer(3)) {
      found.push_back({statement->integer(0), statement->integer(1), bin});
    }
  });
  return done ? Result<std::vector<Misplaced>>(std::move(found)) : done.problems();
}

Result<Done> put_under_their_size(const Database& database) {
  const auto misplaced = misplaced_readings(database);
  if (!misplaced) {
    return misplaced.problems();
  }
  for (const Misplaced& reading : *misplaced) {
    auto update = Statement::prepare(
        database, "UPDATE reading SET bin = ? WHERE bench_case = ? AND event = ?");
    if (!update) {
      return update.problems();
    }
    if (reading.bin) {  // the others are written anew with their value
      auto done = update->bind(*reading.bin).bind(reading.number).bind(reading.event).finish();
      if (!done) {
        return done;
      }
    }
  }
  return Done{};
}

}  // namespace

Result<Done> check_counts(const Database& database, Problems& problems) {
  const auto misplaced = misplaced_readings(database);
  if (!misplaced) {
    return misplaced.problems();
  }
  for (const Misplaced& reading : *misplaced) {
    problems.push_back(
        {"a reading stands under another size than it has",
         {database.path(), 0, {}},
         "case " + std::to_string(reading.number) + ", step " + std::to_string(reading.event),
         "`dryout case check --rebuild`, which makes it anew"});
  }
  for (const Counts& counts : all_counts()) {
    if (auto done = hold_against_readings(database, counts, problems); !done) {
      return done;
    }
  }
  return Done{};
}

Result<Done> recount(const Database& database) {
  if (auto put = put_under_their_size(database); !put) {
    return put;
  }
  for (const Counts& counts : all_counts()) {
    auto done = database.run("DELETE FROM " + counts.table + "; INSERT INTO " + counts.table +
                             " (" + counts.columns + ", readings) SELECT " + counts.columns +
                             ", readings FROM (" + std::string(counts.expected) + ")");
    if (!done) {
      return done;
    }
  }
  return Done{};
}

}  // namespace dryout::casestore
