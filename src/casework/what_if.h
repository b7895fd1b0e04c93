// "What would change if it read 2 ohm?": two views of one case held side by side, one as it stands
// and one as it would stand.
#pragma once

#include <string>
#include <vector>

#include "casework/case_view.h"

namespace dryout::casework {

struct WhatIfChange {
  std::string item, title;
  quantities::Probability now, then;
};

struct WhatIfView {
  std::string sentence;  ///< the largest change, in one sentence
  std::string reading;   ///< what the reading would prove, "" where none is asked about
  std::string leading;   ///< where the case would stand
  std::string next;      ///< the check that would then come first, "" = none
  std::vector<WhatIfChange> changes;  ///< by a percent point or more, largest first, at most six
};

/// Both are views of the same case.
[[nodiscard]] WhatIfView compare(const CaseView& now, const CaseView& then);

}  // namespace dryout::casework
