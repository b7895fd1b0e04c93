#include "quantities/marked_value.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string_view>

#include "quantities/digit.h"
#include "quantities/engineering_notation.h"

namespace dryout::quantities {
namespace {

constexpr double pico = 1e-12;
constexpr double micro = 1e-6;

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// "47", "0.47", ".1": more than nothing.
std::optional<double> plain_figure(std::string_view text) {
  if (text.empty() || text.find_first_not_of("0123456789.") != std::string_view::npos) {
    return std::nullopt;
  }
  const auto value = parse_engineering(text, Unit::none);
  return value && *value > 0.0 ? std::optional(*value) : std::nullopt;
}

/// A figure as it stands; "10.000" may be ten, or ten thousand as half of Europe prints it. A zero
/// in front is never a thousand.
struct PrintedFigure {
  double value = 0.0;
  const char* how = "";
};
std::vector<PrintedFigure> printed_figures_in(std::string_view text) {
  constexpr std::size_t group = 3;
  std::string digits;
  bool groups = !text.empty() && text.front() != '0' && text.find('.') != std::string_view::npos;
  for (std::size_t begin = 0; groups && begin <= text.size();) {
    const std::size_t end = std::min(text.find('.', begin), text.size());
    const std::string_view part = text.substr(begin, end - begin);
    groups = all_digits(part) && (begin == 0 ? part.size() <= group : part.size() == group);
    digits += part;
    begin = end + 1;
  }
  std::vector<PrintedFigure> figures;
  if (const auto value = plain_figure(text)) {
    figures.push_back({*value, groups ? points_decimal : ""});
  }
  const auto thousands = groups ? plain_figure(digits) : std::nullopt;
  if (thousands) figures.push_back({*thousands, points_thousands});
  return figures;
}

struct WrittenUnit {
  std::string_view spelling;  ///< in small letters
  double farads;
  const char* how;
};
// "mF" is left out: it has two meanings.
constexpr std::array<WrittenUnit, 19> units{{{"pf", pico, "in pF"},
                                             {"pfd", pico, "in pF"},
                                             {"p", pico, "in pF"},
                                             {"mmf", pico, "in MMF, which is pF"},
                                             {"mmfd", pico, "in MMFD, which is pF"},
                                             {"mmfds", pico, "in MMFD, which is pF"},
                                             {"uuf", pico, "in \u00b5\u00b5F, which is pF"},
                                             {"uufd", pico, "in \u00b5\u00b5F, which is pF"},
                                             {"nf", 1e-9, "in nF"},
                                             {"n", 1e-9, "in nF"},
                                             {"uf", micro, "in \u00b5F"},
                                             {"ufd", micro, "in \u00b5F"},
                                             {"u", micro, "in \u00b5F"},
                                             {"mfd", micro, "in MFD, which is \u00b5F"},
                                             {"mfds", micro, "in MFD, which is \u00b5F"},
                                             {"mike", micro, "in \u00b5F"},
                                             {"f", 1.0, "in F"},
                                             {"fd", 1.0, "in F"},
                                             {"farad", 1.0, "in F"}}};

std::string in_small_letters(std::string_view word) {
  std::string text(word);
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

MarkingReading reading_of(double farads, Convention convention, std::string how) {
  MarkingReading reading;
  reading.capacitance = Farad(farads);
  reading.convention = convention;
  reading.how = std::move(how);
  return reading;
}

/// "104" -> 10e4 pF; a ninth multiplier means a tenth ("479" is 4.7 pF), an eighth a hundredth.
std::optional<double> coded(std::string_view figures) {
  if (!all_digits(figures) || figures[0] == '0') {
    return std::nullopt;
  }
  double mantissa = 0.0;
  for (const char c : figures.substr(0, figures.size() - 1)) mantissa = 10.0 * mantissa + (c - '0');
  const int exponent = figures.back() - '0';
  constexpr int tenth = 9;
  constexpr int hundredth = 8;
  return mantissa * std::pow(10.0, exponent == tenth ? -1 : exponent == hundredth ? -2 : exponent);
}

/// EIA-198: the first letter stands for two figures, the figure behind it for the power of ten.
std::optional<double> two_characters(std::string_view word) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZabdefmnty";
  constexpr std::array figures{1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7,
                               3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5,
                               8.2, 9.1, 2.5, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0};
  static_assert(letters.size() == figures.size());
  if (word.size() != 2 || !is_digit(word[1])) return std::nullopt;
  const std::size_t at = letters.find(word[0]);
  if (at == std::string_view::npos) return std::nullopt;
  const int exponent = word[1] - '0';
  constexpr int tenth = 9;
  return figures[at] * std::pow(10.0, exponent == tenth ? -1 : exponent);
}

/// "4n7", "n47", "47n", "u47", "1m0", "p56".
std::optional<double> prefix_for_point(std::string_view text) {
  std::string spelt(text);
  const bool leads = std::string_view("pnu").find(spelt[0]) != std::string::npos;
  if (leads) spelt.insert(0, "0");
  if (!is_digit(spelt[0]) || spelt.find_first_of("pnum") == std::string::npos ||
      spelt.find_first_not_of("0123456789pnum") != std::string::npos) {
    return std::nullopt;
  }
  const auto value = parse_engineering(spelt, Unit::farad);
  return value && *value > 0.0 ? std::optional(*value) : std::nullopt;
}

/// "4R7", "R47", "47R", "4K7": the letter is the point of a figure.
std::optional<double> letter_for_point(std::string_view text, char letter) {
  const std::size_t at = text.find(letter);
  const bool inside = at != std::string_view::npos && at + 1 < text.size();
  if (!inside) return std::nullopt;
  std::string spelt(text);
  spelt[at] = '.';
  return plain_figure(spelt);
}

/// One word with what was peeled off its ends.
struct Peeled {
  std::string figure;
  std::optional<char> tolerance;
  std::optional<Volt> rated;
};

/// "2A104J": voltage code in front, tolerance letter behind.
Peeled peel(const std::string& word) {
  Peeled peeled{word, std::nullopt, std::nullopt};
  constexpr std::size_t code_length = 2;
  if (word.size() > code_length + 2 && is_digit(word[0]) &&
      std::isupper(static_cast<unsigned char>(word[1])) != 0 && is_digit(word[2]) &&
      all_digits(word.substr(code_length, code_length + 1))) {
    peeled.rated = voltage_of(word.substr(0, code_length));
    if (peeled.rated) {
      peeled.figure = word.substr(code_length);
    }
  }
  const char last = peeled.figure.back();
  if (peeled.figure.size() > 1 && std::isupper(static_cast<unsigned char>(last)) != 0 &&
      tolerance_of(last, microfarads(1)).has_value()) {
    peeled.tolerance = last;
    peeled.figure.pop_back();
  }
  return peeled;
}

/// "A475" or "475C": a voltage letter before or behind a three-figure code, as on moulded tantalum.
std::optional<MarkingReading> with_voltage_letter(const std::string& word) {
  constexpr std::size_t length = 4;
  if (word.size() != length) {
    return std::nullopt;
  }
  const bool leads = !is_digit(word.front());
  // Behind a code these are tolerances.
  if (!leads && (word.back() == 'J' || word.back() == 'K')) {
    return std::nullopt;
  }
  const auto rated = voltage_of(leads ? word.substr(0, 1) : word.substr(3));
  const auto value = coded(leads ? word.substr(1) : word.substr(0, 3));
  if (!rated || !value) {
    return std::nullopt;
  }
  MarkingReading reading =
      reading_of(*value * pico, Convention::voltage_and_figures,
                 "voltage letter and three-figure code in pF, as on moulded tantalum");
  reading.rated = rated;
  return reading;
}

void add_codes(const std::string& figure, std::vector<MarkingReading>& readings) {
  constexpr std::size_t three = 3;
  constexpr std::size_t four = 4;
  if (figure.size() == three) {
    if (const auto value = coded(figure)) {
      readings.push_back(
          reading_of(*value * pico, Convention::three_figures, "three-figure code in pF"));
      readings.push_back(reading_of(*value * micro, Convention::microfarad_figures,
                                    "three-figure code in \u00b5F, as on some cans"));
    }
  }
  if (figure.size() == four) {
    if (const auto value = coded(figure)) {
      readings.push_back(
          reading_of(*value * pico, Convention::four_figures, "four-figure code in pF"));
    }
  }
}

void add_letters(const std::string& figure, std::vector<MarkingReading>& readings) {
  if (const auto value = prefix_for_point(figure)) {
    readings.push_back(
        reading_of(*value, Convention::letter_for_point, "letter in the place of the point"));
  }
  if (const auto value = letter_for_point(figure, 'R')) {
    readings.push_back(reading_of(*value * pico, Convention::letter_for_point,
                                  "R in the place of the point, in pF"));
    readings.push_back(reading_of(*value * micro, Convention::letter_for_point,
                                  "R in the place of the point, in \u00b5F"));
  }
  for (const char kilo : {'K', 'k'}) {
    const bool behind = figure.back() == kilo;
    const auto value =
        behind ? plain_figure(figure.substr(0, figure.size() - 1)) : letter_for_point(figure, kilo);
    if (value) {
      readings.push_back(reading_of(*value * 1e3 * pico, Convention::kilo_picofarads,
                                    behind ? "K for a thousand pF, as on old ceramics"
                                           : "K in the place of the point, for a thousand pF"));
    }
  }
}

void add_plain(const std::string& text, std::vector<MarkingReading>& readings) {
  constexpr double picofarads_max = 1e5;
  for (const PrintedFigure& figure : printed_figures_in(text)) {
    readings.push_back(reading_of(figure.value * micro, Convention::plain_microfarads,
                                  std::string("plain figure in \u00b5F") + figure.how));
    if (figure.value >= 1.0 && figure.value < picofarads_max) {
      readings.push_back(reading_of(figure.value * pico, Convention::plain_picofarads,
                                    std::string("plain figure in pF") + figure.how));
    }
  }
}

}  // namespace

bool is_capacitance_unit(const std::string& word) {
  const std::string unit = in_small_letters(word);
  return unit == "mf" || std::any_of(units.begin(), units.end(), [&unit](const WrittenUnit& each) {
           return each.spelling == unit;
         });
}

std::vector<MarkingReading> written_values_in(const std::string& word) {
  std::vector<MarkingReading> readings;
  const std::size_t end = word.find_first_not_of("0123456789.");
  const std::vector<PrintedFigure> figures = printed_figures_in(word.substr(0, end));
  if (figures.empty() || end == std::string::npos) {
    return readings;
  }
  std::string letters = word.substr(end);
  std::optional<char> tolerance;
  if (letters.size() > 1 && !is_capacitance_unit(letters) &&
      std::isupper(static_cast<unsigned char>(letters.back())) != 0 &&
      is_capacitance_unit(letters.substr(0, letters.size() - 1))) {
    tolerance = letters.back();
    letters.pop_back();
  }
  const std::string unit = in_small_letters(letters);
  for (const WrittenUnit& each : units) {
    if (each.spelling != unit) continue;
    for (const PrintedFigure& figure : figures) {
      if (each.farads == 1.0 && &figure != figures.data())
        continue;  // of farads none are thousands
      readings.push_back(reading_of(figure.value * each.farads, Convention::written_unit,
                                    std::string("written ") + each.how + figure.how));
    }
  }
  if (unit == "mf") {
    for (const PrintedFigure& figure : figures) {
      readings.push_back(
          reading_of(figure.value * micro, Convention::written_unit,
                     std::string("written in mF, the microfarad of old parts") + figure.how));
    }
    if (letters.front() == 'm') {
      readings.push_back(reading_of(figures.front().value * 1e-3, Convention::written_unit,
                                    "written in mF, taken as thousands of \u00b5F"));
    }
  }
  for (MarkingReading& reading : readings) {
    if (tolerance) reading.tolerance = tolerance_of(*tolerance, reading.capacitance);
  }
  return readings;
}

std::vector<MarkingReading> values_in(const std::string& word) {
  std::vector<MarkingReading> readings = written_values_in(word);
  // "0.1F" may also be a tenth of a microfarad within a hundredth; other units leave no doubt.
  if (!readings.empty() && word.back() != 'F') {
    return readings;
  }
  if (!readings.empty() && !is_digit(word[word.size() - 2]) && word[word.size() - 2] != '.') {
    return readings;
  }
  const Peeled peeled = peel(word);
  std::vector<MarkingReading> found;
  add_codes(peeled.figure, found);
  add_letters(peeled.figure, found);
  add_plain(peeled.figure, found);
  if (peeled.tolerance == 'K' && !peeled.rated) {
    add_letters(word, found);
  }
  for (MarkingReading& reading : found) {
    reading.rated = peeled.rated;
    const bool used_up =
        reading.convention == Convention::kilo_picofarads && peeled.tolerance == 'K';
    if (peeled.tolerance && !used_up) {
      reading.tolerance = tolerance_of(*peeled.tolerance, reading.capacitance);
    }
  }
  readings.insert(readings.end(), found.begin(), found.end());
  if (const auto lettered = with_voltage_letter(word)) {
    readings.push_back(*lettered);
  }
  if (const auto value = two_characters(word)) {
    readings.push_back(reading_of(*value * pico, Convention::two_characters,
                                  "letter and figure of a chip, in pF"));
  }
  return readings;
}

}  // namespace dryout::quantities
