// What was heeded in a case. A danger is heeded once: where it was heeded at one check, one line
// reminds of it at every later one. A danger of its own kind (a picture tube, a kilovolt bank, a
// live chassis) is heeded by itself.
#pragma once

#include <set>
#include <string>

#include "casework/case_state.h"
#include "casework/danger.h"

namespace dryout::casework {

struct Heeded {
  std::set<std::string> dangers;  ///< "mains", "caution:crt"
  std::set<std::string> read;     ///< ids of cautions that were shown at what was done so far

  /// Nothing at this hazard is left that would have to be heeded first.
  [[nodiscard]] bool covers(const Hazard& hazard) const;
  /// The caution was read, and its danger, with the power on or off, is heeded.
  [[nodiscard]] bool has_read(const Hazard& hazard, const knowledge::Caution& caution) const;
};

/// From the cautions acknowledged, at checks or at parts, and the checks made since.
[[nodiscard]] Heeded heeded_of(const Ground& ground, const CaseState& state);

/// One line instead of the cautions already read; "" where none was. `here`: figures of this place.
[[nodiscard]] std::string reminder_of(const Hazard& hazard, const Heeded& heeded,
                                      const std::string& here);

}  // namespace dryout::casework
