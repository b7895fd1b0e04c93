#include "quantities/spelling.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <numeric>
#include <utility>

#include "quantities/digit.h"

namespace dryout::quantities {
namespace {

/// Levenshtein distance, one row at a time.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, replace});
    }
  }
  return row[b.size()];
}

struct UnitSpelling {
  std::string_view typed, shown;
  bool after_number;  ///< elsewhere it is a word: "a few ohms"
};
constexpr std::array<UnitSpelling, 21> unit_spellings{{
    {"uF", "\u00b5F", false},       {"uA", "\u00b5A", false},     {"uH", "\u00b5H", false},
    {"uV", "\u00b5V", false},       {"ohm", "\u03a9", true},      {"ohms", "\u03a9", true},
    {"kilohm", "k\u03a9", true},    {"kilohms", "k\u03a9", true}, {"kohm", "k\u03a9", true},
    {"kOhm", "k\u03a9", true},      {"megohm", "M\u03a9", true},  {"megohms", "M\u03a9", true},
    {"Mohm", "M\u03a9", true},      {"MOhm", "M\u03a9", true},    {"gigohm", "G\u03a9", true},
    {"gigohms", "G\u03a9", true},   {"GOhm", "G\u03a9", true},    {"milliohm", "m\u03a9", true},
    {"milliohms", "m\u03a9", true}, {"mOhm", "m\u03a9", true},    {"mohm", "m\u03a9", true},
}};

bool is_word_letter(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

bool follows_number(const std::string& before) {
  std::size_t end = before.size();
  if (end > 0 && before[end - 1] == ' ') --end;
  return end > 0 && is_digit(before[end - 1]);
}

}  // namespace

std::string with_unit_signs(std::string_view text) {
  std::string shown;
  for (std::size_t at = 0; at < text.size();) {
    // A unit may stand right behind its number: the figures are no part of the word.
    std::size_t end = at;
    while (end < text.size() && is_word_letter(text[end]) && !is_digit(text[end])) ++end;
    if (end == at) {
      shown += text[at++];
      continue;
    }
    const std::string_view word = text.substr(at, end - at);
    const bool whole = end == text.size() || !is_word_letter(text[end]);
    const auto* unit =
        std::find_if(unit_spellings.begin(), unit_spellings.end(),
                     [word](const UnitSpelling& each) { return each.typed == word; });
    const bool sign =
        whole && unit != unit_spellings.end() && (!unit->after_number || follows_number(shown));
    if (sign && !shown.empty() && is_digit(shown.back())) shown += ' ';
    shown += sign ? unit->shown : word;
    at = end;
  }
  return shown;
}

std::string in_capitals(std::string_view text) {
  std::string capitals(text);
  for (char& c : capitals) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return capitals;
}

std::optional<std::string> nearest_spelling(std::string_view word,
                                            const std::vector<std::string_view>& candidates) {
  constexpr std::size_t word_length_max = 64;  // bounds the work on hostile input
  if (word.size() > word_length_max) {
    return std::nullopt;
  }
  const std::size_t slips_max = std::max<std::size_t>(1, word.size() / 3);
  std::size_t best = slips_max + 1;
  std::optional<std::string> nearest;
  for (const std::string_view candidate : candidates) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best) {
      best = distance;
      nearest = std::string(candidate);
    }
  }
  return nearest;
}

}  // namespace dryout::quantities
