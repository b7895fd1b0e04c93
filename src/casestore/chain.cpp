#include "casestore/chain.h"

#include <algorithm>
#include <vector>

#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

/// The share of a case in the digest of the store.
Digest share_of(std::int64_t number, const Seen& seen) {
  return Sha256()
      .add("case\n" + std::to_string(number) + '\n' + std::to_string(seen.steps) + '\n')
      .add(bytes_of(seen.digest))
      .finish();
}

/// Digests as numbers of 256 bits, the overflow left out: shares come and go in any order.
Digest plus(const Digest& a, const Digest& b) {
  Digest sum{};
  unsigned carry = 0;
  for (std::size_t i = sum.size(); i-- > 0;) {
    const unsigned byte = unsigned{a[i]} + unsigned{b[i]} + carry;
    sum[i] = static_cast<unsigned char>(byte & 0xffU);
    carry = byte >> 8U;
  }
  return sum;
}

Digest minus(const Digest& a, const Digest& b) {
  Digest difference{};
  unsigned borrow = 0;
  for (std::size_t i = difference.size(); i-- > 0;) {
    const unsigned byte = 0x100U + unsigned{a[i]} - unsigned{b[i]} - borrow;
    difference[i] = static_cast<unsigned char>(byte & 0xffU);
    borrow = byte < 0x100U ? 1U : 0U;
  }
  return difference;
}

struct StoreTotal {
  std::int64_t cases = 0;
  Digest digest{};
};

Result<StoreTotal> recorded_total(const Database& database) {
  auto statement = Statement::prepare(database, "SELECT cases, digest FROM store_head");
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->step();
  if (!row) {
    return row.problems();
  }
  return *row ? StoreTotal{statement->integer(0), statement->digest(1)} : StoreTotal{};
}

Result<Done> record_total(const Database& database, const StoreTotal& total) {
  auto update = Statement::prepare(database, "UPDATE store_head SET cases = ?, digest = ?");
  return update ? update->bind(total.cases).bind(total.digest).finish() : update.problems();
}

Result<Done> chain_case(const Database& database, std::int64_t number, const std::string& identity,
                        std::int64_t generation) {
  auto rows = Statement::prepare(
      database,
      "SELECT sequence, at, kind, body FROM event WHERE bench_case = ? ORDER BY sequence");
  auto update = Statement::prepare(
      database,
      "UPDATE event SET before = ?, generation = ? WHERE bench_case = ? AND sequence = ?");
  if (!rows || !update) {
    return (rows ? update : rows).problems();
  }
  std::vector<EventRow> events;
  auto read = rows->bind(number).for_each_row([&] {
    events.push_back(
        {static_cast<int>(rows->integer(0)), rows->integer(1), rows->text(2), rows->text(3)});
  });
  if (!read || events.empty()) {
    return read;
  }
  Seen head{0, root_of(identity)};
  for (const EventRow& event : events) {
    auto done = update->again()
                    .bind(head.digest)
                    .bind(generation)
                    .bind(number)
                    .bind(event.sequence)
                    .finish();
    if (!done) {
      return done;
    }
    head = {event.sequence, digest_of(head.digest, generation, event)};
  }
  return move_head(database, number, {}, head);
}

Problem missing_case(const Database& database, const std::string& which) {
  return {"a case is missing from the case store",
          {database.path(), 0, {}},
          which,
          "`dryout case restore` with a backup, or `dryout case import` of the case"};
}

}  // namespace

Digest root_of(const std::string& identity) { return sha256("dryout case\n" + identity); }

Digest digest_of(const Digest& before, std::int64_t generation, const EventRow& event) {
  return Sha256()
      .add(bytes_of(before))
      .add('\n' + std::to_string(generation) + '\n' + std::to_string(event.sequence) + '\n' +
           std::to_string(event.at) + '\n' + event.kind + '\n')
      .add(event.body)
      .finish();
}

Result<std::optional<Seen>> head_of(const Database& database, std::int64_t number) {
  auto statement =
      Statement::prepare(database, "SELECT steps, digest FROM case_head WHERE bench_case = ?");
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->bind(number).step();
  if (!row) {
    return row.problems();
  }
  return *row ? std::optional(Seen{static_cast<int>(statement->integer(0)), statement->digest(1)})
              : std::nullopt;
}

Result<Done> move_head(const Database& database, std::int64_t number, const Seen& before,
                       const Seen& after) {
  auto write = Statement::prepare(
      database,
      "INSERT INTO case_head VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET steps = excluded.steps, "
      "digest = excluded.digest");
  if (!write) {
    return write.problems();
  }
  if (auto done = write->bind(number).bind(after.steps).bind(after.digest).finish(); !done) {
    return done;
  }
  auto total = recorded_total(database);
  if (!total) {
    return total.problems();
  }
  if (before.steps == 0) {
    ++total->cases;
  } else {
    total->digest = minus(total->digest, share_of(number, before));
  }
  total->digest = plus(total->digest, share_of(number, after));
  return record_total(database, *total);
}

Digest with_share(const Digest& total, std::int64_t number, const Seen& head) {
  return plus(total, share_of(number, head));
}

Result<StoreMark> mark_of_store(const Database& database) {
  auto statement = Statement::prepare(database, "SELECT bench, generation FROM store_head");
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->step();
  if (!row) {
    return row.problems();
  }
  return *row ? StoreMark{statement->text(0), statement->integer(1)} : StoreMark{};
}

Result<Done> begin_generation(const Database& database, const std::string& cause,
                              const std::string& bench) {
  auto begin = Statement::prepare(
      database,
      "INSERT INTO generation VALUES (random(), CAST(strftime('%s', 'now') AS INTEGER), ?)");
  if (!begin) {
    return begin.problems();
  }
  if (auto begun = begin->bind(cause).finish(); !begun) {
    return begun;
  }
  auto mark =
      Statement::prepare(database,
                         "UPDATE store_head SET generation = ?, bench = coalesce(nullif(?, ''), "
                         "lower(hex(randomblob(4))))");
  if (!mark) {
    return mark.problems();
  }
  const std::int64_t generation = sqlite3_last_insert_rowid(database.handle());
  return mark->bind(generation).bind(bench).finish();
}

Result<Done> chain_journals(const Database& database) {
  if (auto begun = begin_generation(database, "made", ""); !begun) {
    return begun;
  }
  const auto mark = mark_of_store(database);
  auto cases = Statement::prepare(database, "SELECT number, identity FROM bench_case");
  if (!mark || !cases) {
    return mark ? cases.problems() : mark.problems();
  }
  std::vector<std::pair<std::int64_t, std::string>> all;
  if (auto read = cases->for_each_row([&] { all.emplace_back(cases->integer(0), cases->text(1)); });
      !read) {
    return read;
  }
  for (const auto& [number, identity] : all) {
    if (auto chained = chain_case(database, number, identity, mark->generation); !chained) {
      return chained;
    }
  }
  return Done{};
}

Result<Done> check_heads(const Database& database, Problems& problems) {
  auto heads = Statement::prepare(
      database,
      "SELECT h.bench_case, h.steps, h.digest, c.number IS NOT NULL, (SELECT count(*) FROM event "
      "WHERE event.bench_case = h.bench_case) FROM case_head AS h LEFT JOIN bench_case AS c ON "
      "c.number = h.bench_case");
  const auto recorded = recorded_total(database);
  if (!heads || !recorded) {
    return recorded ? heads.problems() : recorded.problems();
  }
  StoreTotal counted;
  auto read = heads->for_each_row([&] {
    const std::int64_t number = heads->integer(0);
    const Seen head{static_cast<int>(heads->integer(1)), heads->digest(2)};
    ++counted.cases;
    counted.digest = plus(counted.digest, share_of(number, head));
    if (heads->integer(3) == 0 || heads->integer(4) == 0) {
      problems.push_back(missing_case(database, "case " + std::to_string(number) + ", which had " +
                                                    std::to_string(head.steps) +
                                                    (head.steps == 1 ? " step" : " steps")));
    }
  });
  if (!read) {
    return read;
  }
  auto unheaded = Statement::prepare(
      database,
      "SELECT number FROM bench_case WHERE number NOT IN (SELECT bench_case FROM case_head)");
  if (!unheaded) {
    return unheaded.problems();
  }
  read = unheaded->for_each_row([&] {
    problems.push_back({"a case stands outside the record of the case store",
                        {database.path(), 0, {}},
                        "case " + unheaded->text(0) + ": how many steps it had, nobody knows",
                        "`dryout case restore` with a backup, or `dryout case rescue`"});
  });
  if (!read) {
    return read;
  }
  if (counted.cases != recorded->cases) {
    problems.push_back(missing_case(database, std::to_string(recorded->cases) +
                                                  " cases on record, " +
                                                  std::to_string(counted.cases) + " found"));
  } else if (counted.digest != recorded->digest) {
    problems.push_back({"the record of the whole case store does not follow from its cases",
                        {database.path(), 0, {}},
                        "a case is not as it was written",
                        "`dryout case restore` with a backup, or `dryout case rescue`"});
  }
  return Done{};
}

}  // namespace dryout::casestore
