#include "casework/measuring_at.h"

#include <algorithm>

namespace dryout::casework {

const MeasuringView* measuring_at(const CaseView& view, const std::string& item, ReadingKind kind) {
  const std::string word(readings::word_of(kind));
  // A part's printed name comes before a group of the same name, as it does for a reading.
  for (const std::string prefix : {"", "part:", "group:"}) {
    const std::string id = prefix + item;
    const bool known = std::any_of(view.suspects.begin(), view.suspects.end(),
                                   [&](const SuspectView& each) { return each.item == id; });
    const auto found =
        std::find_if(view.measuring.begin(), view.measuring.end(), [&](const MeasuringView& each) {
          return each.item == id &&
                 std::find(each.kinds.begin(), each.kinds.end(), word) != each.kinds.end();
        });
    if (known) {
      return found == view.measuring.end() ? nullptr : &*found;
    }
  }
  return nullptr;
}

}  // namespace dryout::casework
