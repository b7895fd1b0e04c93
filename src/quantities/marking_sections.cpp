#include "quantities/marking_sections.h"

#include <algorithm>

#include "quantities/engineering_notation.h"
#include "quantities/marked_value.h"
#include "quantities/marking_words.h"

namespace dryout::quantities {
namespace {

constexpr double section_picofarad = 1e-12;
constexpr double microfarad = 1e-6;

struct Term {
  int count = 1;
  double figure = 0.0;  ///< of a value without a unit
  double farads = 0.0;  ///< 0 = no unit
  double unit = 0.0;    ///< F, 0 = none
};

/// "2200pF", "2n2", ".1u" in F; nothing without a unit.
std::optional<double> farads_in(const std::string& text) {
  const auto written = written_values_in(text);
  if (!written.empty()) return written.front().capacitance.si();
  const bool lettered = text.find_first_of("pnu") != std::string::npos;
  const auto values = lettered ? values_in(text) : std::vector<MarkingReading>();
  const bool point = !values.empty() && values.front().convention == Convention::letter_for_point;
  return point ? std::optional(values.front().capacitance.si()) : std::nullopt;
}

std::optional<Term> term_in(const std::string& text) {
  Term term;
  std::string value = text;
  const std::size_t times = text.find_first_of("xX*");
  if (times != std::string::npos) {
    const std::string count = text.substr(0, times);
    const auto several = count_in(count);
    if (!several && count != "1") return std::nullopt;
    term.count = several.value_or(1);
    value = text.substr(times + 1);
  }
  if (const auto figure = bare_figure_in(value)) {
    term.figure = *figure;
    return term;
  }
  const auto farads = farads_in(value);
  if (!farads) return std::nullopt;
  term.farads = *farads;
  const auto figure = bare_figure_in(value.substr(0, value.find_first_not_of("0123456789.")));
  term.unit = *farads / figure.value_or(1.0);
  return term;
}

std::vector<std::string> terms_of(const std::string& word) {
  const char stroke = word.find('+') != std::string::npos   ? '+'
                      : word.find('/') != std::string::npos ? '/'
                                                            : '-';
  return parted_at(word, stroke);
}

/// Gives each figure without a unit the one it is meant in.
void give_units(std::vector<Term>& terms) {
  const bool any_unit =
      std::any_of(terms.begin(), terms.end(), [](const Term& term) { return term.unit > 0.0; });
  const bool any_fraction = std::any_of(terms.begin(), terms.end(), [](const Term& term) {
    return term.unit == 0.0 && term.figure < 1.0;
  });
  constexpr double picofarads_least = 500.0;
  double unit = microfarad;
  for (auto term = terms.rbegin(); term != terms.rend(); ++term) {
    if (term->unit > 0.0) {
      unit = term->unit;
      continue;
    }
    const bool in_picofarads = !any_unit && any_fraction && term->figure >= picofarads_least;
    const double own = term->figure < 1.0 ? microfarad : in_picofarads ? section_picofarad : unit;
    term->farads = term->figure * own;
  }
}

}  // namespace

std::optional<double> bare_figure_in(std::string_view text) {
  if (text.empty() || text.find_first_not_of("0123456789.") != std::string_view::npos) {
    return std::nullopt;
  }
  const auto value = parse_engineering(text, Unit::none);
  return value && *value > 0.0 ? std::optional(*value) : std::nullopt;
}

std::optional<int> count_in(std::string_view text) {
  const bool count = text.size() == 1 && text[0] >= '2' && text[0] <= '6';
  return count ? std::optional(text[0] - '0') : std::nullopt;
}

bool is_listed_value(const std::string& word) {
  return bare_figure_in(word).has_value() || farads_in(word).has_value();
}

std::optional<PrintedSections> sections_in(const std::string& word) {
  std::vector<Term> terms;
  bool all_units = true;
  for (const std::string& text : terms_of(word)) {
    const auto term = term_in(text);
    if (!term) return std::nullopt;
    terms.push_back(*term);
    all_units = all_units && term->unit > 0.0;
  }
  const bool plus = word.find('+') != std::string::npos;
  if (terms.size() > 1 && !plus && !all_units) return std::nullopt;
  give_units(terms);
  PrintedSections sections;
  for (const Term& term : terms) {
    sections.capacitances.insert(sections.capacitances.end(), static_cast<std::size_t>(term.count),
                                 Farad(term.farads));
    sections.written = sections.written || term.unit > 0.0;
  }
  return sections.capacitances.size() > 1 ? std::optional(sections) : std::nullopt;
}

std::optional<MarkingReading> range_in(const std::string& word) {
  constexpr std::size_t two = 2;
  constexpr double widest = 1.6;
  const auto joined = joined_figures_in(word);
  if (!joined || joined->figures.size() != two || joined->strokes != "-" ||
      joined->figures[0] >= joined->figures[1] ||
      joined->figures[1] > widest * joined->figures[0]) {
    return std::nullopt;
  }
  MarkingReading reading =
      written_values_in("1" + (joined->unit.empty() ? "u" : joined->unit)).front();
  const double unit = reading.capacitance.si();
  const double middle = 0.5 * (joined->figures[0] + joined->figures[1]);
  const double apart = joined->figures[1] / middle - 1.0;
  reading.capacitance = Farad(middle * unit);
  reading.tolerance = Tolerance{apart, apart, false};
  reading.how = "the middle of a range, as on motor-start parts";
  reading.remarks.push_back("a sound one lies anywhere from " +
                            format(Farad(joined->figures[0] * unit)) + " to " +
                            format(Farad(joined->figures[1] * unit)));
  return reading;
}

void add_plain_farads(std::vector<MarkingReading>& readings) {
  const bool written = std::any_of(readings.begin(), readings.end(), [](const auto& reading) {
    return reading.convention == Convention::written_unit;
  });
  if (written) return;
  const auto plain = std::find_if(readings.begin(), readings.end(), [](const auto& reading) {
    return reading.convention == Convention::plain_microfarads && reading.sections.empty();
  });
  if (plain == readings.end()) return;
  MarkingReading in_farads = *plain;
  in_farads.capacitance = Farad(plain->capacitance / microfarads(1));
  in_farads.convention = Convention::plain_farads;
  in_farads.how = "plain figure in F, as on back-up cells";
  readings.push_back(std::move(in_farads));
}

}  // namespace dryout::quantities
