#include "quantities/marking_times.h"

#include <algorithm>

#include "quantities/digit.h"
#include "quantities/marked_value.h"
#include "quantities/marking_letters.h"
#include "quantities/marking_sections.h"
#include "quantities/preferred_value.h"

namespace dryout::quantities {
namespace {

constexpr double second_choice = 1.0;  ///< misfit of the other way of two
constexpr double rating_least = 10.0;  ///< below, a bare figure is rather a count or a value

bool is_sign(const std::string& word) { return word == "x" || word == "X" || word == "*"; }

bool begins_figure(const std::string& word) {
  return is_digit(word.front()) || (word.front() == '.' && word.size() > 1 && is_digit(word[1]));
}

bool is_direct_rating(const std::string& word) {
  const auto rating = rating_in(word);
  return rating && !rating->alternating;
}

bool is_bare_rating(const std::string& word) {
  const auto figure = bare_figure_in(word);
  return figure && *figure >= rating_least && is_usual_rating(*figure);
}

bool has_alternating(const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return word.find('~') != std::string::npos || (rating_in(word) && !is_direct_rating(word)) ||
           is_mains_frequency(word);
  });
}

bool has_rating(const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return rating_in(word).has_value() || word.find('~') != std::string::npos;
  });
}

bool has_written_value(const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(),
                     [](const std::string& word) { return !written_values_in(word).empty(); });
}

/// "0.47" "F": farads, or a letter for one per cent; on cans and beads F may be a rating.
std::vector<std::string> with_farads_joined(const std::vector<std::string>& words, Body body) {
  constexpr double backup_volts_most = 12.0;
  const bool polar = body == Body::electrolytic_can || body == Body::tantalum;
  const bool low = std::any_of(words.begin(), words.end(), [](const std::string& word) {
    const auto rating = rating_in(word);
    return rating && rating->rated.si() <= backup_volts_most;
  });
  std::vector<std::string> joined;
  for (const std::string& word : words) {
    const bool farads = word == "F" && !joined.empty() && bare_figure_in(joined.back());
    if (farads && (!polar || low)) {
      joined.back() += word;
    } else {
      joined.push_back(word);
    }
  }
  return joined;
}

/// "0.05x600", "2x50/350", "100nX2": words run together around a times sign, parted. A size beside
/// a written value ("8x12") stays as it is.
std::vector<std::string> with_signs_apart(const std::vector<std::string>& words) {
  std::vector<std::string> parted;
  for (std::string word : words) {
    const std::size_t sign = word.find_first_of("xX*");
    const bool inside = sign != std::string::npos && sign > 0 && sign + 1 < word.size();
    std::string volts;
    const std::size_t stroke = word.rfind('/');
    if (inside && stroke != std::string::npos && stroke > sign && stroke + 1 < word.size()) {
      const std::string tail = word.substr(stroke + 1);
      if (is_bare_rating(tail) || rating_in(tail)) {
        volts = rating_in(tail) ? tail : tail + 'V';
        word.erase(stroke);
      }
    }
    const std::string left = inside ? word.substr(0, sign) : "";
    const std::string right = inside ? word.substr(sign + 1) : "";
    const bool size = has_written_value(words) && bare_figure_in(left) && bare_figure_in(right);
    const bool apart = inside && !right.empty() && begins_figure(right) && !size &&
                       (is_listed_value(right) || rating_in(right)) && is_listed_value(left);
    const bool mains_class = apart && word[sign] == 'X' && !count_in(left) &&
                             (right == "1" || right == "2" || right == "3");
    if (mains_class) {
      parted.insert(parted.end(), {left, 'X' + right});
    } else if (apart) {
      parted.insert(parted.end(), {left, std::string(1, word[sign]), right});
    } else {
      parted.push_back(word);
    }
    if (!volts.empty()) parted.push_back(volts);
  }
  return parted;
}

/// Walks through the words and settles what each times sign means.
class TimesReader {
 public:
  explicit TimesReader(const std::vector<std::string>& words)
      : words_(words),
        alternating_(has_alternating(words)),
        rated_(has_rating(words)),
        written_(has_written_value(words)) {}

  /// `volts_first`: "2 x 100" is 2 uF of 100 V, not twice 100 uF.
  WayOfReading read(std::optional<bool> volts_first) {
    volts_first_ = volts_first;
    for (at_ = 0; at_ < words_.size(); ++at_) {
      const bool between = is_sign(words_[at_]) && !way_.words.empty() && at_ + 1 < words_.size() &&
                           begins_figure(words_[at_ + 1]);
      if (between && settle(words_[at_], words_[at_ + 1])) continue;
      if (is_sign(words_[at_]) && !names_class(words_[at_])) {
        doubt();
      } else {
        way_.words.push_back(words_[at_]);
      }
    }
    return std::move(way_);
  }

  /// The other way is worth telling, too; whether this one took the figure for volts.
  [[nodiscard]] std::optional<bool> took_volts() const { return took_volts_; }

 private:
  /// A class is printed as a capital; a small x only beside a.c. volts can be meant for one.
  [[nodiscard]] bool names_class(const std::string& sign) const {
    return sign == "X" || (sign == "x" && alternating_);
  }

  /// Whether the sign is dealt with; else it stays a word.
  bool settle(const std::string& sign, const std::string& right) {
    const std::string left = way_.words.back();
    const bool of_class = sign == "X" && alternating_ && !count_in(left);
    const bool value = is_listed_value(left) || sections_in(left);
    if (of_class && (right == "1" || right == "2" || right == "3")) return take('X' + right);
    if (!value) return count_in(right) && !alternating_ && count_first(right);
    if (rating_in(right)) return settle_rating(sign, of_class);
    if (is_behind_value() && bare_figure_in(left) && bare_figure_in(right)) {
      return replace(left + 'x' + right);  // a size
    }
    if (sign == "X") doubt();
    const bool volts = is_bare_rating(right) && !rated_;
    if (count_in(left) && is_listed_value(right)) {
      return volts ? settle_either(left, right) : replace(left + 'x' + right);
    }
    if (volts) return take(right + 'V');
    if (count_in(right)) return replace(right + 'x' + left);
    return is_listed_value(right) && replace(left + '+' + right);
  }

  /// Whether the figure before the sign is no part of the value: "100 25V 8 x 12".
  [[nodiscard]] bool is_behind_value() const {
    const std::size_t before = way_.words.size() - 1;
    if (before > 0 && way_.words[before - 1] == "+") return false;
    return written_ ||
           std::any_of(way_.words.begin(), way_.words.end() - 1, [](const std::string& word) {
             return is_listed_value(word) && !rating_in(word);
           });
  }

  bool settle_rating(const std::string& sign, bool of_class) {
    if (of_class) return false;
    if (sign == "X" || (sign == "x" && alternating_)) doubt();
    return true;  // the rating comes next
  }

  bool settle_either(const std::string& left, const std::string& right) {
    constexpr double high = 200.0;
    const bool volts = volts_first_.value_or(*bare_figure_in(right) >= high);
    took_volts_ = volts;
    return volts ? take(right + 'V') : replace(left + 'x' + right);
  }

  bool count_first(const std::string& count) {
    for (std::string& word : way_.words) {
      if (!is_listed_value(word) || rating_in(word)) continue;
      word.insert(0, count + 'x');
      ++at_;
      return true;
    }
    return false;
  }

  void doubt() {
    way_.remarks.emplace_back(
        "an x is taken for a times sign; with approval marks on the part it names a mains class");
  }

  bool take(const std::string& word) {
    way_.words.push_back(word);
    ++at_;
    return true;
  }

  bool replace(const std::string& word) {
    way_.words.back() = word;
    ++at_;
    return true;
  }

  const std::vector<std::string>& words_;
  bool alternating_, rated_, written_;
  std::optional<bool> volts_first_, took_volts_;
  std::size_t at_ = 0;
  WayOfReading way_;
};

/// "0.1" "+" "2x2500p": one list; any other "+" marks a pole.
std::vector<std::string> with_plus_joined(const std::vector<std::string>& words, Body body) {
  const auto listed = [](const std::string& word) {
    return is_listed_value(word) || sections_in(word);
  };
  std::vector<std::string> joined;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] != "+") {
      joined.push_back(words[i]);
      continue;
    }
    const bool list = body != Body::tantalum && !joined.empty() && i + 1 < words.size() &&
                      listed(joined.back()) && listed(words[i + 1]);
    if (list) joined.back() += '+' + words[++i];
  }
  return joined;
}

/// "25/25": a figure and the same again, where volts may be meant.
std::optional<std::size_t> equal_stroke_in(const std::vector<std::string>& words) {
  if (has_rating(words)) return std::nullopt;
  const auto word = std::find_if(words.begin(), words.end(), [](const std::string& each) {
    const std::size_t stroke = each.find('/');
    return stroke != std::string::npos && each.substr(0, stroke) == each.substr(stroke + 1) &&
           is_bare_rating(each.substr(0, stroke));
  });
  return word == words.end() ? std::nullopt
                             : std::optional(static_cast<std::size_t>(word - words.begin()));
}

/// Low-voltage cans of old were 25 and 50 uF, of 25 and 50 V; later ones follow the series. 16 and
/// 20 uF stood in pairs.
bool is_made_so(double figure) {
  constexpr double cathode = 25.0;
  return figure == cathode || figure == 2.0 * cathode ||
         is_preferred(microfarads(figure), Series::e6);
}

void add_equal_stroke(std::vector<WayOfReading>& ways) {
  const auto at = equal_stroke_in(ways.front().words);
  if (!at) return;
  WayOfReading volts = ways.front();
  volts.equal_is_volts = true;
  const std::string& word = ways.front().words[*at];
  const bool first = is_made_so(*bare_figure_in(word.substr(0, word.find('/'))));
  (first ? ways.front() : volts).misfit = second_choice;
  ways.insert(first ? ways.begin() : ways.end(), std::move(volts));
}

}  // namespace

std::vector<WayOfReading> ways_of_reading(const std::vector<std::string>& words,
                                          const MarkedPart& part) {
  const std::vector<std::string> parted = with_signs_apart(with_farads_joined(words, part.body));
  TimesReader first(parted);
  std::vector<WayOfReading> ways{first.read(std::nullopt)};
  if (const auto volts = first.took_volts()) {
    ways.push_back(TimesReader(parted).read(!*volts));
    ways.back().misfit = second_choice;
  }
  for (WayOfReading& way : ways) way.words = with_plus_joined(way.words, part.body);
  if (ways.size() == 1) add_equal_stroke(ways);
  return ways;
}

}  // namespace dryout::quantities
