// Spellings: the nearest accepted word to a misspelt one, for hints ("did you mean ...?"), and the
// one way in which units stand on screen and paper.
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

/// ASCII letters as capitals, as references stand on boards: "c12" is "C12".
[[nodiscard]] std::string in_capitals(std::string_view text);

/// "up to 0.33 uF" and "30 GOhm" as they are shown: "up to 0.33 µF", "30 GΩ". A unit behind a
/// number is a sign; a word by itself ("a few ohms") stays.
[[nodiscard]] std::string with_unit_signs(std::string_view text);

}  // namespace dryout::quantities
