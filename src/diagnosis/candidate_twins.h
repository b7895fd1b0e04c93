// Checks that come to the same: of a hundred like parts of one batch, told the same, a look at one
// says what a look at another would, with the two in each other's place. Each kind is worked out
// once.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "diagnosis/network.h"

namespace dryout::diagnosis {

/// The candidate of which this one is the image once two items change places.
struct CandidateTwin {
  std::size_t of = 0;  ///< index into the candidates; not a twin itself
  std::size_t its_item = 0;
  std::size_t own_item = 0;
};

/// Per candidate; nothing for the first of its kind, for what looks at several items or at none,
/// and for findings that evidence speaks of. Two items change places unnoticed where cohort, odds,
/// readings and links to all findings observed are the same.
[[nodiscard]] std::vector<std::optional<CandidateTwin>> find_twins(
    const Network& network, const Evidence& evidence, std::span<const std::size_t> candidates);

}  // namespace dryout::diagnosis
