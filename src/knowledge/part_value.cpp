#include "knowledge/part_value.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "quantities/digit.h"
#include "quantities/engineering_notation.h"
#include "quantities/measure.h"
#include "quantities/part_marking.h"
#include "quantities/preferred_value.h"

namespace dryout::knowledge {
namespace {

using quantities::Body;
using quantities::Farad;
using quantities::is_digit;
using quantities::Problem;
using quantities::Result;
using quantities::Unit;
using quantities::Volt;

constexpr std::string_view examples = "a value like 47u, 4n7, 470/25V, 100n 63V, 0.1uF";

bool is_figure(std::string_view word) {
  return !word.empty() && word.find_first_not_of("0123456789.") == std::string_view::npos;
}

/// Cells that say "not known".
bool says_nothing(std::string_view cell) {
  return cell.find_first_not_of(" -?~") == std::string_view::npos || cell == "n/a" || cell == "N/A";
}

/// Blanks and slashes part the words, and commas behind which no figure stands; "10 uF" and "50 V"
/// grow together again. A comma between figures is a decimal comma, or refused.
Result<std::vector<std::string>> words_of(std::string_view cell) {
  std::vector<std::string> words(1);
  for (std::size_t i = 0; i < cell.size(); ++i) {
    const char c = cell[i];
    const bool parting_comma = c == ',' && (i + 1 == cell.size() || !is_digit(cell[i + 1]));
    const bool apart = parting_comma || c == ' ' || c == '\t' || c == '\n' || c == '/' ||
                       c == '@' || c == '(' || c == ')' || c == '_';
    if (apart) {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  std::erase(words, std::string());
  for (std::string& word : words) {
    auto pointed = quantities::with_decimal_point(word);
    if (!pointed) {
      return pointed.problems();
    }
    word = *std::move(pointed);
  }
  constexpr std::string_view units = "pnum\xc2\xceMFVvWk";
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const std::string& next = words[i + 1];
    if (is_figure(words[i]) && units.find(next.front()) != std::string_view::npos) {
      words[i] += next;
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    }
  }
  return words;
}

/// "VDC", "WVDC", "VAC", "Vdc", "WV" after a figure are volts all the same.
std::optional<std::string> volts_word(const std::string& word) {
  std::string upper;
  for (const char c : word) upper += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  for (const std::string_view tail : {"WVDC", "VDC", "VAC", "WV", "DC", "V"}) {
    if (upper.size() > tail.size() && upper.ends_with(tail)) {
      const std::string figure = word.substr(0, word.size() - tail.size());
      if (is_figure(figure) || (tail == "V" && is_digit(figure.front()))) return figure + 'V';
    }
  }
  const std::size_t point = upper.find('V');  // 6V3
  const bool inside = point != std::string::npos && point > 0 && point + 1 < upper.size();
  return inside && is_figure(upper.substr(0, point)) && is_figure(upper.substr(point + 1))
             ? std::optional(upper)
             : std::nullopt;
}

/// Old lists write MFD for microfarad and MMF or MMFD for picofarad.
std::string with_modern_unit(const std::string& word) {
  const std::size_t end = word.find_first_not_of("0123456789.");
  std::string unit;
  for (const char c : end == std::string::npos ? "" : word.substr(end)) {
    unit += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  const std::string figure = word.substr(0, end);
  if (unit == "mfd" || unit == "uf") return figure + "uF";
  if (unit == "mmf" || unit == "mmfd" || unit == "uuf" || unit == "pf") return figure + "pF";
  if (unit == "nf") return figure + "nF";
  return word;
}

/// "8mF", "8MF": a unit with two meanings.
bool is_in_mf(const std::string& word) {
  return word.size() > 2 && (word.ends_with("mF") || word.ends_with("MF")) &&
         is_figure(std::string_view(word).substr(0, word.size() - 2));
}

/// The value and rating of a part are ones that parts have (quantities/measure.h).
std::optional<Problem> out_of_range(const PartValue& value, std::string_view cell) {
  using quantities::Measure;
  std::optional<Problem> problem;
  if (value.capacitance) {
    problem = quantities::out_of_range(range_of(Measure::marked_capacitance),
                                       value.capacitance->si(), "this capacitance");
  }
  if (!problem && value.rated) {
    problem = quantities::out_of_range(range_of(Measure::rated_volts), value.rated->si(),
                                       "this rated voltage");
  }
  if (problem) {
    problem->found = '"' + quantities::excerpt(cell) + "\", " + problem->found;
  }
  return problem;
}

/// Words about a value that are no value: "20%", "+-10%", "X7R", "electrolytic".
bool is_remark(const std::string& word) {
  if (word.back() == '%' || word.front() == '+' || word.front() == '-' || word.front() == '\xc2') {
    return true;
  }
  constexpr std::array<std::string_view, 9> chip_sizes{"0402", "0603", "0805", "1206", "1210",
                                                       "1812", "2220", "3216", "3528"};
  if (std::find(chip_sizes.begin(), chip_sizes.end(), word) != chip_sizes.end()) {
    return true;
  }
  const bool any_digit = std::any_of(word.begin(), word.end(), is_digit);
  const bool coded = word.size() > 1 && any_digit &&
                     std::string_view("pnuRAeGJCDEVTH").find(word[0]) != std::string_view::npos &&
                     is_digit(word[1]);
  return !is_digit(word.front()) && word.front() != '.' && !coded;
}

std::optional<Farad> with_unit(const std::string& word) {
  const bool unit = word.find_first_of("pnum\xc2\xce") != std::string::npos ||
                    word.find('F') != std::string::npos;
  const bool leads = !is_digit(word.front()) && word.front() != '.';  // u47, p47
  const auto value = quantities::parse_engineering((leads ? "0" : "") + word, Unit::farad);
  return unit && value && *value > 0.0 ? std::optional(Farad(*value)) : std::nullopt;
}

Body body_of(Figures figures) {
  switch (figures) {
    case Figures::microfarads_on_cans:
      return Body::electrolytic_can;
    case Figures::codes_on_tantalum:
      return Body::tantalum;
    case Figures::codes_on_small_parts:
      return Body::ceramic_or_film;
    case Figures::unknown:
      break;
  }
  return Body::unknown;
}

bool same(Farad a, Farad b) { return std::abs(std::log(a.si() / b.si())) < 1e-6; }

/// Every way a bare figure can be read that gives a value one can buy and that the body allows.
std::vector<quantities::MarkingReading> plausible(const std::string& word, Figures figures) {
  const auto readings = quantities::read_marking(word, body_of(figures));
  std::vector<quantities::MarkingReading> kept;
  for (const auto& reading : readings ? *readings : std::vector<quantities::MarkingReading>{}) {
    const bool micro = reading.convention == quantities::Convention::plain_microfarads;
    // A list spells values out; what only a letter on a body can say stands in none.
    const bool of_bodies = reading.convention == quantities::Convention::four_figures ||
                           reading.convention == quantities::Convention::microfarad_figures ||
                           reading.convention == quantities::Convention::kilo_picofarads ||
                           reading.convention == quantities::Convention::two_characters;
    const bool refused =
        of_bodies || (figures == Figures::microfarads_on_cans && !micro && is_figure(word)) ||
        (figures == Figures::codes_on_small_parts && micro && reading.capacitance.si() > 30e-6) ||
        !quantities::is_preferred(reading.capacitance, quantities::Series::e24);
    // 4R7 on a disc is pF, R47 on a film part uF: the body has told them apart.
    const bool known = std::any_of(kept.begin(), kept.end(), [&](const auto& other) {
      const bool same_letter = other.convention == quantities::Convention::letter_for_point &&
                               reading.convention == quantities::Convention::letter_for_point;
      return same_letter || same(other.capacitance, reading.capacitance);
    });
    if (!refused && !known) kept.push_back(reading);
  }
  return kept;
}

/// 4R7 is 4.7 of the unit understood: microfarads on a can, picofarads on a disc.
std::string with_point(std::string word) {
  std::replace(word.begin(), word.end(), 'R', '.');
  return word;
}

Result<PartValue> read_figure(const std::string& word, Figures figures) {
  const bool micro =
      figures == Figures::microfarads_on_cans || figures == Figures::codes_on_tantalum;
  if (figures == Figures::unknown && word.find('R') != std::string::npos) {
    return Problem{"a point letter without a unit may be picofarads or microfarads",
                   {},
                   '"' + quantities::excerpt(word) + '"',
                   "the value with its unit, or a column that says the technology"};
  }
  const auto kept = plausible(micro ? with_point(word) : word, figures);
  const std::string found = '"' + quantities::excerpt(word) + '"';
  if (kept.empty()) {
    return Problem{"not a value of a capacitor", {}, found, std::string(examples)};
  }
  if (kept.size() > 1) {
    return Problem{"a figure without a unit that may be " +
                       quantities::format(kept[0].capacitance) + " or " +
                       quantities::format(kept[1].capacitance),
                   {},
                   found,
                   "the value with its unit, or a column that says the technology"};
  }
  return PartValue{kept.front().capacitance, kept.front().rated};
}

Result<PartValue> read_word(const std::string& word, Figures figures) {
  if (is_in_mf(word)) {
    return Problem{"mF is a microfarad on old parts and a thousand of them on new ones",
                   {},
                   '"' + quantities::excerpt(word) + '"',
                   "the value in \u00b5F"};
  }
  if (const auto value = with_unit(with_modern_unit(word))) {
    return PartValue{value, {}};
  }
  return read_figure(word, figures);
}

}  // namespace

Result<std::optional<Volt>> read_part_volts(std::string_view cell) {
  if (says_nothing(cell)) {
    return std::optional<Volt>();
  }
  const auto words = words_of(cell);
  if (!words) {
    return words.problems();
  }
  const std::string first = words->empty() ? "" : words->front();
  const auto told = volts_word(first);
  const auto value = quantities::parse_engineering(told ? *told : first, Unit::volt);
  if (value && *value > 0.0) {
    if (auto problem = out_of_range({std::nullopt, Volt(*value)}, cell)) {
      return *std::move(problem);
    }
    return std::optional(Volt(*value));
  }
  return Problem{"not a rated voltage",
                 {},
                 '"' + quantities::excerpt(cell) + '"',
                 "volts like 25, 25V, 6V3, 50 VDC"};
}

Result<PartValue> read_part_value(std::string_view cell, Figures figures) {
  PartValue value;
  if (says_nothing(cell)) {
    return value;
  }
  const auto words = words_of(cell);
  if (!words) {
    return words.problems();
  }
  for (const std::string& word : *words) {
    if (const auto volts = volts_word(word); volts && !value.rated) {
      const auto rated = quantities::parse_volt(*volts);
      if (rated && rated->si() > 0.0) value.rated = *rated;
    }
  }
  // Nobody writes picofarads with a rating and without a unit: 470/25V is a can's print.
  if (figures == Figures::unknown && value.rated) {
    figures = Figures::microfarads_on_cans;
  }
  for (const std::string& word : *words) {
    if (volts_word(word) || is_remark(word)) {
      continue;
    }
    if (value.capacitance) {
      return Problem{"two values in one cell",
                     {},
                     '"' + quantities::excerpt(cell) + '"',
                     std::string(examples)};
    }
    const auto read = read_word(word, figures);
    if (!read) {
      return read.problems();
    }
    value.capacitance = read->capacitance;
    if (!value.rated) value.rated = read->rated;
  }
  if (auto problem = out_of_range(value, cell)) {
    return *std::move(problem);
  }
  if (!value.capacitance && !value.rated) {
    return Problem{"not a value of a capacitor",
                   {},
                   '"' + quantities::excerpt(cell) + '"',
                   std::string(examples)};
  }
  return value;
}

}  // namespace dryout::knowledge
