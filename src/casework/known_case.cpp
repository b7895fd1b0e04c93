#include "casework/known_case.h"

#include <algorithm>

namespace dryout::casework {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

bool same_entry(const Entry& a, const Entry& b) {
  const casestore::NewEvent left = to_event(a);
  const casestore::NewEvent right = to_event(b);
  return a.sequence == b.sequence && left.at == right.at && left.kind == right.kind &&
         left.body == right.body;
}

std::string steps_from_to(int first, int last) {
  return first == last ? "step " + std::to_string(first)
                       : "steps " + std::to_string(first) + " to " + std::to_string(last);
}

/// What was shown against what there is.
std::string parting(const Journal& shown, const Journal& found) {
  const auto most = std::min(shown.size(), found.size());
  std::size_t common = 0;
  while (common < most && same_entry(shown[common], found[common])) {
    ++common;
  }
  std::string words =
      "A backup came back, or another store was put in its place, since this case was last shown: ";
  if (common < shown.size()) {
    words += steps_from_to(shown[common].sequence, shown.back().sequence) + " of it " +
             (common + 1 == shown.size() ? "is" : "are") + " no longer there";
  } else {
    words += "its steps are chained otherwise";
  }
  if (common < found.size()) {
    words += ", " + steps_from_to(found[common].sequence, found.back().sequence) +
             (common + 1 == found.size() ? " is new" : " are new");
  }
  return words + '.';
}

bool has_intake(const Journal& journal) {
  const auto* first = journal.empty() ? nullptr : std::get_if<Command>(&journal.front().act);
  return first != nullptr && std::holds_alternative<TakeIn>(*first);
}

}  // namespace

Result<Done> find_store(casestore::CaseStore& store, const std::string& path, StorePlace& place) {
  const casestore::Footing footing = store.footing();
  if (!place.shut && footing == casestore::Footing::stands) {
    return Done{};
  }
  if (!place.shut && footing == casestore::Footing::gone) {
    Problem problem = store.lost_footing();
    const auto saved =
        place.saved_as.empty() ? store.save_what_is_open() : Result<std::string>(place.saved_as);
    if (saved) {
      place.saved_as = *saved;
      problem.accepted = "nothing was written; all that was in it is in " + place.saved_as +
                         ": `dryout case restore` with that file";
    }
    return problem;
  }
  // The old one is closed before the new one is opened: what SQLite keeps of a file in a process is
  // shared between all who have it open there.
  auto none = casestore::CaseStore::open(std::string(casestore::in_memory));
  if (!none) {
    return none.problems();
  }
  place.shut = true;
  store = std::move(*none);
  auto there = casestore::CaseStore::open(path);
  if (!there) {
    return there.problems();
  }
  store = std::move(*there);
  place = {};
  return Done{};
}

Result<KnownCase> catch_up(const casestore::CaseStore& store, const std::string& path,
                           std::int64_t number, KnownCase known) {
  const auto generation = store.generation();
  if (!generation) {
    return generation.problems();
  }
  const auto read = store.journal(number, known.seen);
  if (!read) {
    return read.problems();
  }
  auto newer = journal_of(read->events, path);
  if (!newer) {
    return newer.problems();
  }
  const bool renewed = known.generation != 0 && known.generation != *generation;
  if (read->parted) {
    known.told = parting(known.journal, *newer);
    known.parted = true;
    known.journal = std::move(*newer);
    known.damaged = read->damaged;
  } else {
    if (renewed) {
      known.told =
          "A backup came back, or another store was put in its place, since this case was last "
          "shown; all steps shown are in it.";
    }
    known.journal.insert(known.journal.end(), newer->begin(), newer->end());
    for (const int step : read->damaged) {  // one behind the record is found at every look
      if (std::find(known.damaged.begin(), known.damaged.end(), step) == known.damaged.end()) {
        known.damaged.push_back(step);
      }
    }
  }
  known.seen = read->seen;
  known.generation = *generation;
  if (!has_intake(known.journal)) {
    return Problem{"the intake of this case is damaged in the case store",
                   {path, 0, {}},
                   "case " + std::to_string(number),
                   "`dryout case log` shows what is left, `dryout case restore` with a backup "
                   "brings it back, `dryout case rescue` saves what is sound"};
  }
  return known;
}

std::string words_for_damage(const KnownCase& known) {
  if (known.damaged.empty()) {
    return {};
  }
  constexpr std::size_t named_most = 10;
  std::string numbers;
  for (std::size_t i = 0; i < std::min(named_most, known.damaged.size()); ++i) {
    numbers += (i == 0 ? "" : ", ") + std::to_string(known.damaged[i]);
  }
  numbers += known.damaged.size() > named_most ? ", ..." : "";
  const bool one = known.damaged.size() == 1;
  return (one ? "Step " : "Steps ") + numbers + (one ? " is" : " are") +
         " damaged in the case store, or missing, and left out: `dryout case restore` with a "
         "backup brings " +
         (one ? "it" : "them") + " back.";
}

void add_notices(const KnownCase& known, const std::vector<std::string>& words, CaseView& view) {
  for (const std::string& word : {known.told, words_for_damage(known)}) {
    if (!word.empty()) {
      view.notices.push_back(word);
    }
  }
  view.notices.insert(view.notices.end(), words.begin(), words.end());
}

}  // namespace dryout::casework
