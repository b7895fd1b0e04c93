#include "quantities/part_marking.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "quantities/colour_code.h"
#include "quantities/digit.h"
#include "quantities/engineering_notation.h"
#include "quantities/marked_value.h"
#include "quantities/marking_joins.h"
#include "quantities/marking_letters.h"
#include "quantities/marking_sections.h"
#include "quantities/marking_sense.h"
#include "quantities/marking_times.h"
#include "quantities/marking_words.h"
#include "quantities/part_number.h"

namespace dryout::quantities {
namespace {

/// Reads the words of one print in their order; what a word means hangs on those before it.
class PrintReader {
 public:
  PrintReader(std::vector<std::string> words, bool equal_is_volts, const MarkedPart& part)
      : words_(std::move(words)), equal_is_volts_(equal_is_volts), part_(part) {}

  std::vector<MarkingReading> read() {
    if (const auto colours = colours_in(words_)) {
      readings_ = read_colours(*colours, part_.body);
    } else {
      for (const std::string& word : words_) take(word);
      finish();
    }
    return std::move(readings_);
  }

 private:
  [[nodiscard]] bool alone() const { return words_.size() == 1; }
  [[nodiscard]] bool has_value() const { return !readings_.empty() || !sections_.empty(); }

  void take(const std::string& word) {
    if (take_words_beside(word) || take_letters(word)) return;
    if (const auto number = read_part_number(word)) {
      readings_.push_back(*number);
      return;
    }
    if (take_joined(word)) return;
    if (has_value() && take_bare_rating(word)) return;
    take_value(word);
  }

  /// Ratings, tolerances, characteristics, classes.
  bool take_words_beside(const std::string& word) {
    if (is_code_in_v(word)) {
      set_rating(*voltage_of(word), false);
      return true;
    }
    if (const auto rating = rating_in(word); rating && !prefixed_value_in(word)) {
      set_rating(rating->rated, rating->alternating);
      return true;
    }
    if (const auto percent = percent_in(word)) {
      tolerance_ = percent;
      return true;
    }
    std::string told = temperature_words(word);
    if (told.empty() && !alone()) told = class_words(word);
    if (told.empty() && word.ends_with("Hz")) told = "for " + word;
    if (told.empty()) return false;
    const bool code_alone = alone() && !values_in(word).empty();
    if (!code_alone) remarks_.push_back(std::move(told));
    return !code_alone;
  }

  [[nodiscard]] bool is_polar() const {
    return part_.body == Body::electrolytic_can || part_.body == Body::tantalum;
  }

  /// "1V" and "2V" are codes for 35 and 350 V: no part of one volt is made.
  [[nodiscard]] bool is_code_in_v(const std::string& word) const {
    return is_polar() && !alone() && (word == "1V" || word == "2V");
  }

  /// "K" or "E" by itself, and "1E": tolerance or rating.
  bool take_letters(const std::string& word) {
    if (word.size() == 1 && !is_digit(word.front())) {
      letters_ += word.front();
      return true;
    }
    constexpr std::size_t code_length = 2;
    // "2G" could be 2 uF within 2 %; beside a value it is the rating.
    const bool code_first = (is_polar() && !alone()) || stands_beside_value(word);
    if (word.size() != code_length || (!code_first && !values_in(word).empty())) return false;
    const auto rated = voltage_of(word);
    if (rated) set_rating(*rated, false);
    return rated.has_value();
  }

  /// "2G 473 J", "473J 2J": another word is the value. A bare figure that may be volts is none,
  /// unless a tolerance stands elsewhere.
  [[nodiscard]] bool stands_beside_value(const std::string& word) const {
    const bool tolerance = std::any_of(words_.begin(), words_.end(), [](const auto& other) {
      return other.size() == 1 && tolerance_of(other.front(), microfarads(1));
    });
    return std::any_of(words_.begin(), words_.end(), [&](const std::string& other) {
      const auto figure = bare_figure_in(other);
      const bool volts = figure && is_usual_rating(*figure) && !tolerance;
      const bool coded = other.size() > 2 && voltage_of(word);
      return &other != &word && coded && !volts && !rating_in(other) && !values_in(other).empty();
    });
  }

  /// A usual rating without its V behind a value: "4n7 J 400", "226 25K".
  bool take_bare_rating(const std::string& word) {
    std::string figure = word;
    std::optional<Tolerance> tolerance;
    if (std::isupper(static_cast<unsigned char>(word.back())) != 0) {
      tolerance = tolerance_of(word.back(), microfarads(1));
      figure.pop_back();
    }
    const bool plain =
        !figure.empty() && figure.find_first_not_of("0123456789.") == std::string::npos;
    const auto values = plain ? written_values_in(figure + 'F') : std::vector<MarkingReading>();
    if (values.empty() || rated_ || !is_usual_rating(values.front().capacitance.si())) return false;
    set_rating(Volt(values.front().capacitance.si()), false);
    if (tolerance) tolerance_ = tolerance;
    return true;
  }

  void take_value(const std::string& word) {
    std::vector<MarkingReading> values = values_in(word);
    if (values.empty() && !has_value()) {
      if (const auto prefixed = prefixed_value_in(word)) {
        const auto coded = voltage_of(prefixed->prefix);
        const auto volts = rating_in(prefixed->prefix);
        if (prefixed->characteristic) {
          remarks_.push_back(prefixed->prefix + ": temperature characteristic of a ceramic");
        } else if (coded || volts) {
          set_rating(coded ? *coded : volts->rated, false);
        }
        values = values_in(prefixed->value);
      }
    }
    if (values.empty()) {
      const bool figures = std::any_of(word.begin(), word.end(), is_digit);
      if (figures) remarks_.push_back("not read: " + excerpt(word, 20));
      return;
    }
    const bool written = values.front().convention == Convention::written_unit;
    if (readings_.empty() || (written && !written_)) {
      readings_ = std::move(values);
      written_ = written;
    } else if (written) {
      begin_section(values.front().capacitance);
    } else {
      remarks_.push_back("also printed: " + excerpt(word, 20));
    }
  }

  /// "40 MFD 450V 20 MFD 25V": a further value is a further section.
  void begin_section(Farad capacitance) {
    if (sections_.empty()) {
      sections_.push_back({readings_.front().capacitance, rated_});
      readings_.clear();
    }
    sections_.push_back({capacitance, std::nullopt});
  }

  void set_rating(Volt rated, bool alternating) {
    if (!sections_.empty() && !sections_.back().rated) {
      sections_.back().rated = rated;
    }
    if (!rated_) {
      rated_ = rated;
      alternating_ = alternating;
    } else if (alternating && !alternating_) {
      remarks_.push_back("also rated " + format(rated) + " a.c.");
    }
  }

  /// "108-130 MFD 125 VAC": the least and the most that a motor-start part may have.
  bool take_range(const std::string& word) {
    const bool alternating = std::any_of(words_.begin(), words_.end(), [](const auto& other) {
      const auto rating = rating_in(other);
      return rating && rating->alternating;
    });
    const auto range = has_value() || !alternating ? std::nullopt : range_in(word);
    if (range) readings_ = {*range};
    written_ = written_ || range;
    return range.has_value();
  }

  bool take_joined(const std::string& word) {
    if (take_range(word)) return true;
    if (take_value_and_volts(word)) return true;
    if (take_sections(word)) return true;
    const auto joined = joined_figures_in(word);
    if (!joined || has_value() || joined->strokes.find('x') != std::string::npos) return false;
    const auto written = written_values_in("1" + (joined->unit.empty() ? "u" : joined->unit));
    const double unit = written.front().capacitance.si();
    std::vector<double> figures = joined->figures;
    if (ends_in_volts(*joined)) {
      rated_ = Volt(figures.back());
      figures.pop_back();
    }
    for (const double figure : figures) sections_.push_back({Farad(figure * unit), rated_});
    written_ = !joined->unit.empty();
    return true;
  }

  /// "2x2200p", "0.1+2x2500p": behind another value only with a unit, as "5x11" is a size there.
  bool take_sections(const std::string& word) {
    const auto sections = sections_in(word);
    if (!sections || (has_value() && !sections->written)) return false;
    for (const Farad each : sections->capacitances) {
      if (has_value()) {
        begin_section(each);
      } else {
        sections_.push_back({each, rated_});
      }
    }
    written_ = sections->written;
    return true;
  }

  /// "100+100+50/350", "32/32/450": the last is no section.
  [[nodiscard]] static bool ends_in_volts(const JoinedFigures& joined) {
    const double last = joined.figures.back();
    const double largest = *std::max_element(joined.figures.begin(), joined.figures.end() - 1);
    const bool own_stroke =
        joined.strokes.size() > 1 && joined.strokes.back() == '/' && joined.strokes.front() != '/';
    constexpr double least_high_tension = 100.0;
    return joined.unit.empty() && is_usual_rating(last) && joined.figures.size() > 2 &&
           (own_stroke || (last >= least_high_tension && last > 2.0 * largest));
  }

  /// "47/16", "4n7/400", "40/450 20/25". Where volts stand elsewhere the stroke joins sections.
  bool take_value_and_volts(const std::string& word) {
    const std::size_t stroke = word.find_first_of("/-");
    if (stroke == std::string::npos || stroke == 0 || rated_elsewhere(word) ||
        word.find_first_of("/-+x", stroke + 1) != std::string::npos) {
      return false;
    }
    const std::string tail = word.substr(stroke + 1);
    const auto printed = rating_in(tail);  // "47/16V"
    const auto volts = bare_figure_in(tail);
    const std::string value = word.substr(0, stroke);
    std::vector<MarkingReading> values = values_in(value);
    if ((!volts && !printed) || values.empty()) return false;
    const Volt rated = printed ? printed->rated : Volt(*volts);
    const auto joined = joined_figures_in(word);
    const bool equal = joined && joined->figures[0] == joined->figures[1] && !equal_is_volts_ &&
                       !has_value();  // "40/450 25/25": behind a section it is the next
    const bool dash = word[stroke] == '-';
    constexpr double dash_least = 100.0;
    if (!is_usual_rating(rated.si()) || (dash && rated.si() < dash_least) || equal) return false;
    if (has_value()) {
      const auto figure = bare_figure_in(value);
      if (!figure) return false;
      begin_section(microfarads(*figure));
      sections_.back().rated = rated;
      return true;
    }
    readings_ = std::move(values);
    written_ = readings_.front().convention == Convention::written_unit;
    // As the first of several it is in microfarads; alone it may be anything.
    const auto plain = std::find_if(readings_.begin(), readings_.end(), [](const auto& reading) {
      return reading.convention == Convention::plain_microfarads;
    });
    if (plain != readings_.end()) {
      plain->how += volts_behind_stroke;
      std::iter_swap(readings_.begin(), plain);
    }
    set_rating(rated, printed && printed->alternating);
    return true;
  }

  [[nodiscard]] bool rated_elsewhere(const std::string& word) const {
    return std::any_of(words_.begin(), words_.end(), [&word](const std::string& other) {
      return other != word && rating_in(other).has_value();
    });
  }

  /// Whether a letter by itself is a rating: on cans and beads, and where it is no tolerance.
  [[nodiscard]] bool rates(char letter) const {
    if (rated_ || !voltage_of(std::string(1, letter))) return false;
    const bool tolerance = tolerance_of(letter, microfarads(1)).has_value();
    return !tolerance || (is_polar() && letter != 'K' && letter != 'M');
  }

  /// X1, X2, Y1 ...: rated for a.c. (IEC 60384-14), where nobody printed d.c. beside it.
  [[nodiscard]] bool has_numbered_class() const {
    return std::any_of(remarks_.begin(), remarks_.end(), names_numbered_class) &&
           std::none_of(words_.begin(), words_.end(),
                        [](const auto& w) { return w.ends_with("DC"); });
  }

  void finish() {
    if (part_.body == Body::double_layer) add_plain_farads(readings_);
    std::optional<char> tolerance;
    for (const char letter : letters_) {
      if (rates(letter)) {
        rated_ = voltage_of(std::string(1, letter));
      } else if (tolerance_of(letter, microfarads(1))) {
        tolerance = letter;
      }
    }
    const bool mains = std::any_of(words_.begin(), words_.end(), is_mains_frequency);
    alternating_ = alternating_ || (rated_ && !is_polar() && (mains || has_numbered_class()));
    if (!sections_.empty()) add_sections();
    for (MarkingReading& reading : readings_) {
      if (!reading.rated && rated_) {
        reading.rated = rated_;
        reading.alternating = alternating_;
      }
      if (!reading.tolerance && tolerance) {
        reading.tolerance = tolerance_of(*tolerance, reading.capacitance);
      }
      if (!reading.tolerance) reading.tolerance = tolerance_;
      reading.remarks.insert(reading.remarks.end(), remarks_.begin(), remarks_.end());
    }
  }

  void add_sections() {
    MarkingReading reading;
    reading.how =
        std::to_string(sections_.size()) +
        (in_microfarads() ? " sections in one can, in \u00b5F" : " capacitors in one body");
    reading.convention = written_ ? Convention::written_unit : Convention::plain_microfarads;
    // One rating for all stands at the end.
    for (MarkedSection& section : sections_) {
      if (!section.rated) section.rated = rated_;
    }
    reading.capacitance = sections_.front().capacitance;
    reading.rated = sections_.front().rated;
    reading.alternating = alternating_;
    reading.sections = sections_;
    tell_mains_block();
    readings_.clear();
    readings_.push_back(std::move(reading));
  }

  [[nodiscard]] bool in_microfarads() const {
    return std::all_of(sections_.begin(), sections_.end(), [](const MarkedSection& section) {
      return section.capacitance >= microfarads(1);
    });
  }

  /// "0.1 + 2x2500p 250~": the suppressor block of a mains inlet, even if its letters are worn off.
  void tell_mains_block() {
    constexpr std::size_t three = 3;
    if (!alternating_ || sections_.size() != three) return;
    std::vector<MarkedSection> sorted = sections_;
    std::sort(sorted.begin(), sorted.end(),
              [](const auto& a, const auto& b) { return a.capacitance < b.capacitance; });
    const Farad half = sorted.front().capacitance;
    if (sorted[1].capacitance > half * 1.01 || sorted.back().capacitance < half * 2.0) return;
    remarks_.push_back("made as an XY block: " + format(sorted.back().capacitance) +
                       " across the mains (class X), " + format(half) +
                       " from either lead to where it can be touched (class Y); only parts of "
                       "these classes may take their place");
  }

  std::vector<std::string> words_;
  bool equal_is_volts_;
  const MarkedPart& part_;
  std::vector<MarkingReading> readings_;
  std::vector<MarkedSection> sections_;
  std::vector<std::string> remarks_;
  std::string letters_;
  std::optional<Volt> rated_;
  std::optional<Tolerance> tolerance_;
  bool alternating_ = false;
  bool written_ = false;
};

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

Result<std::vector<MarkingReading>> read_marking(std::string_view print, const MarkedPart& part) {
  constexpr std::size_t length_max = 64;
  if (print.size() > length_max) {
    return Problem{"not a print", {}, excerpt(print), "up to 64 characters"};
  }
  auto words = words_of_print(print);
  if (!words) {
    return words.problems();
  }
  // "100 V" on a can: the V apart is the code for 35 V, for a rating alone tells nothing.
  const bool can = part.body == Body::electrolytic_can || part.body == Body::tantalum;
  if (can && words->size() == 1 && words->front().size() > 1 && print.ends_with(" V")) {
    words->front().pop_back();
    words->emplace_back("V");
  }
  std::vector<MarkingReading> readings;
  for (const WayOfReading& way : ways_of_reading(*words, part)) {
    for (MarkingReading& reading :
         PrintReader(words_apart(way.words, part), way.equal_is_volts, part).read()) {
      reading.misfit += way.misfit;
      reading.remarks.insert(reading.remarks.end(), way.remarks.begin(), way.remarks.end());
      readings.push_back(std::move(reading));
    }
  }
  std::erase_if(readings, [](const MarkingReading& reading) {
    constexpr double most = 1e4;  // F: no part stands for more, whatever is printed on it
    return !(reading.capacitance.si() > 0.0) || reading.capacitance.si() > most;
  });
  if (readings.empty()) {
    return Problem{"no capacitance in this print",
                   {},
                   '"' + excerpt(print) + '"',
                   "a print like 104K, 4n7, 2A104J, A475, 47 16V, 40/20/20 450V, or three to six "
                   "colours"};
  }
  rank_readings(readings, part);
  return readings;
}

Result<std::vector<MarkingReading>> read_marking(std::string_view print, Body body) {
  return read_marking(print, MarkedPart{body, std::nullopt, std::nullopt});
}

}  // namespace dryout::quantities
