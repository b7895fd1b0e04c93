#include "readings/caveats.h"

#include <algorithm>

#include "readings/rule_files.h"

namespace dryout::readings {

using documents::Reader;
using quantities::Problems;
using quantities::Result;

namespace {

/// Words of a closed list; a word that is not in it is a problem.
template <class Choice>
std::vector<Choice> read_choices(const Reader& when, std::string_view key,
                                 std::optional<Choice> (*choice_of)(std::string_view),
                                 const std::vector<std::string_view>& words) {
  std::vector<Choice> choices;
  for (const std::string& word : when.condition_words(key)) {
    if (const auto choice = choice_of(word)) {
      choices.push_back(*choice);
    } else {
      refuse_word(when, key, word, words);
    }
  }
  return choices;
}

constexpr Verdict all_verdicts[] = {
    Verdict::suspect_short, Verdict::within_limit, Verdict::masked,    Verdict::not_proven,
    Verdict::over_limit,    Verdict::no_reading,   Verdict::above_mark};

std::optional<Verdict> verdict_of(std::string_view word) {
  for (const Verdict verdict : all_verdicts) {
    if (word_of(verdict) == word) {
      return verdict;
    }
  }
  return std::nullopt;
}

std::vector<std::string_view> verdict_words() {
  std::vector<std::string_view> words;
  for (const Verdict verdict : all_verdicts) {
    words.push_back(word_of(verdict));
  }
  return words;
}

std::vector<std::string_view> limit_source_words() {
  std::vector<std::string_view> words;
  for (const Rung& rung : ladder()) {
    words.push_back(rung.word);
  }
  return words;
}

CaveatCondition read_condition(const Reader& when) {
  when.accept_only({"kinds", "across", "bodies", "technologies", "verdicts", "limit_sources",
                    "in_circuit", "lead_zero_known", "value_below", "value_below_lead_zeros",
                    "temperature_below_C", "temperature_above_C", "capacitance_below_F",
                    "capacitance_above_F", "rated_above_V", "frequency_below_Hz",
                    "test_volts_above", "brothers_below", "brothers_from"});
  CaveatCondition condition;
  condition.kinds = read_choices<Kind>(when, "kinds", kind_of, kind_words());
  condition.across = read_choices<Across>(when, "across", across_of, across_words());
  condition.bodies = read_choices<Body>(when, "bodies", body_of, body_words());
  condition.technologies = when.condition_words("technologies");
  condition.verdicts = read_choices<Verdict>(when, "verdicts", verdict_of, verdict_words());
  condition.limit_sources =
      read_choices<LimitSource>(when, "limit_sources", limit_source_of, limit_source_words());
  condition.in_circuit = when.optional_boolean("in_circuit");
  condition.lead_zero_known = when.optional_boolean("lead_zero_known");
  condition.value_below = when.optional_number("value_below");
  condition.value_below_lead_zeros = when.optional_number("value_below_lead_zeros");
  condition.temperature_below_C = when.optional_number("temperature_below_C");
  condition.temperature_above_C = when.optional_number("temperature_above_C");
  condition.capacitance_below_F = when.optional_number("capacitance_below_F");
  condition.capacitance_above_F = when.optional_number("capacitance_above_F");
  condition.rated_above_V = when.optional_number("rated_above_V");
  condition.frequency_below_Hz = when.optional_number("frequency_below_Hz");
  condition.test_volts_above = when.optional_number("test_volts_above");
  constexpr documents::Range brothers{.min = 0.0, .max = 1000.0};
  condition.brothers_below = when.optional_whole_number("brothers_below", brothers);
  condition.brothers_from = when.optional_whole_number("brothers_from", brothers);
  return condition;
}

Caveat read_caveat(const Reader& reader) {
  reader.accept_only({"id", "title", "when", "effect", "because", "source"});
  Caveat caveat;
  caveat.id = reader.id("id");
  caveat.title = reader.text("title");
  caveat.effect = reader.text("effect");
  caveat.because = reader.text("because");
  caveat.source = read_source(reader);
  caveat.place = reader.place();
  caveat.when = read_condition(reader.object("when"));
  return caveat;
}

template <class Choice>
bool among(const std::vector<Choice>& accepted, const Choice& choice) {
  return accepted.empty() || std::find(accepted.begin(), accepted.end(), choice) != accepted.end();
}

/// An unknown figure does not meet a bound on it.
bool below(const std::optional<double>& bound, const std::optional<double>& figure) {
  return !bound || (figure && *figure < *bound);
}
bool above(const std::optional<double>& bound, const std::optional<double>& figure) {
  return !bound || (figure && *figure > *bound);
}

bool choices_hold(const CaveatCondition& when, const CaveatFacts& facts) {
  const bool source_holds = when.limit_sources.empty() ||
                            (facts.limit_source && among(when.limit_sources, *facts.limit_source));
  return among(when.kinds, facts.kind) && among(when.across, facts.across) &&
         among(when.bodies, facts.body) && among(when.technologies, facts.technology) &&
         among(when.verdicts, facts.verdict) && source_holds &&
         (!when.in_circuit || *when.in_circuit == facts.in_circuit) &&
         (!when.lead_zero_known || *when.lead_zero_known == facts.lead_zero_ohm.has_value());
}

bool figures_hold(const CaveatCondition& when, const CaveatFacts& facts) {
  constexpr double leads_unknown_ohm = 0.1;
  const double leads = facts.lead_zero_ohm.value_or(leads_unknown_ohm);
  const bool leads_hold =
      !when.value_below_lead_zeros || facts.value < *when.value_below_lead_zeros * leads;
  const bool test_holds =
      !when.test_volts_above || !facts.test_volts || *facts.test_volts > *when.test_volts_above;
  return leads_hold && test_holds && below(when.value_below, facts.value) &&
         below(when.temperature_below_C, facts.temperature_C) &&
         above(when.temperature_above_C, facts.temperature_C) &&
         below(when.capacitance_below_F, facts.capacitance_F) &&
         above(when.capacitance_above_F, facts.capacitance_F) &&
         above(when.rated_above_V, facts.rated_V) &&
         below(when.frequency_below_Hz, facts.frequency_Hz) &&
         (!when.brothers_below || facts.brothers < *when.brothers_below) &&
         (!when.brothers_from || facts.brothers >= *when.brothers_from);
}

}  // namespace

bool holds(const CaveatCondition& when, const CaveatFacts& facts) {
  return choices_hold(when, facts) && figures_hold(when, facts);
}

std::vector<const Caveat*> caveats_on(const std::vector<Caveat>& caveats,
                                      const CaveatFacts& facts) {
  std::vector<const Caveat*> fired;
  for (const Caveat& caveat : caveats) {
    if (holds(caveat.when, facts)) {
      fired.push_back(&caveat);
    }
  }
  return fired;
}

Result<std::vector<Caveat>> load_caveats(const std::vector<std::string>& directories) {
  Problems problems;
  Overlay<Caveat> caveats;
  for_each_rule(directories, "caveats", "caveats", problems,
                [&](const Reader& reader, std::size_t tree) {
                  caveats.add(read_caveat(reader), tree, reader);
                });
  if (!problems.empty()) {
    return problems;
  }
  return caveats.take();
}

}  // namespace dryout::readings
