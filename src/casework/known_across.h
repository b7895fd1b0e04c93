// What the description of the equipment knows to sit across a part while it is measured in circuit,
// so that the technician is asked only where it does not.
#pragma once

#include <optional>
#include <string>

#include "casework/case_ground.h"

namespace dryout::casework {

struct KnownAcross {
  readings::Across across = readings::Across::unknown;
  std::string because;  ///< "3 more electrolytics on the +38 V rail"
};

/// What the group itself says; else, for a role that sits straight across its rail, the other
/// capacitors that do so on the same rail. Nothing where neither is known.
[[nodiscard]] std::optional<KnownAcross> known_across(const Ground& ground,
                                                      const knowledge::PartGroup& group);

}  // namespace dryout::casework
