#include "quantities/marking_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "quantities/digit.h"
#include "quantities/engineering_notation.h"
#include "quantities/marked_value.h"
#include "quantities/marking_letters.h"

namespace dryout::quantities {
namespace {

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
    text.replace(at, from.size(), to);
    at += to.size();
  }
}

std::string in_one_spelling(std::string_view print) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 13> spellings{
      {{"\u00b5", "u"},
       {"\u03bc", "u"},
       {"\u00b1", "+-"},
       {"\u2212", "-"},
       {"\u2013", "-"},
       {"\u00d7", "x"},
       {"\u223c", "~"},
       {"\u00b0", "deg"},
       {"\u00a0", " "},
       {"\u2393", ""},
       {"\u22ef", ""},
       {" %", "%"},
       {"deg C", "degC"}}};
  std::string text(print);
  for (const auto& [from, to] : spellings) replace_all(text, from, to);
  return text;
}

/// "W.V.D.C." -> "WVDC": a point behind a letter that no figure follows is of an abbreviation.
std::string without_abbreviation_points(const std::string& text) {
  std::string kept;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool after_letter = i > 0 && is_letter(text[i - 1]);
    const bool before_digit = i + 1 < text.size() && is_digit(text[i + 1]);
    if (text[i] != '.' || !after_letter || before_digit) kept += text[i];
  }
  return kept;
}

/// Commas between figures are decimal; others part words.
Result<std::string> with_points(const std::string& text) {
  std::string pointed;
  std::string word;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const char c = i < text.size() ? text[i] : ' ';
    const bool before_digit = i + 1 < text.size() && is_digit(text[i + 1]);
    const bool apart =
        std::isspace(static_cast<unsigned char>(c)) != 0 || c == ';' || (c == ',' && !before_digit);
    if (!apart) {
      word += c;
      continue;
    }
    // A comma in a list ("0,1/0,1") is asked about figure by figure.
    std::string figure;
    for (const char each : word + '/') {
      const bool stroke = each == '/' || each == '+' || each == 'x';
      if (!stroke) {
        figure += each;
        continue;
      }
      const auto read = with_decimal_point(figure);
      if (!read) return read.problems();
      pointed += *read + each;
      figure.clear();
    }
    pointed.back() = ' ';
    word.clear();
  }
  return pointed;
}

bool is_figure(const std::string& word) {
  return !word.empty() && word.find_first_not_of("0123456789./+-x") == std::string::npos &&
         is_digit(word.back());
}

bool is_unit(const std::string& word) {
  if (!is_letter(word.front()) && word.front() != '~') return false;
  return is_capacitance_unit(word) ? word.size() > 1 : rating_in('1' + word).has_value();
}

/// Marks of polarity at either end of a figure.
std::string without_polarity(std::string word) {
  while (!word.empty() && (word.back() == '+' || word.back() == '-')) word.pop_back();
  const bool sign = !word.empty() && (word.front() == '+' || word.front() == '-');
  const bool alone =
      word.find('%') == std::string::npos && word.find_first_of("+-", 1) == std::string::npos;
  if (sign && alone && word.size() > 1 && word.back() != 'C') word.erase(0, 1);
  return word;
}

}  // namespace

Result<std::vector<std::string>> words_of_print(std::string_view print) {
  const auto pointed = with_points(in_one_spelling(print));
  if (!pointed) {
    return pointed.problems();
  }
  std::vector<std::string> words;
  std::string word;
  for (const char c : without_abbreviation_points(*pointed) + ' ') {
    if (std::isspace(static_cast<unsigned char>(c)) == 0) {
      word += c;
      continue;
    }
    word = without_polarity(std::move(word));
    if (word.empty()) continue;
    const bool joins = !words.empty() && is_figure(words.back()) && is_unit(word);
    if (joins) {
      words.back() += word;
    } else {
      words.push_back(word);
    }
    word.clear();
  }
  return words;
}

std::optional<JoinedFigures> joined_figures_in(const std::string& word) {
  JoinedFigures joined;
  const std::size_t end = word.find_last_of("0123456789.");
  if (end == std::string::npos || !is_digit(word.front() == '.' ? '0' : word.front())) {
    return std::nullopt;
  }
  joined.unit = word.substr(end + 1);
  if (!joined.unit.empty() && !is_capacitance_unit(joined.unit)) {
    return std::nullopt;
  }
  std::string figure;
  for (const char c : word.substr(0, end + 1) + '/') {
    const bool stroke = c == '/' || c == '+' || c == '-' || c == 'x' || c == 'X' || c == '*';
    if (!stroke) {
      figure += c;
      continue;
    }
    const auto value = parse_engineering(figure, Unit::none);
    if (!value || figure.find_first_not_of("0123456789.") != std::string::npos || *value <= 0.0) {
      return std::nullopt;
    }
    joined.figures.push_back(*value);
    joined.strokes += c == 'X' || c == '*' ? 'x' : c;
    figure.clear();
  }
  joined.strokes.pop_back();
  return joined.figures.size() > 1 ? std::optional(joined) : std::nullopt;
}

}  // namespace dryout::quantities
