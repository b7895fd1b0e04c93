#include "quantities/marking_joins.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "quantities/digit.h"
#include "quantities/marked_value.h"
#include "quantities/marking_letters.h"
#include "quantities/marking_sections.h"
#include "quantities/marking_words.h"
#include "quantities/part_number.h"
#include "quantities/preferred_value.h"
#include "quantities/printed_number.h"

namespace dryout::quantities {
namespace {

using Words = std::vector<std::string>;

bool is_whole(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// "12" before "000pF", "2" before "200uF": one figure, as long as parts are made in it. "16 470uF"
/// is none.
bool is_one_figure(const std::string& head, const std::string& tail) {
  constexpr std::size_t group = 3;
  const std::string digits = tail.substr(0, tail.find_first_not_of("0123456789"));
  const bool groups = is_whole(head) && head.front() != '0' && digits.size() == group;
  if (!groups) return false;
  if (digits == "000") return head.size() <= group || head.ends_with("000");
  const auto value = bare_figure_in(head + digits);
  const bool unit = is_capacitance_unit(tail.substr(group));
  return head.size() <= group && unit && value && is_preferred(Farad(*value), Series::e24);
}

Words with_thousands_joined(const Words& words) {
  Words joined;
  for (const std::string& word : words) {
    if (!joined.empty() && is_one_figure(joined.back(), word)) {
      joined.back() += word;
    } else {
      joined.push_back(word);
    }
  }
  return joined;
}

/// "~275", "~275V", "AC250V", "DC400V": what kind of volts stands in front.
std::string with_kind_behind(const std::string& word) {
  const bool tilde = word.size() > 1 && word.front() == '~' && is_digit(word[1]);
  if (tilde) return word.substr(1) + '~';
  constexpr std::size_t letters = 2;
  const bool kind = word.starts_with("AC") || word.starts_with("DC");
  if (kind && word.size() > letters && is_digit(word[letters]) && word.back() == 'V') {
    return word.substr(letters) + word.substr(0, letters);
  }
  return word;
}

/// A rating that its sign or unit shows to be one: "400-", "150~", "63V"; spelt with its unit.
std::optional<std::string> signed_rating(const std::string& segment) {
  const std::string word = with_kind_behind(segment);
  if (rating_in(word)) return word;
  if (word.size() > 1 && word.back() == '-' && bare_figure_in(word.substr(0, word.size() - 1))) {
    return word.substr(0, word.size() - 1) + 'V';
  }
  return std::nullopt;
}

bool is_frequency(const std::string& word) {
  return word.size() > 2 && (word.ends_with("Hz") || word.ends_with("HZ")) &&
         bare_figure_in(word.substr(0, word.size() - 2));
}

/// "5", "10%": how far a maker lets a value stray.
std::optional<std::string> percent_of(const std::string& segment) {
  if (percent_in(segment)) return segment;
  constexpr std::array<double, 7> usual{0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0};
  const auto figure = bare_figure_in(segment);
  const bool known = figure && std::find(usual.begin(), usual.end(), *figure) != usual.end();
  return known ? std::optional(segment + '%') : std::nullopt;
}

bool is_small_body(Body body) {
  return body == Body::ceramic_or_film || body == Body::ceramic || body == Body::film ||
         body == Body::mica || body == Body::paper;
}

/// "0.33/5/250": plain figures for value, per cent and volts. On a can they are sections.
Words value_percent_volts(const Words& segments, Body body) {
  constexpr std::size_t three = 3;
  if (segments.size() != three) return {};
  const auto value = bare_figure_in(segments[0]);
  const auto percent = percent_of(segments[1]);
  const auto volts = bare_figure_in(segments[2]);
  const bool rated = signed_rating(segments[2]) || (volts && is_usual_rating(*volts));
  const bool sure = value && (*value < 1.0 || is_small_body(body) || segments[1].ends_with('%'));
  if (!sure || !percent || !rated) return {};
  return {segments[0], *percent, signed_rating(segments[2]).value_or(segments[2] + 'V')};
}

/// "400-/150~", "250~/50Hz": several ratings, or one with the frequency it is for.
Words ratings_of(const Words& segments) {
  Words ratings;
  bool sign = false;
  for (const std::string& segment : segments) {
    const auto rating = signed_rating(segment);
    sign = sign || (rating && (segment.ends_with('-') || rating->find('~') != std::string::npos));
    if (rating) {
      ratings.push_back(*rating);
    } else if (is_frequency(segment)) {
      ratings.push_back(segment);
    } else {
      return {};
    }
  }
  return sign ? ratings : Words();
}

/// "50uF/350-385V", "1n/5%/63V", "100uF-450V": a value with its unit, and what is told of it.
Words unit_and_more(const std::string& word) {
  const std::size_t stroke = word.find_first_of("/-");
  if (stroke == std::string::npos || stroke == 0 || stroke + 1 == word.size()) return {};
  const std::string value = word.substr(0, stroke);
  if (bare_figure_in(value) || values_in(value).empty()) return {};
  const std::string rest = word.substr(stroke + 1);
  if (rating_in(rest)) return {value, rest};
  Words told{value};
  bool percent = false;
  for (const std::string& segment : parted_at(rest, '/')) {
    const auto figure = bare_figure_in(segment);
    if (const auto rating = signed_rating(segment)) {
      told.push_back(*rating);
    } else if (percent_in(segment)) {
      told.push_back(segment);
      percent = true;
    } else if (percent && figure && is_usual_rating(*figure)) {
      told.push_back(segment + 'V');
    } else {
      return {};
    }
  }
  return told;
}

/// "100", "100V", "2A", "250~" behind a tolerance letter.
std::optional<std::string> volts_behind_letter(const std::string& tail) {
  constexpr double least = 10.0;  // "4K7" is a letter for the point
  if (const auto figure = bare_figure_in(tail)) {
    const bool usual = *figure >= least && is_usual_rating(*figure);
    return usual ? std::optional(tail + 'V') : std::nullopt;
  }
  if (rating_in(tail)) return tail;
  constexpr std::size_t code_length = 2;
  const auto coded = tail.size() == code_length ? voltage_of(tail) : std::nullopt;
  constexpr int figures = 6;
  return coded ? std::optional(significant_figures(coded->si(), figures) + 'V') : std::nullopt;
}

/// "22nJ100", "682J2A", ".47K250", "100uF16V": value, tolerance letter (or the unit's last), volts.
Words value_letter_volts(const std::string& word) {
  for (std::size_t i = 2; i + 1 < word.size(); ++i) {
    if (!tolerance_of(word[i], farads(1e-6))) continue;
    const std::string value = word.substr(0, i);
    const auto volts = volts_behind_letter(word.substr(i + 1));
    if (volts && !values_in(value).empty()) return {value + word[i], *volts};
  }
  return {};
}

bool is_clear(const std::string& word) {
  return rating_in(word) || percent_in(word) || !temperature_words(word).empty() ||
         !class_words(word).empty() || read_part_number(word);
}

Words word_apart(const std::string& word, const MarkedPart& part) {
  if (is_clear(word)) return {word};
  const Words segments = parted_at(word, '/');
  for (Words words : {ratings_of(segments), value_percent_volts(segments, part.body),
                      unit_and_more(word), value_letter_volts(word)}) {
    if (!words.empty()) return words;
  }
  return {word};
}

}  // namespace

std::vector<std::string> words_apart(const std::vector<std::string>& words,
                                     const MarkedPart& part) {
  Words all;
  for (const std::string& word : with_thousands_joined(words)) {
    const Words parts = word_apart(with_kind_behind(word), part);
    all.insert(all.end(), parts.begin(), parts.end());
  }
  return all;
}

}  // namespace dryout::quantities
