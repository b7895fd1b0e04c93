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
  constexpr std::array<std::pair<std::string_view, std::string_view>, 15> spellings{
      {{"\u00b5", "u"},
       {"\u03bc", "u"},
       {"\u00b1", "+-"},
       {"\u2212", "-"},
       {"\u2013", "-"},
       {"\u00d7", "*"},
       {"\u223c", "~"},
       {"\u00b0", "deg"},
       {"\u00a0", " "},
       {" & ", "+"},
       {"&", "+"},
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

/// Units in which capacitors run to thousands.
bool counts_thousands(std::string_view unit) {
  constexpr std::array<std::string_view, 14> spellings{
      "uF", "UF", "uf", "MFD", "mfd", "Mfd", "MF", "mF", "pF", "PF", "MMF", "MMFD", "mmf", "mmfd"};
  return std::find(spellings.begin(), spellings.end(), unit) != spellings.end();
}

/// "10,000uF" -> "10.000uF", "1,000,000uF" -> "1.000.000uF": in front of a unit that runs to
/// thousands, where a decimal would end in zeros. Such a figure is read both ways (values_in), as
/// with the point; any other comma is asked about by with_decimal_point.
std::string without_thousands_commas(std::string text) {
  constexpr std::size_t group = 3;
  for (std::size_t begin = 0; begin < text.size(); ++begin) {
    const bool starts = is_digit(text[begin]) && text[begin] != '0' &&
                        (begin == 0 || (!is_digit(text[begin - 1]) && text[begin - 1] != '.' &&
                                        text[begin - 1] != ','));
    if (!starts) continue;
    const std::size_t end = std::min(text.find_first_not_of("0123456789,", begin), text.size());
    const std::string_view figure = std::string_view(text).substr(begin, end - begin);
    std::size_t unit = std::min(text.find_first_not_of(' ', end), text.size());
    const auto after =
        std::find_if_not(text.begin() + static_cast<std::ptrdiff_t>(unit), text.end(), is_letter);
    const auto behind = static_cast<std::size_t>(after - text.begin());
    std::size_t comma = figure.find(',');
    bool groups = comma != std::string_view::npos && comma <= group && figure.back() == '0' &&
                  counts_thousands(std::string_view(text).substr(unit, behind - unit));
    for (; groups && comma < figure.size(); comma += group + 1) {
      groups = figure[comma] == ',' && figure.size() - comma > group &&
               figure.substr(comma + 1, group).find(',') == std::string_view::npos;
    }
    if (groups && comma == figure.size()) {
      std::replace(text.begin() + static_cast<std::ptrdiff_t>(begin),
                   text.begin() + static_cast<std::ptrdiff_t>(end), ',', '.');
    }
    begin = end;
  }
  return text;
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
      const bool stroke = std::string_view("/+xX*").find(each) != std::string_view::npos;
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
  return !word.empty() && word.find_first_not_of("0123456789./+-xX*") == std::string::npos &&
         is_digit(word.back());
}

bool is_unit(const std::string& word) {
  if (!is_letter(word.front()) && word.front() != '~') return false;
  return is_capacitance_unit(word) ? word.size() > 1 : rating_in('1' + word).has_value();
}

/// "AC", "~" or "DC" behind "250V".
bool is_kind(const std::string& rating, const std::string& word) {
  return (word == "AC" || word == "~" || word == "DC") && rating.ends_with('V') &&
         rating_in(rating) && rating_in(rating + word);
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
  const auto pointed = with_points(without_thousands_commas(in_one_spelling(print)));
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
    if (word != "+") word = without_polarity(std::move(word));
    if (word.empty()) continue;
    const bool joins = !words.empty() &&
                       ((is_figure(words.back()) && is_unit(word)) || is_kind(words.back(), word));
    if (joins) {
      words.back() += word;
    } else {
      words.push_back(word);
    }
    word.clear();
  }
  return words;
}

std::vector<std::string> parted_at(std::string_view text, char stroke) {
  std::vector<std::string> segments(1);
  for (const char c : text) {
    if (c == stroke) {
      segments.emplace_back();
    } else {
      segments.back() += c;
    }
  }
  return segments;
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
