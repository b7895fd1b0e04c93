// A complaint cut into words: lower case, without punctuation, each with the clause it stands in.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dryout::complaints {

struct SpokenWord {
  std::string text;  ///< lower case (ASCII), without apostrophes: "doesnt"
  int clause = 0;    ///< counts from 0; "but" and the signs . , ; : ! ? ( ) begin a new one
};

/// Digits and letters are parted ("50hz": "50", "hz"). No more than `words_most` words are read: a
/// complaint is a sentence or two.
inline constexpr std::size_t words_most = 200;
[[nodiscard]] std::vector<SpokenWord> spoken_words(std::string_view text);

}  // namespace dryout::complaints
