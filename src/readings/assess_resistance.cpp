#include "readings/assess_resistance.h"

#include <algorithm>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "circuit/unmasking.h"
#include "readings/normal_law.h"
#include "readings/verdict.h"

namespace dryout::readings {

using circuit::MeterShows;
using quantities::Ohm;
using quantities::Result;

namespace {

constexpr double far_below = 0.06;         // of the limit: under a fifth of a fresh part
constexpr double typical_of_limit = 0.42;  // a sound part, between young and old

MeterShows shows_of(Kind kind) {
  return kind == Kind::esr ? MeterShows::resistance : MeterShows::impedance;
}

std::optional<quantities::Farad> capacitance_of(const ReadingInput& input) {
  if (input.capacitance || !input.netlist || !input.netlist->point.target) {
    return input.capacitance;
  }
  const auto& elements = input.netlist->netlist.elements;
  return quantities::farads(elements[*input.netlist->point.target].capacitance_F);
}

Ohm reactance_of(const ReadingInput& input) {
  const auto c = capacitance_of(input);
  return c ? circuit::reactance(*c, input.frequency) : Ohm();
}

/// The limit as typed, else one from the netlist file, else the best of the library.
std::optional<Limit> choose_limit(const ReadingInput& input, const LimitsLibrary& library) {
  const std::optional<double> in_netlist =
      input.netlist ? input.netlist->point.limit_ohm : std::nullopt;
  if (!input.limit && !in_netlist) {
    return best_limit(library, {input.technology, input.body, capacitance_of(input), input.rated},
                      input.kind);
  }
  Limit limit;
  limit.value = input.limit ? *input.limit : *in_netlist;
  limit.kind = input.limit ? input.limit_kind.value_or(input.kind) : Kind::esr;
  limit.source = input.limit_source;
  const bool derived = limit.source == LimitSource::tan_delta;
  limit.frequency =
      input.limit_frequency.value_or(derived ? quantities::hertz(120.0) : input.frequency);
  limit.temperature = input.limit_temperature.value_or(quantities::Celsius(20.0));
  limit.document = input.limit_document;
  return limit;
}

/// The part as marked, with little capacitance left, and shorted.
Result<Setting> exact_setting(const circuit::NetlistFile& file, const ReadingInput& input) {
  std::vector<Setting::Exact> exact;
  for (const double kept : {1.0, 0.4, 0.0}) {
    circuit::Netlist netlist = file.netlist;
    circuit::Element& part = netlist.elements[*file.point.target];
    part.capacitance_F *= kept > 0.0 ? kept : 1e6;
    const auto sweep =
        sweep_resistance(netlist, input.frequency, file.point.probe, *file.point.target);
    if (!sweep) {
      return sweep.problems();
    }
    exact.push_back({kept, *sweep});
  }
  return Setting::from_netlist(std::move(exact), shows_of(input.kind));
}

Result<Setting> setting_of(const ReadingInput& input, double limit) {
  const Ohm reactance = reactance_of(input);
  if (!input.in_circuit) {
    return Setting::lifted(shows_of(input.kind), reactance);
  }
  if (input.netlist) {
    return exact_setting(*input.netlist, input);
  }
  return Setting::with(input.across, shows_of(input.kind), reactance, input.frequency,
                       quantities::ohms(typical_of_limit * limit));
}

ResistanceFigures figures_of(const ReadingInput& input, const Setting& setting,
                             const CorrectedReading& reading, const BelievedLimit& limit,
                             const EsrEvidence& evidence) {
  ResistanceFigures figures;
  const double log_value = std::log(reading.value);
  const double highest = setting.highest_up_to(limit.median);
  const double spread = std::hypot(limit.log_spread, reading.spread_at(highest));
  figures.over_as_bound = normal_below((log_value - std::log(highest)) / spread);
  figures.over_by_inversion = evidence.exceedance();
  double least = far_below * limit.median * std::exp(-limit.log_spread);
  if (input.kind == Kind::impedance && !input.netlist) {
    least = std::max(least, 0.5 * reactance_of(input).si());
  }
  figures.far_too_low = normal_below((std::log(least) - log_value) / reading.log_spread);
  figures.hidden = setting.share_masking(limit.median);
  figures.exact = !input.in_circuit || input.netlist.has_value();
  figures.explained = evidence.explains() || !input.in_circuit;
  return figures;
}

/// The reading of an open part in the middling circuit; nothing where it has no end.
std::optional<double> middling_if_open(const Setting& setting) {
  std::vector<double> finite;
  for (std::size_t c = 0; c < setting.circuits_told(); ++c) {
    if (const auto open = setting.reading_if_open(c)) {
      finite.push_back(*open);
    }
  }
  if (finite.size() * 2 <= setting.circuits_told()) {
    return std::nullopt;
  }
  std::sort(finite.begin(), finite.end());
  return finite[finite.size() / 2];
}

void tell_exact(const ReadingInput& input, const CorrectedReading& reading,
                const BelievedLimit& limit, Assessment& assessment) {
  circuit::ProbePoint point = input.netlist->point;
  point.frequency = input.frequency;
  point.shows = shows_of(input.kind);
  point.limit_ohm = limit.median;
  const auto answer = answer_in_circuit(input.netlist->netlist, point, reading.value);
  if (!answer) {
    return;  // the sweep above has been solved, so this can't be wrong input
  }
  assessment.reading_at_limit = answer->reading_at_limit;
  assessment.reading_if_open = answer->reading_if_open;
  assessment.ceiling = answer->ceiling;
  assessment.esr_behind = answer->esr_solutions;
  if (!answer->esr_remark.empty()) {
    assessment.advice.push_back("By the netlist: " + answer->esr_remark + ".");
  }
  if (assessment.verdict != Verdict::masked && assessment.verdict != Verdict::not_proven) {
    return;
  }
  const auto ways =
      ways_to_see(input.netlist->netlist, point,
                  {quantities::hertz(1e3), quantities::hertz(10e3), quantities::hertz(100e3)});
  if (!ways) {
    return;
  }
  for (const quantities::Hertz f : ways->frequencies) {
    assessment.advice.push_back("It would be seen at " + format(f) + ".");
  }
  for (const std::string& element : ways->lifted) {
    assessment.advice.push_back("It would be seen with " + element + " lifted.");
  }
}

void advise(const ReadingInput& input, const CorrectedReading& reading, Assessment& assessment) {
  const Verdict verdict = assessment.verdict;
  if (reading.zero_matters) {
    assessment.advice.emplace_back(
        "Hold the tips together and note what the meter shows: the leads are a good share of this "
        "reading.");
  }
  if (verdict == Verdict::suspect_short) {
    assessment.advice.emplace_back(
        "With the set off and everything discharged, measure the d.c. resistance both ways round.");
  }
  if (verdict == Verdict::masked) {
    assessment.advice.emplace_back("Lift one leg and measure again.");
  }
  if (verdict == Verdict::not_proven) {
    if (input.in_circuit && input.across == Across::unknown && !input.netlist) {
      assessment.advice.emplace_back("Look what else is across it, and say so.");
    }
    if (!assessment.limit || assessment.limit->source != LimitSource::datasheet) {
      assessment.advice.emplace_back(
          "Find the part's own data sheet, or measure a fresh part of the same value and volts; "
          "compare with its brothers.");
    }
  }
}

void add_brothers(const ReadingInput& input, const Setting& setting, const Meter& meter,
                  const BelievedLimit& limit, const EsrEvidence& own, double own_value,
                  const Priors& priors, Assessment& assessment) {
  std::vector<EsrEvidence> evidence{own};
  std::vector<double> values{own_value};
  for (const double value : input.brothers) {
    const CorrectedReading reading = correct(value, input.kind, input.lead_zero, meter);
    evidence.emplace_back(setting, reading, limit, priors);
    values.push_back(reading.value);
  }
  assessment.cohort = assess_cohort(evidence, values, priors);
  assessment.after = assessment.cohort->brothers.front().posterior;
}

Wording wording_of(const ReadingInput& input, const Assessment& assessment) {
  Wording wording;
  wording.kind = input.kind;
  wording.reading = format(quantities::ohms(assessment.corrected_value));
  wording.in_circuit = input.in_circuit;
  wording.across = input.across;
  wording.exact = input.netlist.has_value();
  if (assessment.limit) {
    wording.limit = format(quantities::ohms(assessment.limit->value));
    wording.limit_told = std::string(rung_of(assessment.limit->source).told);
    wording.source = assessment.limit->source;
  }
  if (assessment.reading_if_open) {
    wording.hidden_at = format(quantities::ohms(*assessment.reading_if_open));
  }
  return wording;
}

/// No limit, or one that can't be carried over: said, and nothing is concluded.
Assessment without_limit(const ReadingInput& input, Assessment assessment) {
  const ResistanceFigures figures;
  assessment.sentence =
      assessment.limit_refusal.empty()
          ? sentence_for(Verdict::not_proven, figures, wording_of(input, assessment))
          : format(quantities::ohms(assessment.corrected_value)) +
                " proves nothing yet: " + assessment.limit_refusal + ".";
  return assessment;
}

}  // namespace

Assessment blank_assessment(const Priors& priors) {
  Assessment assessment;
  assessment.states = priors.states;
  assessment.likelihood.assign(priors.levels.size(),
                               std::vector<double>(priors.states.size(), 1.0));
  assessment.before = posterior_of(priors, assessment.likelihood);
  assessment.after = assessment.before;
  return assessment;
}

Result<Assessment> assess_resistance(const ReadingInput& input, const Priors& priors,
                                     const LimitsLibrary& library, const Meter& meter) {
  Assessment assessment = blank_assessment(priors);
  const CorrectedReading reading = correct(input.value, input.kind, input.lead_zero, meter);
  assessment.corrected_value = reading.value;
  assessment.limit = choose_limit(input, library);
  if (!assessment.limit) {
    advise(input, reading, assessment);
    return without_limit(input, std::move(assessment));
  }
  const Rung& rung = rung_of(assessment.limit->source);
  assessment.limit_told =
      format(quantities::ohms(assessment.limit->value)) + " (" + std::string(rung.told) +
      (assessment.limit->document.empty() ? std::string() : "; " + assessment.limit->document) +
      ")";
  const auto limit = esr_limit_under(
      *assessment.limit,
      {input.frequency, input.temperature, capacitance_of(input), is_wet(input.technology)});
  if (!limit) {
    assessment.limit_refusal = limit.problems().front().message;
    assessment.advice.push_back("Accepted: " + limit.problems().front().accepted + ".");
    return without_limit(input, std::move(assessment));
  }
  const auto setting = setting_of(input, limit->median);
  if (!setting) {
    return setting.problems();
  }
  const EsrEvidence evidence(*setting, reading, *limit, priors);
  const ResistanceFigures figures = figures_of(input, *setting, reading, *limit, evidence);
  assessment.verdict = judge(figures);
  assessment.over_probability = std::max(figures.over_as_bound, figures.over_by_inversion);
  assessment.masking = figures.hidden;
  assessment.reading_if_open = middling_if_open(*setting);
  assessment.reading_at_limit = setting->highest_up_to(limit->median);
  assessment.likelihood = evidence.likelihood();
  assessment.after = posterior_of(priors, assessment.likelihood);
  assessment.crossed = cross(evidence, priors);
  if (!input.brothers.empty()) {
    add_brothers(input, *setting, meter, *limit, evidence, reading.value, priors, assessment);
  }
  if (input.netlist && input.in_circuit) {
    tell_exact(input, reading, *limit, assessment);
  }
  assessment.sentence = sentence_for(assessment.verdict, figures, wording_of(input, assessment));
  advise(input, reading, assessment);
  return assessment;
}

}  // namespace dryout::readings
