#include "quantities/engineering_notation.h"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include "quantities/digit.h"
#include "quantities/printed_number.h"

namespace dryout::quantities {
namespace {

struct Prefix {
  std::string_view symbol;
  double factor;
};

// 'K' is how many people write kilo; the micro sign exists twice in Unicode (U+00B5, U+03BC).
constexpr std::array<Prefix, 10> prefixes{{{"p", 1e-12},
                                           {"n", 1e-9},
                                           {"u", 1e-6},
                                           {"\u00b5", 1e-6},
                                           {"\u03bc", 1e-6},
                                           {"m", 1e-3},
                                           {"k", 1e3},
                                           {"K", 1e3},
                                           {"M", 1e6},
                                           {"G", 1e9}}};

struct UnitWords {
  Unit unit;
  std::string_view symbol;
  std::array<std::string_view, 4> spellings;  ///< accepted at the end of the text
};

constexpr std::array<UnitWords, 10> unit_words{{
    {Unit::none, "", {}},
    {Unit::ohm, "\u03a9", {"\u03a9", "\u2126", "ohm", "R"}},
    {Unit::farad, "F", {"F", "f"}},
    {Unit::henry, "H", {"H", "h"}},
    {Unit::volt, "V", {"V", "v"}},
    {Unit::ampere, "A", {"A", "a"}},
    {Unit::second, "s", {"s", "S"}},
    {Unit::hertz, "Hz", {"Hz", "hz", "HZ"}},
    {Unit::celsius, "\u00b0C", {"\u00b0C", "C"}},
    {Unit::watt, "W", {"W", "w"}},
}};

const UnitWords& words_of(Unit unit) { return unit_words[static_cast<std::size_t>(unit)]; }

std::size_t count_digits(std::string_view text) {
  std::size_t n = 0;
  while (n < text.size() && is_digit(text[n])) {
    ++n;
  }
  return n;
}

bool take(std::string_view& text, std::string_view head) {
  if (head.empty() || text.substr(0, head.size()) != head) {
    return false;
  }
  text.remove_prefix(head.size());
  return true;
}

const Prefix* take_prefix(std::string_view& text) {
  for (const Prefix& prefix : prefixes) {
    if (take(text, prefix.symbol)) {
      return &prefix;
    }
  }
  return nullptr;
}

bool take_unit(std::string_view& text, Unit unit) {
  for (const std::string_view spelling : words_of(unit).spellings) {
    if (take(text, spelling)) {
      return true;
    }
  }
  return false;
}

/// The letter of the unit that may stand in the place of the point: 4R7, 3F3, 6V3.
bool take_point_letter(std::string_view& text, Unit unit) {
  switch (unit) {
    case Unit::ohm:
      return take(text, "R");
    case Unit::farad:
      return take(text, "F") || take(text, "R");  // IEC 60062 writes 4R7 for 4.7 (of the base)
    case Unit::henry:
      return take(text, "H");
    case Unit::volt:
      return take(text, "V");
    case Unit::none:
      return take(text, "R");
    default:
      return false;
  }
}

Problem refuse(std::string_view text, std::string message, std::string accepted) {
  return {std::move(message), {}, '"' + excerpt(text) + '"', std::move(accepted)};
}

constexpr std::string_view examples = "a value like 10u, 4R7, 2k2, 100n, 0.47";

/// Half the world writes 4,7 and the other half 4,700 for four thousand seven hundred. The first is
/// read; what may be either is refused, as a factor of a thousand hangs on it.
Problem refuse_thousands(std::string_view text, std::size_t comma) {
  constexpr std::size_t group = 3;
  std::size_t begin = comma;
  while (begin > 0 && is_digit(text[begin - 1])) {
    --begin;
  }
  const std::string whole(text.substr(begin, comma - begin));
  const std::string fraction(text.substr(comma + 1, group));
  std::string shorter = fraction.substr(0, fraction.find_last_not_of('0') + 1);
  shorter = shorter.size() == group ? '.' + fraction : ',' + (shorter.empty() ? "0" : shorter);
  return refuse(
      text, "a comma with three figures behind it may part thousands or be decimal",
      whole + fraction + " for the thousands, " + whole + shorter + " for the decimal comma");
}

struct Figure {
  std::string digits;  ///< with a decimal point where there is one
  double factor = 1.0;
  bool prefixed = false;
};

/// Reads "47", "0.47", ".47", "4R7", "2k2" off the front of the text.
std::optional<Figure> take_figure(std::string_view& text, Unit unit) {
  Figure figure;
  if (take(text, "-") || take(text, "\u2212")) {
    figure.digits = "-";
  } else {
    (void)take(text, "+");
  }
  const std::size_t whole = count_digits(text);
  figure.digits += text.substr(0, whole);
  text.remove_prefix(whole);
  std::size_t fraction = 0;
  if (take(text, ".")) {
    fraction = count_digits(text);
    figure.digits += '.' + std::string(text.substr(0, fraction));
    text.remove_prefix(fraction);
  } else if (whole > 0) {
    std::string_view rest = text;
    const Prefix* prefix = take_prefix(rest);
    const bool letter = prefix != nullptr || take_point_letter(rest, unit);
    fraction = letter ? count_digits(rest) : 0;
    if (fraction > 0) {
      figure.digits += '.' + std::string(rest.substr(0, fraction));
      figure.factor = prefix != nullptr ? prefix->factor : 1.0;
      figure.prefixed = true;  // the letter was used up as the point
      rest.remove_prefix(fraction);
      text = rest;
    }
  }
  return whole + fraction > 0 ? std::optional(figure) : std::nullopt;
}

/// "e-6" after plain digits, as programs write it.
void take_exponent(std::string_view& text, Figure& figure) {
  if (text.empty() || (text[0] != 'e' && text[0] != 'E')) {
    return;
  }
  std::size_t n = 1;
  if (n < text.size() && (text[n] == '-' || text[n] == '+')) {
    ++n;
  }
  const std::size_t digits = count_digits(text.substr(n));
  if (digits == 0) {
    return;
  }
  figure.digits += text.substr(0, n + digits);
  text.remove_prefix(n + digits);
}

template <class Q>
Result<Q> typed(Result<double> value) {
  if (!value) {
    return value.problems();
  }
  return Q(*value);
}

/// Plain digits as far as people read them; beyond, with an exponent.
std::string with_digits(double x, int digits) {
  constexpr double plain_from = 1e-9;
  constexpr double plain_below = 1e15;
  const double magnitude = std::abs(x);
  const bool plain = magnitude >= plain_from && magnitude < plain_below;  // not so of no number
  if (magnitude != 0.0 && !plain) {
    return significant_figures(x, digits);
  }
  const int exponent = magnitude == 0.0 ? 0 : static_cast<int>(std::floor(std::log10(magnitude)));
  std::string text = fixed_point(x, std::max(0, digits - 1 - exponent));
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') {
      text.pop_back();
    }
  }
  return text;
}

/// Rounded to that many significant digits, so that 999.9 becomes 1 k and not 1000.
double rounded(double x, int digits) {
  if (x == 0.0) {
    return 0.0;
  }
  const double scale = std::pow(10.0, digits - 1 - std::floor(std::log10(std::abs(x))));
  return std::isfinite(scale) && scale > 0.0 ? std::round(x * scale) / scale : x;
}

/// Microfarads up to the largest can, farads for a double layer. Never millifarads: on the parts of
/// this trade "mF" is an old microfarad.
std::string large_capacitance(double farads, int digits) {
  constexpr double double_layer = 0.1;
  constexpr double micro = 1e-6;
  if (std::abs(farads) >= double_layer * (1.0 - 1e-12)) {
    return with_digits(farads, digits) + " F";
  }
  return grouped_by_thousands(with_digits(farads / micro, digits)) + " \u00b5F";
}

}  // namespace

Result<std::string> with_decimal_point(std::string_view text) {
  std::string pointed(text);
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) {
    return pointed;
  }
  if (text.find(',', comma + 1) != std::string_view::npos) {
    return refuse(text, "more than one comma in a value", "one decimal comma or point: 4,7 or 4.7");
  }
  if (text.find('.') != std::string_view::npos) {
    return refuse(text, "a comma and a point in one value", "one of them: 4,7 or 4.7");
  }
  constexpr std::size_t group = 3;
  std::size_t whole = comma;
  while (whole > 0 && is_digit(text[whole - 1])) --whole;
  const bool may_be_thousands = whole < comma && text[whole] != '0';  // "0,047" counts none
  if (may_be_thousands && count_digits(text.substr(comma + 1)) == group) {
    return refuse_thousands(text, comma);
  }
  pointed[comma] = '.';
  return pointed;
}

std::string_view symbol_of(Unit unit) { return words_of(unit).symbol; }

Result<double> parse_engineering(std::string_view text, Unit unit) {
  const std::string_view original = text;
  constexpr std::size_t length_max = 40;
  if (text.empty() || text.size() > length_max) {
    return refuse(original, "not a value", std::string(examples));
  }
  Result<std::string> pointed = with_decimal_point(text);
  if (!pointed) {
    return pointed.problems();
  }
  text = *pointed;
  std::optional<Figure> figure = take_figure(text, unit);
  if (!figure) {
    return refuse(original, "not a value", std::string(examples));
  }
  if (!figure->prefixed) {
    take_exponent(text, *figure);
    (void)take(text, " ");
    if (unit != Unit::celsius) {
      if (const Prefix* prefix = take_prefix(text)) {
        figure->factor = prefix->factor;
      }
    }
  } else {
    (void)take(text, " ");
  }
  (void)take_unit(text, unit);
  if (!text.empty()) {
    return refuse(original, "cannot read \"" + excerpt(text, 12) + "\" at the end of a value",
                  std::string(examples) +
                      (unit == Unit::none ? "" : " (" + std::string(symbol_of(unit)) + ")"));
  }
  double value = 0.0;
  const char* end = figure->digits.data() + figure->digits.size();
  const auto [stop, error] = std::from_chars(figure->digits.data(), end, value);
  if (error != std::errc() || stop != end || !std::isfinite(value * figure->factor)) {
    return refuse(original, "not a finite value", std::string(examples));
  }
  return value * figure->factor;
}

Result<Ohm> parse_ohm(std::string_view t) { return typed<Ohm>(parse_engineering(t, Unit::ohm)); }
Result<Farad> parse_farad(std::string_view t) {
  return typed<Farad>(parse_engineering(t, Unit::farad));
}
Result<Volt> parse_volt(std::string_view t) {
  return typed<Volt>(parse_engineering(t, Unit::volt));
}
Result<Ampere> parse_ampere(std::string_view t) {
  return typed<Ampere>(parse_engineering(t, Unit::ampere));
}
Result<Hertz> parse_hertz(std::string_view t) {
  return typed<Hertz>(parse_engineering(t, Unit::hertz));
}
Result<Second> parse_second(std::string_view t) {
  return typed<Second>(parse_engineering(t, Unit::second));
}
Result<Celsius> parse_celsius(std::string_view t) {
  return typed<Celsius>(parse_engineering(t, Unit::celsius));
}

std::string format_engineering(double si, Unit unit, int digits) {
  CHECK(digits > 0);
  if (!std::isfinite(si)) {
    return fixed_point(si, 0);
  }
  const std::string unit_text = unit == Unit::none ? "" : std::string(symbol_of(unit));
  const double value = rounded(si, digits);
  if (unit == Unit::celsius) {
    return with_digits(value, digits) + ' ' + unit_text;
  }
  if (unit == Unit::farad && std::abs(value) >= 1e-6 * (1.0 - 1e-12)) {
    return large_capacitance(value, digits);
  }
  struct Scale {
    double from;
    double factor;
    const char* prefix;
  };
  constexpr std::array<Scale, 8> scales{{{1e9, 1e9, "G"},
                                         {1e6, 1e6, "M"},
                                         {1e3, 1e3, "k"},
                                         {1.0, 1.0, ""},
                                         {1e-3, 1e-3, "m"},
                                         {1e-6, 1e-6, "\u00b5"},
                                         {1e-9, 1e-9, "n"},
                                         {0.0, 1e-12, "p"}}};
  const double magnitude = std::abs(value);
  if (magnitude == 0.0 || (unit == Unit::ohm && magnitude >= 0.1 && magnitude < 1.0)) {
    return with_digits(value, digits) + (unit_text.empty() ? "" : ' ' + unit_text);
  }
  for (const Scale& scale : scales) {
    if (magnitude >= scale.from * (1.0 - 1e-12)) {
      const std::string suffix = scale.prefix + unit_text;
      return with_digits(value / scale.factor, digits) + (suffix.empty() ? "" : ' ' + suffix);
    }
  }
  return with_digits(value, digits);
}

std::string format(Ohm value, int digits) {
  return format_engineering(value.si(), Unit::ohm, digits);
}
std::string format(Farad value, int digits) {
  return format_engineering(value.si(), Unit::farad, digits);
}
std::string format(Volt value, int digits) {
  return format_engineering(value.si(), Unit::volt, digits);
}
std::string format(Ampere value, int digits) {
  return format_engineering(value.si(), Unit::ampere, digits);
}
std::string format(Hertz value, int digits) {
  return format_engineering(value.si(), Unit::hertz, digits);
}
std::string format(Celsius value) { return format_engineering(value.degrees(), Unit::celsius); }

std::string format_duration(Second value) {
  const double total = value.si();
  constexpr double long_as_counted = 1e12;  // 30,000 years: beyond, minutes say nothing
  if (!(total >= 60.0)) {
    return with_digits(std::round(total), 2) + " s";
  }
  if (total > long_as_counted) {
    return with_digits(total / 3600.0, 3) + " h";
  }
  const auto minutes_total = static_cast<long>(std::lround(total / 60.0));
  if (minutes_total < 60) {
    return std::to_string(minutes_total) + " min";
  }
  const std::string rest = std::to_string(minutes_total % 60);
  return std::to_string(minutes_total / 60) + " h " + (rest.size() < 2 ? "0" : "") + rest + " min";
}

}  // namespace dryout::quantities
