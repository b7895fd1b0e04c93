#include "window/wording.h"

#include <array>
#include <cmath>

#include "quantities/printed_number.h"

namespace dryout::window {

using casework::Across;
using casework::ReadingKind;
using quantities::Unit;

std::string percent(quantities::Probability p) {
  const double hundredths = p.value() * 100.0;
  if (hundredths < 0.5) {
    return "< 1 %";
  }
  if (hundredths > 99.5) {
    return "> 99 %";
  }
  return quantities::whole_number(hundredths) + " %";
}

std::string decibans(quantities::Decibans weight) {
  if (std::isinf(weight.value)) {
    return weight.value > 0 ? "proves it" : "rules it out";
  }
  const std::string figure = quantities::fixed_point(weight.value, 1);
  // A true minus sign: in figures a hyphen is easily lost.
  return (figure.front() == '-' ? "\u2212" + figure.substr(1) : '+' + figure) + " dB";
}

std::string set_state(const std::string& state) {
  if (state == "unpowered") {
    return "set switched off, capacitors discharged";
  }
  if (state == "powered") {
    return "set switched on";
  }
  return state == "lifted" ? "set off, one leg lifted" : state;
}

std::string verdict_words(const std::string& verdict) {
  if (verdict == "over-limit") {
    return "over the limit";
  }
  if (verdict == "within-limit") {
    return "within the limit";
  }
  if (verdict == "masked") {
    return "masked by what sits across it";
  }
  if (verdict == "not-proven") {
    return "proves nothing yet";
  }
  if (verdict == "no-reading") {
    return "no reading";
  }
  if (verdict == "above-mark") {
    return "far above its mark";
  }
  return verdict == "suspect-short" ? "looks like a short" : verdict;
}

std::string provenance_words(const std::string& limit_source) {
  if (limit_source == "datasheet") {
    return "the part's own data sheet";
  }
  if (limit_source == "look-alike") {
    return "a look-alike series";
  }
  if (limit_source == "fresh-part") {
    return "a fresh part measured";
  }
  if (limit_source == "tan-delta") {
    return "derived from tan \u03b4";
  }
  return limit_source == "general-table" ? "a general table" : limit_source;
}

std::string danger_words(const std::string& danger) {
  if (danger == "mains") {
    return "Mains";
  }
  if (danger == "high-tension") {
    return "High tension";
  }
  return danger == "stored-charge" ? "Stored charge" : "Take care";
}

std::string capitalised(std::string word) {
  if (!word.empty() && word.front() >= 'a' && word.front() <= 'z') {
    word.front() = static_cast<char>(word.front() - 'a' + 'A');
  }
  return word;
}

std::string joined(const std::vector<std::string>& words, const char* between) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : between) + word;
  }
  return text;
}

namespace {
constexpr std::array<KindWords, 10> kinds{{
    {ReadingKind::esr, "esr", "ESR", Unit::ohm, "0.35 or 4R7"},
    {ReadingKind::impedance, "impedance", "Impedance", Unit::ohm, "0.35 or 4R7"},
    {ReadingKind::capacitance, "capacitance", "Capacitance", Unit::farad, "47u or 100n"},
    {ReadingKind::leakage_current, "leakage-current", "Leakage", Unit::ampere, "30u"},
    {ReadingKind::dc_resistance, "dc-resistance", "Resistance", Unit::ohm, "2k2"},
    {ReadingKind::ripple, "ripple", "Ripple", Unit::volt, "120m"},
    {ReadingKind::dc_volts, "dc-volts", "Volts", Unit::volt, "38.2"},
    {ReadingKind::insulation, "insulation", "Insulation", Unit::ohm, "500M or OL"},
    {ReadingKind::dissipation, "dissipation", "Loss D", Unit::none, "0.08"},
    {ReadingKind::hold_up, "hold-up", "Hold-up", Unit::second, "90"},
}};
}  // namespace

const KindWords* kind_words(const std::string& quantity) {
  // The knowledge may write the short word of the bench.
  const std::string id = quantity == "volts"        ? "dc-volts"
                         : quantity == "resistance" ? "dc-resistance"
                         : quantity == "leakage"    ? "leakage-current"
                                                    : quantity;
  for (const KindWords& kind : kinds) {
    if (id == kind.id) {
      return &kind;
    }
  }
  return nullptr;
}

const KindWords& kind_words(casework::ReadingKind kind) {
  return kinds[static_cast<std::size_t>(kind)];
}

const std::vector<AcrossWords>& across_words() {
  static const std::vector<AcrossWords> words{
      {Across::unknown, "don't know"},         {Across::nothing, "nothing"},
      {Across::ceramic, "a small ceramic"},    {Across::electrolytic, "another electrolytic"},
      {Across::winding, "a winding"},          {Across::regulator, "a regulator"},
      {Across::low_resistor, "a low resistor"}};
  return words;
}

}  // namespace dryout::window
