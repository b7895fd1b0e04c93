#include "casestore/journal_rows.h"

#include <algorithm>

#include "casestore/chain.h"
#include "casestore/seal.h"

namespace dryout::casestore {
namespace {

using quantities::Result;

struct Link {
  EventRow event;
  Digest before{}, digest{};
  bool sealed = false;  ///< its seal is its own
  bool sound = false;
};

Result<std::vector<Link>> links_after(const Database& database, std::int64_t number, int after) {
  auto statement =
      Statement::prepare(database,
                         "SELECT sequence, at, kind, body, seal, before, generation FROM event "
                         "WHERE bench_case = ? AND sequence > ? ORDER BY sequence");
  if (!statement) {
    return statement.problems();
  }
  statement->bind(number).bind(after);
  std::vector<Link> links;
  const auto done = statement->for_each_row([&] {
    Link& link = links.emplace_back();
    link.event = {static_cast<int>(statement->integer(0)), statement->integer(1),
                  statement->text(2), statement->text(3)};
    link.before = statement->digest(5);
    link.digest = digest_of(link.before, statement->integer(6), link.event);
    link.sealed = seal_of(number, link.event) == statement->integer(4);
  });
  return done ? Result<std::vector<Link>>(std::move(links)) : done.problems();
}

/// From the newest backwards: a step is sound if its seal is its own and the one that follows it,
/// itself sound, follows nothing else. Where what follows cannot say, the seal must do.
void weigh(std::vector<Link>& links, const Seen& head) {
  const Digest* follows = &head.digest;
  int follower = head.steps + 1;
  for (auto link = links.rbegin(); link != links.rend(); ++link) {
    const bool heard = follows != nullptr && follower == link->event.sequence + 1;
    link->sound =
        link->sealed && link->event.sequence <= head.steps && (!heard || *follows == link->digest);
    follows = link->sound ? &link->before : nullptr;
    follower = link->event.sequence;
  }
}

}  // namespace

Result<Digest> digest_at(const Database& database, std::int64_t number, int steps,
                         const Seen& head) {
  if (steps == head.steps) {
    return head.digest;
  }
  auto statement = Statement::prepare(
      database, "SELECT before FROM event WHERE bench_case = ? AND sequence = ?");
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->bind(number).bind(steps + 1).step();
  if (!row) {
    return row.problems();
  }
  return *row ? statement->digest(0) : Digest{};
}

Result<std::string> identity_of(const Database& database, std::int64_t number) {
  auto statement = Statement::prepare(database, "SELECT identity FROM bench_case WHERE number = ?");
  if (!statement) {
    return statement.problems();
  }
  const auto row = statement->bind(number).step();
  if (!row) {
    return row.problems();
  }
  return *row ? statement->text(0) : std::string();
}

Result<CaseJournal> journal_rows(const Database& database, std::int64_t number, const Seen& seen) {
  const auto snapshot = Snapshot::of(database);  // record and rows of one moment
  if (!snapshot) {
    return snapshot.problems();
  }
  const auto head = head_of(database, number);
  if (!head) {
    return head.problems();
  }
  const Seen newest = head->value_or(Seen{});
  CaseJournal journal;
  int after = seen.steps;
  if (seen.digest != Digest{}) {
    const auto then = digest_at(database, number, seen.steps, newest);
    if (!then) {
      return then.problems();
    }
    journal.parted = seen.steps > newest.steps || *then != seen.digest;
    after = journal.parted ? 0 : after;
  }
  auto links = links_after(database, number, after);
  if (!links) {
    return links.problems();
  }
  weigh(*links, newest);
  int due = after + 1;
  for (Link& link : *links) {
    const int sequence = link.event.sequence;
    for (; due < sequence && due <= newest.steps; ++due) {
      journal.damaged.push_back(due);
    }
    if (link.sound) {
      journal.events.push_back(std::move(link.event));
    } else {
      journal.damaged.push_back(sequence);
    }
    due = std::max(due, sequence + 1);
  }
  for (; due <= newest.steps; ++due) {
    journal.damaged.push_back(due);
  }
  journal.seen = newest;
  return journal;
}

}  // namespace dryout::casestore
