// Words for people who own a set and have never held a probe: how sure we are, what a reading is,
// where a limit comes from, and what the trade's words mean.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "casework/word_list.h"
#include "quantities/probability.h"

namespace dryout::report {

/// "almost certain", "very likely", "more likely than not", "possible", "unlikely". The bounds are
/// judged; the figure is always printed beside the word.
[[nodiscard]] std::string certainty_word(quantities::Probability probability);

/// What a weight of evidence is worth in a word: "strongly", "clearly", "a little", or "" for less
/// than 2 dB. Bounds judged: 10 dB is ten to one, 5 dB about three to one.
[[nodiscard]] std::string weight_word(quantities::Decibans weight);

/// A kind of reading as an owner may read it.
struct ReadingKindWords {
  std::string_view kind;     ///< casework's word: "esr", ...
  std::string_view title;    ///< "Internal resistance (ESR)"
  std::string_view meaning;  ///< one sentence
  bool high_is_bad = true;   ///< on which side of its limit the bad readings lie
  bool on_scale = true;      ///< can be drawn on a logarithmic scale
};
/// Of an unknown kind: its own word as the title.
[[nodiscard]] ReadingKindWords words_of_kind(std::string_view kind);

/// "the maker's data sheet", "a general table, which is weaker proof".
[[nodiscard]] std::string words_of_limit_source(std::string_view source);

/// "sound", "over the limit", "hidden by other parts", ...
[[nodiscard]] std::string words_of_verdict(std::string_view verdict);

/// The trade's words that occur in `text`, each with what it means, in alphabetical order.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> words_to_explain(
    std::string_view text);

using casework::listed;  // "a", "a and b", "a, b and c"

/// "1 part", "3 parts".
[[nodiscard]] std::string counted(std::size_t count, const std::string& one,
                                  const std::string& many);

/// First letter upper case; and with a full stop at the end where no stop is there.
[[nodiscard]] std::string as_sentence(std::string text);

}  // namespace dryout::report
