#include "casework/what_if.h"

#include <algorithm>
#include <cmath>

#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

constexpr double told_from = 0.01;
constexpr std::size_t changes_max = 6;

double size_of(const WhatIfChange& change) {
  return std::abs(change.then.value() - change.now.value());
}

/// "81 %"; certainty is not shown where there is none.
std::string share(quantities::Probability p) {
  const double percent = 100.0 * p.value();
  return percent < 1.0    ? "below 1 %"
         : percent > 99.0 ? "above 99 %"
                          : quantities::whole_number(percent) + " %";
}

const SuspectView* same(const CaseView& view, const std::string& item) {
  const auto found =
      std::find_if(view.suspects.begin(), view.suspects.end(),
                   [&item](const SuspectView& suspect) { return suspect.item == item; });
  return found == view.suspects.end() ? nullptr : &*found;
}

/// A part named by the question itself was not among the suspects yet: it starts from what is known
/// of it before any evidence.
std::vector<WhatIfChange> changes_of(const CaseView& now, const CaseView& then) {
  std::vector<WhatIfChange> changes;
  for (const SuspectView& suspect : then.suspects) {
    const SuspectView* before = same(now, suspect.item);
    changes.push_back({suspect.item, suspect.title,
                       before == nullptr ? suspect.before : before->suspicion, suspect.suspicion});
  }
  changes.erase(
      std::remove_if(changes.begin(), changes.end(),
                     [](const WhatIfChange& change) { return size_of(change) < told_from; }),
      changes.end());
  std::stable_sort(
      changes.begin(), changes.end(),
      [](const WhatIfChange& a, const WhatIfChange& b) { return size_of(a) > size_of(b); });
  if (changes.size() > changes_max) {
    changes.resize(changes_max);
  }
  return changes;
}

}  // namespace

WhatIfView compare(const CaseView& now, const CaseView& then) {
  WhatIfView view;
  view.changes = changes_of(now, then);
  view.leading = then.leading.sentence;
  if (view.changes.empty()) {
    view.sentence = "Next to nothing would change.";
  } else {
    const WhatIfChange& first = view.changes.front();
    view.sentence = first.title + (first.then.value() > first.now.value() ? ": up" : ": down") +
                    " from " + share(first.now) + " to " + share(first.then) + '.';
  }
  const auto asked_about = [&now](const ReadingView& reading) {
    return std::none_of(
        now.readings.begin(), now.readings.end(),
        [&reading](const ReadingView& known) { return known.event == reading.event; });
  };
  const auto reading = std::find_if(then.readings.begin(), then.readings.end(), asked_about);
  if (reading != then.readings.end()) {
    view.reading = reading->sentence;
  }
  if (!then.next.empty()) {
    const CheckView& check = then.next.front();
    view.next = check.title + (check.place_title.empty() ? "" : ", " + check.place_title);
  }
  return view;
}

}  // namespace dryout::casework
