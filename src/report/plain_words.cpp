#include "report/plain_words.h"

#include <array>
#include <cctype>
#include <cmath>

namespace dryout::report {
namespace {

constexpr std::array<ReadingKindWords, 10> kinds{{
    {"esr", "Internal resistance (ESR)",
     "A capacitor that has dried out lets current through less easily: its internal resistance, "
     "called ESR, rises.",
     true, true},
    {"impedance", "Impedance",
     "Impedance says how much a part holds an alternating current back; in a worn capacitor it "
     "rises.",
     true, true},
    {"capacitance", "Capacitance",
     "Capacitance says how much charge a capacitor can hold; in a worn one it falls.", false, true},
    {"leakage-current", "Leakage",
     "A good capacitor blocks direct current; leakage is what a bad one lets through.", true, true},
    {"dc-resistance", "Resistance to direct current",
     "A good capacitor blocks direct current, so a low resistance points to a short or a leak.",
     false, true},
    {"ripple", "Ripple",
     "Ripple is the hum that is left on a supply; worn smoothing capacitors let more of it "
     "through.",
     true, true},
    {"insulation", "Insulation",
     "A good capacitor lets no direct current through: the more ohms, the better it insulates.",
     false, true},
    {"dissipation", "Loss",
     "The share of the energy that a capacitor turns into heat; a worn one loses more.", true,
     true},
    {"hold-up", "How long it holds",
     "How long a back-up part keeps its memory alive with the set switched off.", false, true},
    {"dc-volts", "Supply voltage", "The voltage of a supply inside the set.", true, false},
}};

struct Explained {
  std::string_view word, meaning;
};

constexpr std::array<Explained, 17> vocabulary{{
    {"board", "A printed circuit: the plate that carries the parts and joins them."},
    {"capacitor",
     "A part that stores a little charge and smooths or passes signals. Some kinds age with time "
     "and heat."},
    {"capacitors",
     "Parts that store a little charge and smooth or pass signals. Some kinds age with time and "
     "heat."},
    {"cold joint", "A soldered joint that has lost its contact."},
    {"coupling", "Passing the signal from one stage to the next."},
    {"cracked joint", "A soldered joint that has lost its contact."},
    {"data sheet", "The maker's published figures for a part."},
    {"decoupling", "Keeping one stage's signals out of another's supply."},
    {"electrolyte", "The liquid inside many capacitors; it dries out or seeps out with age."},
    {"ESR", "The internal resistance of a capacitor, in ohms (\u03a9). Low is good."},
    {"limit", "The value at which a part no longer counts as good."},
    {"rail", "A supply voltage inside the set, shared by several stages."},
    {"rectifier", "Turns the alternating current of the mains into direct current."},
    {"reservoir", "The large capacitor that stores the supply's energy between pulses."},
    {"reservoirs", "The large capacitors that store the supply's energy between pulses."},
    {"ripple", "What is left of the mains' alternation on a supply; one hears it as hum."},
    {"soak", "A long run under supervision after a repair."},
}};

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

bool occurs(std::string_view text, std::string_view word) {
  for (std::size_t at = 0; at + word.size() <= text.size(); ++at) {
    const bool begins = at == 0 || !is_letter(text[at - 1]);
    const std::size_t end = at + word.size();
    const bool ends = end == text.size() || !is_letter(text[end]);
    std::size_t same = 0;
    while (begins && ends && same < word.size() && lower(text[at + same]) == lower(word[same])) {
      ++same;
    }
    if (same == word.size()) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::string certainty_word(quantities::Probability probability) {
  const double value = probability.value();
  if (value >= 0.95) {
    return "almost certain";
  }
  if (value >= 0.8) {
    return "very likely";
  }
  if (value >= 0.5) {
    return "more likely than not";
  }
  return value >= 0.1 ? "possible" : "unlikely";
}

std::string weight_word(quantities::Decibans weight) {
  const double size = std::abs(weight.value);
  if (size >= 10.0) {
    return "strongly";
  }
  if (size >= 5.0) {
    return "clearly";
  }
  return size >= 2.0 ? "a little" : "";
}

ReadingKindWords words_of_kind(std::string_view kind) {
  for (const ReadingKindWords& known : kinds) {
    if (known.kind == kind) {
      return known;
    }
  }
  return {kind, kind, "", true, false};
}

std::string words_of_limit_source(std::string_view source) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> told{{
      {"datasheet", "the maker's data sheet"},
      {"look-alike", "the data sheet of a similar part"},
      {"fresh-part", "a new part measured for comparison"},
      {"tan-delta", "the loss figure of its kind"},
      {"general-table", "a general table, which is weaker proof"},
  }};
  for (const auto& [word, words] : told) {
    if (word == source) {
      return std::string(words);
    }
  }
  return std::string(source);
}

std::string words_of_verdict(std::string_view verdict) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 7> told{{
      {"over-limit", "bad: beyond its limit"},
      {"within-limit", "good: within its limit"},
      {"masked", "no proof: other parts hide it"},
      {"not-proven", "not proven either way"},
      {"suspect-short", "may be shorted"},
      {"no-reading", "no reading"},
      {"above-mark", "far above its printed value"},
  }};
  for (const auto& [word, words] : told) {
    if (word == verdict) {
      return std::string(words);
    }
  }
  return std::string(verdict);
}

std::vector<std::pair<std::string, std::string>> words_to_explain(std::string_view text) {
  std::vector<std::pair<std::string, std::string>> found;
  for (const Explained& entry : vocabulary) {
    const bool again = !found.empty() && std::string(entry.word) == found.back().first + 's';
    if (!again && occurs(text, entry.word)) {
      found.emplace_back(entry.word, entry.meaning);
    }
  }
  return found;
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + ' ' + (count == 1 ? one : many);
}

std::string as_sentence(std::string text) {
  if (text.empty()) {
    return text;
  }
  text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  const char last = text.back();
  return last == '.' || last == '!' || last == '?' ? text : text + '.';
}

}  // namespace dryout::report
