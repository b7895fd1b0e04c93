#include "complaints/spoken_words.h"

#include <algorithm>
#include <array>

namespace dryout::complaints {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
char lower_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
bool is_letter(char c) {
  const char low = lower_letter(c);
  return (low >= 'a' && low <= 'z') || static_cast<unsigned char>(c) >= 0x80;
}

constexpr std::string_view curly_apostrophe = "\u2019";
constexpr std::string_view clause_signs = ".,;:!?()\n";
constexpr std::array<std::string_view, 4> clause_words{"but", "although", "though", "except"};

/// A full stop inside a number is none: "4.2 volt".
bool ends_clause(std::string_view text, std::size_t at) {
  const bool in_number = at > 0 && at + 1 < text.size() && is_digit(text[at - 1]) &&
                         is_digit(text[at + 1]) && (text[at] == '.' || text[at] == ',');
  return !in_number && clause_signs.find(text[at]) != std::string_view::npos;
}

}  // namespace

std::vector<SpokenWord> spoken_words(std::string_view text) {
  std::vector<SpokenWord> words;
  std::string word;
  int clause = 0;
  const auto end_word = [&] {
    if (word.empty() || words.size() >= words_most) {
      word.clear();
      return;
    }
    if (std::find(clause_words.begin(), clause_words.end(), word) != clause_words.end()) {
      ++clause;
    } else {
      words.push_back({word, clause});
    }
    word.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i).starts_with(curly_apostrophe)) {
      i += curly_apostrophe.size() - 1;
      continue;
    }
    const char c = text[i];
    if (c == '\'') {
      continue;
    }
    if (is_letter(c) || is_digit(c)) {
      if (!word.empty() && is_digit(word.back()) != is_digit(c)) {
        end_word();
      }
      word += lower_letter(c);
      continue;
    }
    end_word();
    if (ends_clause(text, i)) {
      ++clause;
    }
  }
  end_word();
  return words;
}

}  // namespace dryout::complaints
