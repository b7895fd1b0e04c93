#include "quantities/part_number.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "quantities/digit.h"

namespace dryout::quantities {
namespace {

struct Style {
  std::string_view letters;
  std::string_view says;
};
constexpr std::array<Style, 14> styles{{{"CSR", "solid tantalum"},
                                        {"CS", "solid tantalum"},
                                        {"CWR", "chip tantalum"},
                                        {"CLR", "wet tantalum"},
                                        {"CL", "wet tantalum"},
                                        {"CMR", "mica"},
                                        {"CM", "mica"},
                                        {"CB", "button mica"},
                                        {"CKR", "ceramic"},
                                        {"CK", "ceramic"},
                                        {"CC", "temperature-compensating ceramic"},
                                        {"CYR", "glass"},
                                        {"CY", "glass"},
                                        {"CQ", "film or paper"}}};

struct Letter {
  char letter;
  double volts;
};
constexpr std::array<Letter, 8> tantalum_volts{
    {{'B', 6}, {'C', 10}, {'D', 15}, {'E', 20}, {'F', 35}, {'G', 50}, {'H', 75}, {'J', 100}}};
constexpr std::array<Letter, 8> mica_volts{{{'A', 100},
                                            {'B', 250},
                                            {'C', 300},
                                            {'D', 500},
                                            {'E', 600},
                                            {'F', 1000},
                                            {'G', 1200},
                                            {'H', 1500}}};

std::optional<Volt> volts_in(const std::array<Letter, 8>& letters, char wanted) {
  for (const auto& [letter, volts] : letters) {
    if (letter == wanted) return Volt(volts);
  }
  return std::nullopt;
}

/// "106", "5R6".
std::optional<Farad> figures_in(std::string_view text) {
  if (!is_digit(text[0]) || !is_digit(text[2])) return std::nullopt;
  if (text[1] == 'R') return Farad(((text[0] - '0') + (text[2] - '0') / 10.0) * 1e-12);
  if (!is_digit(text[1]) || text[0] == '0') return std::nullopt;
  return Farad(((text[0] - '0') * 10.0 + (text[1] - '0')) * std::pow(10.0, text[2] - '0') * 1e-12);
}

}  // namespace

std::optional<MarkingReading> read_part_number(std::string_view word) {
  const auto style = std::find_if(styles.begin(), styles.end(), [word](const Style& each) {
    return word.starts_with(each.letters) && word.size() > each.letters.size() &&
           is_digit(word[each.letters.size()]);
  });
  if (style == styles.end()) return std::nullopt;
  constexpr std::size_t case_figures = 2;
  constexpr std::size_t value_figures = 3;
  std::string_view rest = word.substr(style->letters.size());
  if (rest.size() < case_figures + value_figures || !is_digit(rest[1])) return std::nullopt;
  rest.remove_prefix(case_figures);
  std::string_view letters = rest.substr(0, rest.find_first_of("0123456789"));
  rest.remove_prefix(letters.size());
  constexpr std::size_t letters_max = 2;
  if (letters.size() > letters_max || rest.size() < value_figures) return std::nullopt;
  const auto capacitance = figures_in(rest);
  if (!capacitance) return std::nullopt;
  MarkingReading reading;
  reading.capacitance = *capacitance;
  reading.how = "part number of a " + std::string(style->says) + " part, value in pF";
  reading.convention = Convention::part_number;
  if (rest.size() > value_figures) {
    reading.tolerance = tolerance_of(rest[value_figures], *capacitance);
  }
  if (style->says == "solid tantalum" && !letters.empty()) {
    reading.rated = volts_in(tantalum_volts, letters.back());
  } else if (style->says == "mica" && letters.size() == letters_max) {
    reading.rated = volts_in(mica_volts, letters.back());
  } else if (letters == "BX") {
    reading.remarks.emplace_back("BX: within \u00b115 % from -55 to +125 \u00b0C");
  }
  return reading;
}

}  // namespace dryout::quantities
