// Which parts of an equipment have no transformer between themselves and the mains. What stands
// there meets the mains' surges, and is live to whoever touches it, whatever its rail is called.
#pragma once

#include <string_view>

#include "knowledge/rules.h"

namespace dryout::knowledge {

/// The mains, rectified mains, a chain of heaters across it, and every rail that a block makes of
/// such a one without a transformer: the high tension of a set with a live chassis. An id that the
/// equipment does not have is on no side.
[[nodiscard]] bool is_on_the_mains(const Equipment& equipment, std::string_view rail);

/// A group whose rail is; without a rail, one whose block is fed by such a rail, or is a relay that
/// switches what is.
[[nodiscard]] bool is_on_the_mains(const Equipment& equipment, const PartGroup& group);

}  // namespace dryout::knowledge
