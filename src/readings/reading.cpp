#include "readings/reading.h"

#include <algorithm>
#include <array>
#include <string>

namespace dryout::readings {
namespace {

using Words = std::vector<std::string_view>;

const Words& verdict_words() {
  static const Words words{"suspect-short", "within-limit", "masked",    "not-proven",
                           "over-limit",    "no-reading",   "above-mark"};
  return words;
}

template <class Choice>
std::string_view word_in(const Words& words, Choice choice) {
  return words[static_cast<std::size_t>(choice)];
}

template <class Choice>
std::optional<Choice> choice_in(const Words& words, std::string_view word) {
  const auto at = std::find(words.begin(), words.end(), word);
  if (at == words.end()) {
    return std::nullopt;
  }
  return static_cast<Choice>(at - words.begin());
}

}  // namespace

const Words& kind_words() {
  static const Words words{"esr",    "impedance", "capacitance", "leakage-current", "dc-resistance",
                           "ripple", "dc-volts",  "insulation",  "dissipation",     "hold-up"};
  return words;
}

const Words& across_words() {
  static const Words words{"unknown", "nothing",   "ceramic",     "electrolytic",
                           "winding", "regulator", "low-resistor"};
  return words;
}

const Words& body_words() {
  static const Words words{"unknown", "smd", "radial", "axial", "can"};
  return words;
}

std::string_view word_of(Kind kind) { return word_in(kind_words(), kind); }
std::string_view word_of(Across across) { return word_in(across_words(), across); }
std::string_view word_of(Body body) { return word_in(body_words(), body); }
std::string_view word_of(Verdict verdict) { return word_in(verdict_words(), verdict); }

std::optional<Kind> kind_of(std::string_view word) { return choice_in<Kind>(kind_words(), word); }
std::optional<Across> across_of(std::string_view word) {
  return choice_in<Across>(across_words(), word);
}
std::optional<Body> body_of(std::string_view word) { return choice_in<Body>(body_words(), word); }

quantities::Unit unit_of(Kind kind) {
  switch (kind) {
    case Kind::capacitance:
      return quantities::Unit::farad;
    case Kind::leakage_current:
      return quantities::Unit::ampere;
    case Kind::ripple:
    case Kind::dc_volts:
      return quantities::Unit::volt;
    case Kind::dissipation:
      return quantities::Unit::none;
    case Kind::hold_up:
      return quantities::Unit::second;
    case Kind::esr:
    case Kind::impedance:
    case Kind::dc_resistance:
    case Kind::insulation:
      break;
  }
  return quantities::Unit::ohm;
}

quantities::Hertz usual_frequency(Kind kind, std::string_view technology) {
  if (kind != Kind::dissipation) {
    return quantities::hertz(100e3);
  }
  return quantities::hertz(has_dry_dielectric(technology) ? 1e3 : 120.0);
}

bool is_over_range(std::string_view typed) {
  std::string letters;
  for (const char c : typed) {
    if (c != '.' && c != ' ') {
      letters += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
  }
  return letters == "OL" || letters == "0L" || letters == "INF";
}

bool is_wet(std::string_view technology) {
  return technology == "wet-aluminium" || technology == "bipolar-aluminium" ||
         technology == "surface-mount-aluminium" || technology == "supercap";
}

bool is_aluminium_electrolytic(std::string_view technology) {
  return is_wet(technology) && technology != "supercap";
}

std::string_view limit_family(std::string_view technology) {
  return technology == "surface-mount-aluminium" ? "wet-aluminium" : technology;
}

bool has_dry_dielectric(std::string_view technology) {
  constexpr std::array<std::string_view, 8> dry{"film", "mains-film",  "paper",   "oil-paper",
                                                "mica", "polystyrene", "ceramic", "trimmer"};
  return std::find(dry.begin(), dry.end(), technology) != dry.end();
}

}  // namespace dryout::readings
