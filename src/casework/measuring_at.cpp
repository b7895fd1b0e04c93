#include "casework/measuring_at.h"

#include <algorithm>

#include "quantities/spelling.h"

namespace dryout::casework {

const SuspectView* suspect_called(const CaseView& view, const std::string& name) {
  // A part's printed name comes before a group of the same name, as it does for a reading.
  for (const std::string& id :
       {name, "part:" + name, "group:" + name, "part:" + quantities::in_capitals(name)}) {
    const auto found = std::find_if(view.suspects.begin(), view.suspects.end(),
                                    [&id](const SuspectView& each) { return each.item == id; });
    if (found != view.suspects.end()) {
      return &*found;
    }
  }
  return nullptr;
}

const MeasuringView* measuring_at(const CaseView& view, const std::string& item, ReadingKind kind) {
  const SuspectView* suspect = suspect_called(view, item);
  if (suspect == nullptr) {
    return nullptr;
  }
  const std::string word(readings::word_of(kind));
  const auto found =
      std::find_if(view.measuring.begin(), view.measuring.end(), [&](const MeasuringView& each) {
        return each.item == suspect->item &&
               std::find(each.kinds.begin(), each.kinds.end(), word) != each.kinds.end();
      });
  return found == view.measuring.end() ? nullptr : &*found;
}

}  // namespace dryout::casework
