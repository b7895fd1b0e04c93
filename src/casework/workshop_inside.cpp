#include "casework/workshop_inside.h"

#include "casework/case_facts.h"
#include "casework/plain_view.h"
#include "quantities/check.h"

namespace dryout::casework {

using casestore::Appended;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

namespace {

/// A fault of ours locks no case: it costs the figures.
Result<CaseView> view_of(std::int64_t number, const Journal& journal, const CaseInHand& hand) {
  try {
    return build_view(number, journal, hand);
  } catch (const quantities::InternalFault& fault) {
    const Reasoning plain = without_figures(hand.ground, hand.state, fault.what());
    return build_view(number, journal, {hand.ground, hand.state, plain});
  }
}

}  // namespace

Result<const Journal*> Workshop::Inside::refreshed(std::int64_t number) {
  if (const auto found = find_store(); !found) {
    return found.problems();
  }
  const auto known = cases.find(number);
  auto read = catch_up(store, path, number, known == cases.end() ? KnownCase{} : known->second);
  if (!read) {
    return read.problems();
  }
  KnownCase& now = cases[number] = std::move(*read);
  return &now.journal;
}

Result<Done> Workshop::Inside::rebuild_facts() {
  return store.rebuild_facts([&](const auto& events) { return facts_of_events(events, knowledge); },
                             facts_version);
}

Result<Done> Workshop::Inside::append(std::int64_t number, const MakeEntry& make, bool careful) {
  constexpr int tries = 10;
  const auto known = cases.find(number);
  if (known != cases.end()) {
    known->second.told.clear();  // it has been, by now
  }
  const casestore::Seen seen = known == cases.end() ? casestore::Seen{} : known->second.seen;
  for (int i = 0; i < tries; ++i) {
    const auto journal = refreshed(number);
    if (!journal) {
      return journal.problems();
    }
    KnownCase& now = cases[number];
    if (now.parted) {
      now.parted = false;
      return Problem{"what was shown of this case is not what the store has",
                     {path, 0, {}},
                     now.told,
                     "nothing was written: look at it anew, then do it again"};
    }
    if (careful && seen.steps != 0 && now.seen != seen) {
      return Problem{"the case was changed by another program in the meantime",
                     {path, 0, {}},
                     "",
                     "it is shown anew: look at it, then try again"};
    }
    auto entry = make(**journal);
    if (!entry) {
      return entry.problems();
    }
    entry->sequence = now.seen.steps + 1;  // one that is missing keeps its number
    Journal longer = **journal;
    longer.push_back(*entry);
    const auto appended = store.append_event(number, now.seen, to_event(*entry),
                                             facts_of(state_of(longer), knowledge));
    if (!appended) {
      return appended.problems();
    }
    if (*appended == Appended::written) {
      return Done{};
    }
  }
  return Problem{"other programs keep changing this case", {path, 0, {}}, "", "try again"};
}

Result<CaseView> Workshop::Inside::show_written(std::int64_t number, const Result<Done>& written) {
  if (!written) {
    return written.problems();
  }
  auto view = show(number);
  cases[number].told.clear();  // it has been, by now
  return view;
}

Result<CaseView> Workshop::Inside::show(std::int64_t number) {
  const auto journal = refreshed(number);
  if (!journal) {
    return journal.problems();
  }
  cases[number].parted = false;
  return shown(number);
}

Result<CaseView> Workshop::Inside::shown(std::int64_t number) {
  const KnownCase& known = cases.at(number);
  auto made = view(number);
  if (!made) {
    made = plain_view(number, known, made.problems());
  }
  add_notices(known, words, *made);
  return made;
}

void Workshop::Inside::take(const CaseCopy& copy) {
  cases.clear();  // one at a time: nobody comes back to an older copy
  cases.emplace(copy.number, copy.known);
  words = copy.words;
}

const Reasoning& Workshop::Inside::thought_of(std::int64_t number, const Ground& ground,
                                              const CaseState& state) {
  const KnownCase& known = cases.at(number);
  const bool same = thought && thought->number == number && thought->seen == known.seen &&
                    thought->sound_steps == known.journal.size() &&
                    thought->edition == grounds.edition();
  if (!same) {
    thought =
        Thought{number, known.seen, known.journal.size(), grounds.edition(), reason(ground, state)};
  }
  return thought->reasoning;
}

Result<CaseView> Workshop::Inside::view(std::int64_t number) {
  return reasoned(number, [&](const CaseInHand& hand) {
    return view_of(number, cases.at(number).journal, hand);
  });
}

Result<CaseView> Workshop::Inside::view(std::int64_t number, const Journal& journal) {
  const CaseState state = state_of(journal);
  const auto ground = grounds.of(state);
  if (!ground) {
    return ground.problems();
  }
  return view_of(number, journal, {**ground, state, reason(**ground, state)});
}

}  // namespace dryout::casework
