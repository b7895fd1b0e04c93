#include "quantities/marking_letters.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "quantities/digit.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"
#include "quantities/spelling.h"

namespace dryout::quantities {
namespace {

/// A figure off the front of the word: "450", "6.3".
std::optional<double> take_number(std::string_view& word) {
  std::size_t length = word.find_first_not_of("0123456789.");
  length = length == std::string_view::npos ? word.size() : length;
  const auto value = parse_engineering(word.substr(0, length), Unit::none);
  if (length == 0 || !value) {
    return std::nullopt;
  }
  word.remove_prefix(length);
  return *value;
}

struct Row {
  std::string_view word;
  std::string_view says;
};

// EIA-198 class 2 and 3, from memory: lowest and highest temperature, greatest change.
constexpr std::array<Row, 3> lowest{{{"X", "-55"}, {"Y", "-30"}, {"Z", "+10"}}};
constexpr std::array<Row, 7> highest{{{"2", "+45"},
                                      {"4", "+65"},
                                      {"5", "+85"},
                                      {"6", "+105"},
                                      {"7", "+125"},
                                      {"8", "+150"},
                                      {"9", "+200"}}};
constexpr std::array<Row, 12> change{{{"A", "\u00b11.0"},
                                      {"B", "\u00b11.5"},
                                      {"C", "\u00b12.2"},
                                      {"D", "\u00b13.3"},
                                      {"E", "\u00b14.7"},
                                      {"F", "\u00b17.5"},
                                      {"P", "\u00b110"},
                                      {"R", "\u00b115"},
                                      {"S", "\u00b122"},
                                      {"T", "+22 \u221233"},
                                      {"U", "+22 \u221256"},
                                      {"V", "+22 \u221282"}}};
// EIA-198 class 1, from memory: parts per million a kelvin, its factor and its tolerance.
constexpr std::array<Row, 9> figure{{{"C", "0"},
                                     {"B", "0.3"},
                                     {"L", "0.8"},
                                     {"M", "1.0"},
                                     {"P", "1.5"},
                                     {"R", "2.2"},
                                     {"S", "3.3"},
                                     {"T", "4.7"},
                                     {"U", "7.5"}}};
constexpr std::array<double, 10> factor{-1, -10, -100, -1000, -10000, 1, 10, 100, 1000, 10000};
constexpr std::array<Row, 7> spread{{{"G", "30"},
                                     {"H", "60"},
                                     {"J", "120"},
                                     {"K", "250"},
                                     {"L", "500"},
                                     {"M", "1000"},
                                     {"N", "2500"}}};

template <std::size_t Size>
std::string_view says(const std::array<Row, Size>& rows, std::string_view word) {
  const auto row =
      std::find_if(rows.begin(), rows.end(), [word](const Row& each) { return each.word == word; });
  return row == rows.end() ? std::string_view() : row->says;
}

std::string class_one(const std::string& word) {
  const std::string_view per_kelvin = says(figure, word.substr(0, 1));
  const std::string_view within = says(spread, word.substr(2, 1));
  if (per_kelvin.empty() || within.empty() || !is_digit(word[1])) {
    return {};
  }
  const double ppm =
      *parse_engineering(per_kelvin, Unit::none) * factor[static_cast<std::size_t>(word[1] - '0')];
  return word + ": " + significant_figures(ppm, 3) + " \u00b1" + std::string(within) +
         " ppm/K, a stable ceramic";
}

std::string class_two(const std::string& word) {
  const std::string_view from = says(lowest, word.substr(0, 1));
  const std::string_view to = says(highest, word.substr(1, 1));
  const std::string_view by = says(change, word.substr(2, 1));
  if (from.empty() || to.empty() || by.empty()) {
    return {};
  }
  return word + ": within " + std::string(by) + " % from " + std::string(from) + " to " +
         std::string(to) + " \u00b0C";
}

/// "N750", "P100", "N033".
std::string industry_coefficient(const std::string& word) {
  const bool figures =
      word.size() >= 3 && word.size() <= 5 && std::all_of(word.begin() + 1, word.end(), is_digit);
  if (!figures || (word[0] != 'N' && word[0] != 'P')) {
    return {};
  }
  const std::string ppm = word.substr(std::min(word.find_first_not_of('0', 1), word.size() - 1));
  return word + ": " + (word[0] == 'N' ? "\u2212" : "+") + ppm + " ppm/K";
}

/// "85C", "+85C", "-40+85C", "105degC", "25/085/21".
bool is_temperature(const std::string& word) {
  std::string plain = word;
  for (const std::string_view tail : {"DEGC", "C"}) {
    if (plain.ends_with(tail)) {
      plain.resize(plain.size() - tail.size());
      const std::string limit = plain.substr(plain.find_last_of("+-/") + 1);
      return tail == "DEGC" || limit == "70" || limit == "85" || limit == "105" || limit == "125";
    }
  }
  const bool range = word.front() == '-' && word.find('+', 1) != std::string::npos;
  // IEC 60068-1: lowest and highest temperature, days of damp heat.
  const bool climate = word.size() == 9 && word[2] == '/' && word[6] == '/' &&
                       (word.ends_with("/21") || word.ends_with("/56") || word.ends_with("/04") ||
                        word.ends_with("/10"));
  return range || climate;
}

/// "X2", "Y1", "XY", "X1/Y2": IEC 60384-14, from memory.
std::string mains_classes(std::string_view word) {
  std::string x;
  std::string y;
  for (std::size_t i = 0; i < word.size(); ++i) {
    std::string& found = word[i] == 'X' ? x : y;
    if ((word[i] != 'X' && word[i] != 'Y') || !found.empty()) return {};
    found = word[i];
    if (i + 1 < word.size() && word[i + 1] >= '1' && word[i + 1] <= '4') found += word[++i];
    const bool joined = i + 2 < word.size() && (word[i + 1] == '/' || word[i + 1] == '+');
    i += joined ? 1 : 0;
  }
  if (!x.empty()) x = "class " + x + ": across the mains";
  if (!y.empty()) y = "class " + y + ": from the mains to where it can be touched";
  return x + (x.empty() || y.empty() ? "" : "; ") + y;
}

}  // namespace

bool names_numbered_class(const std::string& words) {
  return words.starts_with("class ") && words.find_first_of("1234") != std::string::npos;
}

bool is_usual_rating(double volts) {
  constexpr std::array<double, 55> usual{2.5, 3,   4,   6,    6.3,  8,    10,  12,   15,  16,  20,
                                         25,  30,  35,  40,   50,   60,   63,  64,   70,  75,  80,
                                         100, 125, 150, 160,  175,  200,  250, 300,  315, 350, 375,
                                         385, 400, 420, 450,  475,  500,  525, 550,  600, 630, 700,
                                         750, 800, 1e3, 1250, 1500, 1600, 2e3, 2500, 3e3, 4e3, 5e3};
  return std::find(usual.begin(), usual.end(), volts) != usual.end();
}

std::optional<PrintedRating> rating_in(std::string_view word) {
  const std::string capitals = in_capitals(word);
  std::string_view rest = capitals;
  const std::optional<double> volts = take_number(rest);
  if (!volts || *volts <= 0.0) {
    return std::nullopt;
  }
  if (rest.size() >= 2 && rest.front() == 'V' && is_digit(rest[1])) {  // 6V3
    const auto value = parse_engineering(capitals, Unit::volt);
    return value ? std::optional(PrintedRating{Volt(*value), false}) : std::nullopt;
  }
  if (rest.size() > 1 && (rest.front() == '/' || rest.front() == '-')) {  // working/surge
    rest.remove_prefix(1);
    const std::optional<double> surge = take_number(rest);
    constexpr double surge_ratio_max = 1.35;
    if (!surge || *surge <= *volts || *surge > surge_ratio_max * *volts) {
      return std::nullopt;
    }
  }
  constexpr double kilo = 1e3;
  const bool thousands = rest.starts_with("K") && rest.size() > 1;
  rest.remove_prefix(thousands ? 1 : 0);
  constexpr std::array<std::string_view, 15> direct{"V",    "VDC",   "VDCW", "WVDC", "WV",
                                                    "VW",   "DCV",   "DCWV", "VOLT", "VOLTS",
                                                    "VWDC", "WVDCW", "DC",   "V-",   "V="};
  constexpr std::array<std::string_view, 5> alternating{"VAC", "~", "V~", "ACV", "AC"};
  const Volt rated(*volts * (thousands ? kilo : 1.0));
  if (std::find(alternating.begin(), alternating.end(), rest) != alternating.end()) {
    return PrintedRating{rated, true};
  }
  return std::find(direct.begin(), direct.end(), rest) != direct.end()
             ? std::optional(PrintedRating{rated, false})
             : std::nullopt;
}

bool is_mains_frequency(std::string_view word) {
  constexpr std::array<std::string_view, 4> frequencies{"50Hz", "60Hz", "50/60Hz", "50-60Hz"};
  return std::find(frequencies.begin(), frequencies.end(), word) != frequencies.end();
}

std::optional<Tolerance> percent_in(std::string_view word) {
  const bool percent = !word.empty() && word.back() == '%';
  std::string_view rest = percent ? word.substr(0, word.size() - 1) : word;
  constexpr double hundred = 100.0;
  if (rest.starts_with("+-") || rest.starts_with("+/-")) {
    rest.remove_prefix(rest[1] == '/' ? 3 : 2);
    const auto both = take_number(rest);
    return both && rest.empty() && *both <= hundred
               ? std::optional(Tolerance{*both / hundred, *both / hundred, false})
               : std::nullopt;
  }
  Tolerance allowed;
  int signs = 0;
  while (!rest.empty() && (rest.front() == '+' || rest.front() == '-')) {
    const bool plus = rest.front() == '+';
    rest.remove_prefix(1);
    const auto side = take_number(rest);
    if (!side || *side > hundred) return std::nullopt;
    (plus ? allowed.plus : allowed.minus) = *side / hundred;
    if (rest.starts_with("%")) rest.remove_prefix(1);
    if (rest.starts_with("/")) rest.remove_prefix(1);
    ++signs;
  }
  if (signs == 2) {
    return percent && rest.empty() ? std::optional(allowed) : std::nullopt;
  }
  const auto both = take_number(rest);
  return signs == 0 && percent && both && rest.empty() && *both <= hundred
             ? std::optional(Tolerance{*both / hundred, *both / hundred, false})
             : std::nullopt;
}

std::string temperature_words(std::string_view word) {
  const std::string capitals = in_capitals(word);
  if (capitals == "NP0" || capitals == "NPO" || capitals == "C0G" || capitals == "COG") {
    return (capitals[0] == 'N' ? "NP0" : "C0G") +
           std::string(": 0 \u00b130 ppm/K, a stable ceramic");
  }
  constexpr std::size_t length = 3;
  if (capitals.size() == length) {
    if (std::string two = class_two(capitals); !two.empty()) return two;
    if (std::string one = class_one(capitals); !one.empty()) return one;
  }
  return industry_coefficient(capitals);
}

std::string class_words(std::string_view word) {
  constexpr std::array<Row, 14> rows{{
      {"BP", "bipolar"},
      {"NP", "bipolar"},
      {"N.P.", "bipolar"},
      {"BIPOLAR", "bipolar"},
      {"NONPOLAR", "bipolar"},
      {"MKT", "film: polyester"},
      {"MKS", "film: polyester"},
      {"MKC", "film: polycarbonate"},
      {"MKP", "film: polypropylene"},
      {"KP", "film and foil: polypropylene"},
      {"KS", "film and foil: polystyrene"},
      {"MP", "metallised paper"},
      {"LL", "low leakage"},
      {"LN", "low noise"},
  }};
  const std::string capitals = in_capitals(word);
  if (const std::string_view found = says(rows, capitals); !found.empty()) {
    return std::string(found);
  }
  if (std::string mains = mains_classes(capitals); !mains.empty()) return mains;
  return is_temperature(capitals) ? "for " + std::string(word) : "";
}

std::optional<PrefixedValue> prefixed_value_in(const std::string& word) {
  constexpr std::string_view figures = "0123456789";
  constexpr std::string_view characteristics = "BEF";
  constexpr std::size_t code_length = 3;
  const std::size_t letter = word.find_first_not_of("0123456789.");
  if (letter == std::string::npos || letter + code_length >= word.size()) return std::nullopt;
  const std::string value = word.substr(letter + 1);
  if (word[letter] == 'V' && letter > 0 && value.find_first_not_of(figures) == std::string::npos) {
    return PrefixedValue{word.substr(0, letter + 1), value, false};
  }
  const std::size_t end = value.find_first_not_of(figures);
  const bool code = end == code_length && value.size() == code_length + 1;
  if (letter == 0 && code && characteristics.find(word[0]) != std::string_view::npos) {
    return PrefixedValue{word.substr(0, 1), value, true};
  }
  return std::nullopt;
}

}  // namespace dryout::quantities
