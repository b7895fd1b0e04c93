#include "readings/assess_resistance.h"

#include <algorithm>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "circuit/unmasking.h"
#include "readings/choose_limit.h"
#include "readings/less_than_reactance.h"
#include "readings/normal_law.h"
#include "readings/verdict.h"

namespace dryout::readings {

using circuit::MeterShows;
using quantities::Ohm;
using quantities::Result;

namespace {

constexpr double far_below = 0.06;  // of the limit: under a fifth of a fresh part
constexpr double far_below_double_layer = 1e-3;
constexpr double typical_of_limit = 0.42;     // a sound part, between young and old
constexpr double short_stands_out = 20.0;     // times likelier than any other state (judged)
constexpr double usual_inductance_H = 20e-9;  // 13 to 18 nH for radial cans (Vishay 28309)
constexpr double hardly_sound = 1e-3;         // below, nobody asks how much less
constexpr double most_telling = 12.0;         // limits: the middle of what is dried out
// Of a meter that nobody zeroed (common practice): leads show from here ...
constexpr double leads_usual_ohm = 0.06;
constexpr double leads_at_most_ohm = 0.3;  // ... up to here

MeterShows shows_of(Kind kind) {
  return kind == Kind::esr ? MeterShows::resistance : MeterShows::impedance;
}

Ohm reactance_of(const ReadingInput& input) {
  const auto c = capacitance_of(input);
  if (!c) {
    return Ohm();
  }
  const Ohm capacitive = circuit::reactance(*c, input.frequency);
  // Of a big can its leads' and foils' inductance is more than its capacitance at 100 kHz.
  const Ohm inductive(angular(input.frequency).radians_per_second() * usual_inductance_H);
  return input.kind == Kind::impedance && is_wet(input.technology) ? std::max(capacitive, inductive)
                                                                   : capacitive;
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

/// Less than this no sound part of the type can have. Double-layer parts have no such end: stacks
/// of coins have tens of ohms, wound two-cell packs some hundredths (common practice, no source).
double least_of_type(const ReadingInput& input, const BelievedLimit& limit) {
  const double share = input.technology == "supercap" ? far_below_double_layer : far_below;
  const double least = share * limit.median * std::exp(-limit.log_spread);
  return input.kind == Kind::impedance && !input.netlist
             ? std::max(least, 0.5 * reactance_of(input).si())
             : least;
}

/// Where a reading is far too low, the deader the short the less is it anything else: below what a
/// short itself usually shows, and meters resolve, less says no more and no less.
CorrectedReading no_less_than_tells(const ReadingInput& input, CorrectedReading reading,
                                    const BelievedLimit& limit) {
  const double least =
      std::min(least_of_type(input, limit), resistance_spread("shorted", 0).median);
  if (reading.value < least) {
    reading.value = least;
    reading.absolute = input.meter ? reading.absolute : shown_finely * least;
    reading.log_spread = reading.spread_at(least);
  }
  return reading;
}

ResistanceFigures figures_of(const ReadingInput& input, const Setting& setting,
                             const CorrectedReading& reading, const BelievedLimit& limit,
                             const EsrEvidence& evidence, double printed, double unsound) {
  ResistanceFigures figures;
  const double log_value = std::log(reading.value);
  const double highest = setting.highest_up_to(limit.median);
  const double spread = std::hypot(limit.log_spread, reading.spread_between(highest));
  figures.over_as_bound = normal_below((log_value - std::log(highest)) / spread);
  figures.over_by_inversion = evidence.exceedance();
  figures.far_too_low =
      normal_below((std::log(least_of_type(input, limit)) - log_value) / reading.log_spread);
  figures.hidden = setting.share_masking(limit.median);
  figures.exact = !input.in_circuit || input.netlist.has_value();
  figures.explained = evidence.explains() || !input.in_circuit;
  figures.above_printed = reading.value > printed;
  figures.undone = input.netlist.has_value() && input.in_circuit;
  figures.unsound = unsound;
  if (input.value == 0.0) {
    figures.far_too_low = 1.0;  // nothing at all: a short, or a path round the part
  }
  return figures;
}

/// From a dozen limits on, a higher reading says no more: dried out is dried out.
CorrectedReading no_more_than_tells(CorrectedReading reading, const BelievedLimit& limit) {
  const double most = most_telling * limit.median * std::exp(limit.log_spread);
  if (reading.value > most) {
    reading.value = most;
    reading.log_spread = reading.spread_at(most);
  }
  return reading;
}

/// Off the board and zeroed the part is clamped, not touched.
double slip_of(const ReadingInput& input, const CorrectedReading& reading) {
  return input.in_circuit || reading.zero_matters ? slip_probability : slip_clamped;
}

/// The least of sound that any reading between the limit that is told and this one leaves.
double least_sound_on_the_way(const Setting& setting, const CorrectedReading& reading,
                              bool meter_named, double printed, const BelievedLimit& limit,
                              const Priors& priors, double slip) {
  constexpr double step = 1.15;
  double least = 1.0;
  CorrectedReading nearer = reading;
  for (double at = printed * step; at < reading.value; at *= step) {
    nearer.value = at;
    nearer.absolute =
        meter_named ? reading.absolute : std::min(reading.absolute, shown_finely * at);
    nearer.log_spread = nearer.spread_at(at);
    const auto rows = EsrEvidence(setting, nearer, limit, priors, slip).likelihood();
    least = std::min(least, posterior_of(priors, rows).front());
  }
  return least;
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
    if (has_dry_dielectric(input.technology)) {
      return;
    }
    if (!assessment.limit || assessment.limit->source != LimitSource::datasheet) {
      assessment.advice.emplace_back(
          "Find the part's own data sheet, or measure a fresh part of the same value and volts; "
          "compare with its brothers.");
    }
  }
}

/// A whole batch dries alike, so brothers clear nobody; and what its own limit decides stands.
void let_brothers_accuse(const Priors& priors, Assessment& assessment) {
  const Brother& own = assessment.cohort->brothers.front();
  const bool decided =
      assessment.verdict != Verdict::not_proven && assessment.verdict != Verdict::masked;
  auto rows = assessment.cohort->likelihood;
  if (decided || !own.outlier || own.times_median < 1.0 || rows.empty() ||
      !(posterior_of(priors, rows).front() > 0.0)) {
    return;
  }
  hold_below_conviction(priors, rows);
  if (posterior_of(priors, rows).front() < posterior_of(priors, assessment.likelihood).front()) {
    assessment.among_brothers = std::move(rows);
  }
}

void add_brothers(const ReadingInput& input, const Setting& setting, const Meter& meter,
                  const BelievedLimit& limit, const EsrEvidence& own, double own_value,
                  const Priors& priors, Assessment& assessment) {
  std::vector<EsrEvidence> evidence{own};
  std::vector<double> values{own_value};
  for (const double value : input.brothers) {
    const CorrectedReading reading = correct(value, input.kind, input.lead_zero, meter);
    evidence.emplace_back(setting, no_more_than_tells(reading, limit), limit, priors,
                          slip_of(input, reading));
    values.push_back(reading.value);
  }
  assessment.cohort = assess_cohort(evidence, values, priors);
  assessment.after = assessment.cohort->brothers.front().posterior;
  let_brothers_accuse(priors, assessment);
}

/// The limit in the terms of the reading, which is the one that is told and judged by: at its
/// frequency and temperature, |Z| for a meter that shows |Z|. A general table is told as it stands:
/// it lies several times above makers' limits, and what is over it is over both.
double printed_limit(const ReadingInput& input, const Limit& stated, const BelievedLimit& limit) {
  const double as_stated = stated.source == LimitSource::general_table
                               ? limit.median / rung_of(stated.source).factor
                               : limit.median;
  return input.kind == Kind::impedance ? std::hypot(as_stated, reactance_of(input).si())
                                       : as_stated;
}

/// How the limit came to be what it is.
std::string provenance(const ReadingInput& input, const Limit& stated, double printed) {
  const std::string figure = format(quantities::ohms(stated.value));
  switch (stated.source) {
    case LimitSource::fresh_part:
      return "two and a half times a fresh part's " + figure;
    case LimitSource::tan_delta:
      return input.frequency.si() > 1.25 * stated.frequency.si()
                 ? "carried to " + format(input.frequency) + " from tan delta at 120 Hz"
                 : "from tan delta";
    case LimitSource::datasheet:
    case LimitSource::look_alike:
    case LimitSource::general_table:
      break;
  }
  std::string text(rung_of(stated.source).told);
  if (std::abs(printed / stated.value - 1.0) > 0.02) {
    text += ", there " + figure + (stated.kind == Kind::impedance ? " of impedance" : "") + " at " +
            format(stated.frequency) + " and " + format(stated.temperature);
  }
  return text;
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
    if (wording.limit == wording.reading && assessment.limit->value != assessment.corrected_value) {
      constexpr int finely = 5;
      wording.limit = format(quantities::ohms(assessment.limit->value), finely);
      wording.reading = format(quantities::ohms(assessment.corrected_value), finely);
    }
    wording.limit_told = assessment.provenance;
    wording.source = assessment.limit->source;
  }
  // Told only where it can be what was read: a higher reading says that the answer to "what is
  // across it?" is no better than a guess.
  if (assessment.reading_if_open && *assessment.reading_if_open >= assessment.corrected_value) {
    wording.hidden_at = format(quantities::ohms(*assessment.reading_if_open));
  }
  if (!assessment.esr_behind.empty()) {
    wording.behind = format(quantities::ohms(assessment.esr_behind.front()));
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

namespace {

/// What "proves nothing" and "may be a short" leave of the figures: nobody is cleared by them.
void tell_no_more_than(Verdict verdict, const Priors& priors,
                       const std::vector<std::vector<double>>& as_read, Assessment& assessment) {
  assessment.likelihood = as_read;
  for (std::vector<double>& row : assessment.likelihood) {
    const double sound = row.front();
    for (std::size_t s = 0; s < row.size(); ++s) {
      const bool shorted = verdict == Verdict::suspect_short && priors.states[s] == "shorted";
      row[s] = shorted ? std::max(row[s], short_stands_out * sound) : sound;
    }
    std::transform(row.begin(), row.end(), row.begin(),
                   [sound](double density) { return density / sound; });
  }
  assessment.after = posterior_of(priors, assessment.likelihood);
}

}  // namespace

void clear_nobody(std::vector<std::vector<double>>& likelihood) {
  for (std::vector<double>& row : likelihood) {
    for (double& density : row) {
      density = std::max(density, row.front());
    }
  }
}

void accuse_nobody(const Priors& priors, std::vector<std::vector<double>>& likelihood) {
  const auto hold = [&] {
    for (std::vector<double>& row : likelihood) {
      for (std::size_t s = 1; s < row.size(); ++s) {
        // A short reads like a splendid capacitor: nothing speaks against it either.
        row[s] = priors.states[s] == "shorted" ? row[0] : std::min(row[s], row[0]);
      }
    }
  };
  hold();
  const std::vector<std::vector<double>> ones(priors.levels.size(),
                                              std::vector<double>(priors.states.size(), 1.0));
  if (posterior_of(priors, likelihood).front() >= posterior_of(priors, ones).front()) {
    return;
  }
  // A sound part near its limit tells of an old cohort, and the cohort's age accuses: not here.
  double mean = 0.0;
  for (std::size_t level = 0; level < likelihood.size(); ++level) {
    mean += priors.levels[level] * likelihood[level].front();
  }
  for (std::vector<double>& row : likelihood) {
    row.front() = mean;
  }
  hold();
}

Result<Assessment> assess_resistance(const ReadingInput& input, const Priors& priors,
                                     const LimitsLibrary& library, const Meter& meter) {
  Assessment assessment = blank_assessment(priors);
  const CorrectedReading reading = correct(input.value, input.kind, input.lead_zero, meter);
  assessment.corrected_value = reading.shown;
  const ChosenLimit chosen = choose_limit(input, library);
  if (!chosen.limit && has_dry_dielectric(input.technology) && shows_less_than_reactance(input)) {
    return assess_less_than_reactance(input, priors, std::move(assessment));
  }
  if (!chosen.limit) {
    assessment.limit_refusal = chosen.refusal;
    if (!chosen.accepted.empty()) {
      assessment.advice.push_back("Measure instead: " + chosen.accepted + ".");
    }
    advise(input, reading, assessment);
    return without_limit(input, std::move(assessment));
  }
  const Limit& stated = *chosen.limit;
  const auto limit = esr_limit_under(stated, conditions_of(input));
  if (!limit) {
    assessment.limit_refusal = limit.problems().front().message;
    assessment.advice.push_back("Accepted: " + limit.problems().front().accepted + ".");
    return without_limit(input, std::move(assessment));
  }
  const double printed = printed_limit(input, stated, *limit);
  assessment.provenance = provenance(input, stated, printed);
  assessment.limit = stated;
  assessment.limit->value = printed;
  assessment.limit->kind = input.kind;
  assessment.limit->frequency = input.frequency;
  assessment.limit->temperature = input.temperature;
  assessment.believed = *limit;
  assessment.limit_told = format(quantities::ohms(printed)) + " (" + assessment.provenance +
                          (stated.document.empty() ? std::string() : "; " + stated.document) + ")";
  const auto setting = setting_of(input, limit->median);
  if (!setting) {
    return setting.problems();
  }
  const CorrectedReading telling =
      no_less_than_tells(input, no_more_than_tells(reading, *limit), *limit);
  const double slip = slip_of(input, reading);
  const EsrEvidence evidence(*setting, telling, *limit, priors, slip);
  const std::vector<std::vector<double>> as_read = evidence.likelihood();
  assessment.likelihood = as_read;
  const double above = reading.value - printed;
  const bool leads_explain = reading.zero_matters && above > 0.0 && above <= leads_usual_ohm;
  if (!input.netlist && (above <= 0.0 || leads_explain)) {
    accuse_nobody(priors, assessment.likelihood);
  } else if (!input.netlist && posterior_of(priors, assessment.likelihood).front() > hardly_sound) {
    hold_sound_to(least_sound_on_the_way(*setting, telling, input.meter.has_value(), printed,
                                         *limit, priors, slip),
                  priors, assessment.likelihood);
  }
  assessment.after = posterior_of(priors, assessment.likelihood);
  ResistanceFigures figures = figures_of(input, *setting, reading, *limit, evidence, printed,
                                         1.0 - assessment.after.front());
  figures.leads_explain = leads_explain;
  figures.resonance_explains = above > 0.0 && input.in_circuit && !input.netlist &&
                               setting->highest_up_to(limit->median) >= reading.value;
  assessment.verdict = judge(figures);
  if (figures.resonance_explains && assessment.verdict != Verdict::over_limit) {
    hold_below_conviction(priors, assessment.likelihood);
    assessment.after = posterior_of(priors, assessment.likelihood);
  }
  if (assessment.verdict == Verdict::masked || assessment.verdict == Verdict::suspect_short) {
    tell_no_more_than(assessment.verdict, priors, as_read, assessment);
  }
  assessment.over_probability = std::max(figures.over_as_bound, figures.over_by_inversion);
  assessment.masking = figures.hidden;
  assessment.reading_if_open = middling_if_open(*setting);
  assessment.reading_at_limit = setting->highest_up_to(limit->median);
  if (!input.brothers.empty()) {
    add_brothers(input, *setting, meter, *limit, evidence, reading.value, priors, assessment);
  }
  if (above <= 0.0 && assessment.after.front() < assessment.before.front() && !input.netlist &&
      figures.far_too_low < 0.5 &&
      !(assessment.cohort && assessment.cohort->brothers.front().outlier)) {
    // Below the limit that is told brothers accuse only whoever stands off them.
    assessment.after = assessment.before;
  }
  if (input.netlist && input.in_circuit) {
    tell_exact(input, reading, *limit, assessment);
  }
  Wording wording = wording_of(input, assessment);
  if (reading.zero_matters && above < leads_at_most_ohm) {
    wording.leads = format(quantities::ohms(above));
  }
  assessment.sentence = sentence_for(assessment.verdict, figures, wording);
  advise(input, reading, assessment);
  return assessment;
}

}  // namespace dryout::readings
