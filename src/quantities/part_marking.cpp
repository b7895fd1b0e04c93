#include "quantities/part_marking.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "quantities/digit.h"
#include "quantities/engineering_notation.h"

namespace dryout::quantities {
namespace {

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// "104" -> 10e4 pF; a ninth multiplier means a tenth ("479" is 4.7 pF).
std::optional<Farad> three_figures(std::string_view text) {
  if (text.size() != 3 || !all_digits(text) || text[0] == '0') {
    return std::nullopt;
  }
  const double figures = (text[0] - '0') * 10.0 + (text[1] - '0');
  const int exponent = text[2] - '0';
  constexpr int tenth = 9;
  constexpr int hundredth = 8;
  const int power = exponent == tenth ? -1 : (exponent == hundredth ? -2 : exponent);
  return Farad(figures * std::pow(10.0, power) * 1e-12);
}

/// "4n7", "4R7", "p47", "u47", "470n": a letter stands for the point and the unit.
std::optional<Farad> letter_for_point(std::string_view text) {
  std::string spelt(text);
  const bool leads = !spelt.empty() && std::string_view("pnuR").find(spelt[0]) != std::string::npos;
  if (leads) {
    spelt.insert(0, "0");
  }
  if (spelt.find_first_of("pnumR\xc2") == std::string::npos || all_digits(spelt)) {
    return std::nullopt;
  }
  const auto value = parse_engineering(spelt, Unit::farad);
  if (!value || *value <= 0.0) {
    return std::nullopt;
  }
  // A bare R is the point of a figure whose unit is understood: picofarads on small parts.
  const bool bare_point = spelt.find('R') != std::string::npos;
  return Farad(bare_point ? *value * 1e-12 : *value);
}

/// "47", "0.47", ".1", "2200": a figure whose unit is understood.
std::optional<double> plain_figure(std::string_view text) {
  const auto value = parse_engineering(text, Unit::none);
  const bool digits_only = text.find_first_not_of("0123456789.") == std::string::npos;
  if (!value || !digits_only || *value <= 0.0) {
    return std::nullopt;
  }
  return *value;
}

std::optional<Volt> spelt_voltage(std::string_view text) {
  if (text.size() < 2 || !is_digit(text.front()) ||
      text.find_first_of("Vv") == std::string_view::npos) {
    return std::nullopt;
  }
  const auto value = parse_engineering(text, Unit::volt);
  return value && *value > 0.0 ? std::optional<Volt>(Volt(*value)) : std::nullopt;
}

std::vector<std::string> words_of(std::string_view print) {
  std::vector<std::string> words(1);
  for (const char c : print) {
    if (std::isspace(static_cast<unsigned char>(c)) != 0 || c == '/') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  std::erase(words, std::string());
  return words;
}

/// One word of a print with what was peeled off its ends.
struct Peeled {
  std::string figure;
  std::optional<char> tolerance;
  std::optional<Volt> rated;
};

/// "2A104J": voltage code in front, tolerance letter behind.
Peeled peel_film(const std::string& word) {
  Peeled peeled{word, std::nullopt, std::nullopt};
  constexpr std::size_t code_length = 2;
  if (word.size() > code_length + 2 && is_digit(word[0]) && !is_digit(word[1]) &&
      is_digit(word[2])) {
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
std::optional<MarkingReading> read_lettered_code(const std::string& word) {
  constexpr std::size_t length = 4;
  if (word.size() != length) {
    return std::nullopt;
  }
  const bool leads = !is_digit(word.front());
  const auto rated = voltage_of(leads ? word.substr(0, 1) : word.substr(3));
  const auto capacitance = three_figures(leads ? word.substr(1) : word.substr(0, 3));
  if (!rated || !capacitance) {
    return std::nullopt;
  }
  return MarkingReading{*capacitance, rated, std::nullopt,
                        "voltage letter and three-figure code in pF, as on moulded tantalum"};
}

void add_figure_readings(const Peeled& peeled, std::vector<MarkingReading>& readings) {
  const auto add = [&](Farad capacitance, const char* how) {
    std::optional<Tolerance> tolerance;
    if (peeled.tolerance) {
      tolerance = tolerance_of(*peeled.tolerance, capacitance);
    }
    readings.push_back({capacitance, peeled.rated, tolerance, how});
  };
  if (const auto code = three_figures(peeled.figure)) {
    add(*code, "three-figure code in pF");
  }
  if (const auto value = letter_for_point(peeled.figure)) {
    add(*value, "letter in the place of the point");
  }
  if (const auto figure = plain_figure(peeled.figure)) {
    add(microfarads(*figure), "plain figure in uF");
    const bool whole = std::trunc(*figure) == *figure;
    if (whole && *figure < 1000.0) {
      add(Farad(*figure * 1e-12), "plain figure in pF");
    }
  }
}

/// How well a way of reading fits the body; smaller is better.
int misfit(const MarkingReading& reading, Body body) {
  const bool micro = reading.how.find("uF") != std::string::npos;
  const bool plain_pico = reading.how == "plain figure in pF";
  const bool moulded = reading.how.find("tantalum") != std::string::npos;
  switch (body) {
    case Body::electrolytic_can:
      return micro ? 0 : (plain_pico ? 3 : 1);
    case Body::tantalum:
      return moulded ? 0 : (micro ? 1 : 2);
    case Body::ceramic_or_film:
    case Body::unknown:
      break;
  }
  return micro || moulded ? 2 : (plain_pico ? 1 : 0);
}

}  // namespace

std::optional<Tolerance> tolerance_of(char letter, Farad capacitance) {
  if (capacitance < farads(10e-12)) {
    constexpr std::array<std::pair<char, double>, 5> picofarads{
        {{'B', 0.1}, {'C', 0.25}, {'D', 0.5}, {'F', 1.0}, {'G', 2.0}}};
    for (const auto& [name, allowed] : picofarads) {
      if (name == letter) {
        return Tolerance{allowed * 1e-12, allowed * 1e-12, true};
      }
    }
  }
  struct Row {
    char letter;
    double minus, plus;
  };
  constexpr std::array<Row, 13> rows{{{'B', .001, .001},
                                      {'C', .0025, .0025},
                                      {'D', .005, .005},
                                      {'F', .01, .01},
                                      {'G', .02, .02},
                                      {'J', .05, .05},
                                      {'K', .10, .10},
                                      {'M', .20, .20},
                                      {'N', .30, .30},
                                      {'Q', .10, .30},
                                      {'S', .20, .50},
                                      {'T', .10, .50},
                                      {'Z', .20, .80}}};
  for (const Row& row : rows) {
    if (row.letter == letter) {
      return Tolerance{row.minus, row.plus, false};
    }
  }
  return std::nullopt;
}

std::optional<Volt> voltage_of(std::string_view code) {
  struct Mantissa {
    char letter;
    double value;
  };
  constexpr std::array<Mantissa, 13> mantissas{{{'A', 1.0},
                                                {'B', 1.25},
                                                {'C', 1.6},
                                                {'D', 2.0},
                                                {'E', 2.5},
                                                {'F', 3.15},
                                                {'V', 3.5},
                                                {'G', 4.0},
                                                {'W', 4.5},
                                                {'H', 5.0},
                                                {'J', 6.3},
                                                {'K', 8.0},
                                                {'T', 5.0}}};
  // One letter alone, as on surface-mount parts: the decade is fixed for each letter.
  constexpr std::string_view below_ten = "eGJ";
  if (code.size() == 1) {
    const char letter = code[0] == 'e' ? 'E' : code[0] == 'j' ? 'J' : code[0];
    const bool small = code[0] == 'e' || code[0] == 'j' || below_ten.find(letter) != code.npos;
    for (const Mantissa& mantissa : mantissas) {
      if (mantissa.letter == letter) {
        return Volt(mantissa.value * (small ? 1.0 : 10.0));
      }
    }
    return std::nullopt;
  }
  if (code.size() != 2 || !is_digit(code[0]) || code[0] > '4') {
    return std::nullopt;
  }
  for (const Mantissa& mantissa : mantissas) {
    if (mantissa.letter == code[1] && code[1] != 'T') {
      return Volt(mantissa.value * std::pow(10.0, code[0] - '0'));
    }
  }
  return std::nullopt;
}

Result<std::vector<MarkingReading>> read_marking(std::string_view print, Body body) {
  constexpr std::size_t length_max = 64;
  if (print.size() > length_max) {
    return Problem{"not a print", {}, excerpt(print), "up to 64 characters"};
  }
  std::vector<MarkingReading> readings;
  std::optional<Volt> rated;
  for (const std::string& word : words_of(print)) {
    if (const auto volts = spelt_voltage(word)) {
      rated = volts;
      continue;
    }
    const bool voltage_code = word.size() <= 2 && !all_digits(word) && voltage_of(word).has_value();
    if (voltage_code) {
      rated = voltage_of(word);
      continue;
    }
    if (const auto lettered = read_lettered_code(word)) {
      readings.push_back(*lettered);
    }
    add_figure_readings(peel_film(word), readings);
  }
  if (readings.empty()) {
    return Problem{"no capacitance in this print",
                   {},
                   '"' + excerpt(print) + '"',
                   "a print like 104K, 4n7, 2A104J, A475, 47 16V"};
  }
  for (MarkingReading& reading : readings) {
    if (!reading.rated) {
      reading.rated = rated;
    }
  }
  std::stable_sort(readings.begin(), readings.end(), [body](const auto& a, const auto& b) {
    return misfit(a, body) < misfit(b, body);
  });
  return readings;
}

}  // namespace dryout::quantities
