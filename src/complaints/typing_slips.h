// The word that was meant by one that nobody knows: a letter too many, too few, wrong, or two that
// changed places.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dryout::complaints {

/// Edits between two words (a swap of neighbours counts one), or `most` + 1 where there are more.
[[nodiscard]] std::size_t slips_between(std::string_view a, std::string_view b, std::size_t most);

class KnownWords {
 public:
  void add(const std::string& word);
  [[nodiscard]] bool knows(std::string_view word) const;
  /// The nearest known word with the same first letter: one slip in four to nine letters, two in
  /// ten and more; words shorter than that are too much alike. Where no word is that near, one
  /// that begins so: it is still being typed. Of several, the one added first.
  [[nodiscard]] std::optional<std::string> meant_by(std::string_view word) const;

 private:
  std::map<std::string, std::size_t, std::less<>> order_;  ///< word -> when it was added
  std::map<char, std::vector<std::string>> by_first_letter_;
};

}  // namespace dryout::complaints
