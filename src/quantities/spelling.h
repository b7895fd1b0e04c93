// The nearest accepted word to a misspelt one, for hints: "did you mean ...?".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dryout::quantities {

/// The candidate with the smallest edit distance, if it is near enough to be a slip of the hand:
/// at most a third of the word's length. Ties go to the earlier candidate.
[[nodiscard]] std::optional<std::string> nearest_spelling(
    std::string_view word, const std::vector<std::string_view>& candidates);

}  // namespace dryout::quantities
