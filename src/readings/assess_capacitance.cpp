// Capacitance and loss, as a bridge shows them.
#include <algorithm>
#include <array>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "quantities/printed_number.h"
#include "readings/assess_resistance.h"
#include "readings/choose_limit.h"
#include "readings/normal_law.h"
#include "readings/ratio_figures.h"
#include "readings/verdict.h"

namespace dryout::readings {

using quantities::significant_figures;

namespace {

// Letter M, and what endurance tests allow; parts for tuned circuits are made to 1 to 5 %.
constexpr double usual_floor = 0.8;
constexpr double tuned_floor = 0.9;
constexpr double tuned_ceiling = 1.1;
constexpr double tuned_made = 0.05;         // the widest of their tolerances
const StateSpread tuned_sound{1.0, 0.025};  // about half of that, one standard deviation (judged)
constexpr double loosely_made_years = 40.0;
// Far above the mark, against a sound part (judged): what leaks or drifts reads so, what has dried
// or parted does not; and as likely as not it is no fault of the part, but another part than it
// says.
constexpr double leaky_reads_high = 10.0;
constexpr double dried_reads_high = 0.02;
constexpr double sound_above_mark = 0.5;
constexpr double nothing_left = 0.003;  // of the mark
constexpr double old_log_spread = 0.2;  // parts made to -20/+80 %
/// What makers of sets fitted in one place, about what is usual there: within a factor of two and a
/// half, nine times in ten (judged).
constexpr double unknown_mark_log_spread = 0.55;

bool is_tuned(const ReadingInput& input) {
  return input.technology == "mica" || input.technology == "polystyrene";
}

bool made_loosely(const ReadingInput& input) {
  const bool electrolytic = is_wet(input.technology);
  return electrolytic && (input.body == Body::can || input.body == Body::axial ||
                          input.years >= loosely_made_years || input.technology == "supercap");
}

/// Above this share of the mark no tolerance reaches: -20/+80 % for old cans, axials and
/// double-layer parts, +50 % for other electrolytics, +20 to 30 % for the rest.
double ceiling_of(const ReadingInput& input) {
  if (made_loosely(input)) {
    return 1.8;
  }
  if (is_tuned(input)) {
    return tuned_ceiling;
  }
  return is_wet(input.technology) ? 1.5 : 1.3;
}

/// What it is held against is no mark: neither printed on it nor given with the reading.
bool mark_is_a_guess(const ReadingInput& input) { return !input.mark_known && !input.limit; }

/// Where the floor comes from: the mark is the part's own, the tolerance that of its kind.
std::string tolerance_told(const ReadingInput& input) {
  const std::string mark = input.limit              ? "the value that was given"
                           : mark_is_a_guess(input) ? "what is usual in such a place"
                                                    : "the mark";
  return mark + (is_tuned(input) ? ", less a tenth: parts for tuned circuits are made to 1 to 5 %"
                                 : ", less a fifth: the usual tolerance, and what endurance tests "
                                   "allow");
}

std::string percent_of_mark(double value, double marked, const ReadingInput& input) {
  const double share = 100.0 * value / marked;
  const std::string shown = value == 0.0  ? "0"
                            : share < 1.0 ? "less than 1"
                                          : quantities::whole_number(share);
  return shown + (mark_is_a_guess(input) ? " % of the usual " : " % of the marked ") +
         format(quantities::farads(marked));
}

constexpr const char* few_fail_so =
    "so few parts of this kind fail in that way that a wrong limit or a slip is as likely: read it "
    "again, and against the part's own sheet.";

/// Loss at 1, 10 and 100 kHz that makers allow (WIMA, table of dielectrics; mica and paper from
/// memory). "film" may be polyester: the looser figure.
struct DryLoss {
  std::string_view technology;
  double at_1k, at_10k, at_100k;
};
constexpr std::array dry_losses{
    DryLoss{"film", 0.008, 0.015, 0.030},   DryLoss{"mains-film", 0.010, 0.015, 0.030},
    DryLoss{"paper", 0.010, 0.015, 0.030},  DryLoss{"oil-paper", 0.010, 0.015, 0.030},
    DryLoss{"mica", 0.001, 0.001, 0.001},   DryLoss{"polystyrene", 0.0005, 0.001, 0.001},
    DryLoss{"ceramic", 0.025, 0.025, 0.030}};

std::optional<Limit> loss_limit(const ReadingInput& input, const LimitsLibrary& library) {
  Limit limit;
  limit.kind = Kind::dissipation;
  limit.frequency = input.frequency;
  limit.source = input.limit_source;
  if (input.limit) {
    limit.value = *input.limit;
    limit.document = input.limit_document;
    return limit;
  }
  limit.source = LimitSource::look_alike;
  if (const auto row = nearest_loss_row(input, library)) {
    limit.value = row->value;
    limit.document = row->document;
    limit.extra_log_spread = row->extra_log_spread;
  }
  // One sheet of another dielectric must not condemn this one: the looser figure holds.
  const double f = input.frequency.si();
  for (const DryLoss& dry : dry_losses) {
    const double usual = f < 3e3 ? dry.at_1k : (f < 30e3 ? dry.at_10k : dry.at_100k);
    if (dry.technology == input.technology && f >= 300.0 && f <= 300e3 && usual > limit.value) {
      limit.value = f < 3e3 ? dry.at_1k : (f < 30e3 ? dry.at_10k : dry.at_100k);
      limit.document = "what makers allow parts of this dielectric";
    }
  }
  return limit.value > 0.0 ? std::optional(limit) : std::nullopt;
}

}  // namespace

Assessment assess_capacitance(const RatioSetting& setting, Assessment assessment) {
  const ReadingInput& input = setting.input;
  const double marked = input.limit ? *input.limit : input.capacitance->si();
  // A bridge that shows nothing shows less than it resolves.
  CorrectedReading reading = setting.reading;
  reading.value = std::max(reading.value, nothing_left * marked);
  const double value = reading.value;
  const bool alone = is_alone(input);
  const double floor = (is_tuned(input) ? tuned_floor : usual_floor) * marked;
  const double ceiling = ceiling_of(input) * marked;
  const double spread = reading.log_spread;
  RatioFigures figures;
  figures.beyond = normal_below(std::log(floor / value) / spread);
  figures.may_acquit = alone;  // what is across adds to it: low convicts, high proves nothing
  figures.past_printed = value < floor || value > ceiling;
  figures.past_from = value < floor ? floor : ceiling;
  const bool guess = mark_is_a_guess(input);
  if (guess) {
    figures.beyond =
        normal_below(std::log(floor / value) / std::hypot(spread, unknown_mark_log_spread));
    figures.may_convict = figures.may_acquit = false;
  }
  assessment.over_probability = figures.beyond;
  assessment.masking = alone ? 0.0 : 1.0;
  Limit limit;
  limit.kind = Kind::capacitance;
  limit.value = floor;
  limit.source = LimitSource::look_alike;  // no sheet of its own: the mark, and what is usual
  limit.document = tolerance_told(input);
  tell_limit(limit,
             "at least " + format(quantities::farads(floor)) +
                 (mark_is_a_guess(input) ? " of the usual " : " of the marked ") +
                 format(quantities::farads(marked)),
             assessment);
  // In circuit others can only add: what reads low there is as low as it reads.
  const double doubt =
      std::hypot(alone || value < marked ? 0.0 : 0.6, made_loosely(input) ? old_log_spread : 0.0,
                 guess ? unknown_mark_log_spread : 0.0);
  RatioReference reference{marked, doubt, {}};
  if (is_tuned(input)) {
    reference.sound = tuned_sound;
  }
  weigh({input, setting.priors, setting.library, reading}, reference, figures, assessment);
  if (is_tuned(input) && std::abs(value / marked - 1.0) > tuned_made) {
    clear_nobody(assessment.likelihood);
    assessment.after = posterior_of(setting.priors, assessment.likelihood);
  }
  const double above = normal_below(std::log(value / ceiling) / spread);
  if (assessment.verdict == Verdict::within_limit && above > 1.0 - convincing) {
    assessment.verdict = Verdict::not_proven;  // within at one end only
  }
  const std::string share = percent_of_mark(setting.reading.shown, marked, input);
  if (guess && assessment.verdict != Verdict::masked) {
    assessment.sentence = share +
                          " in such a place; what is printed on this part was not told, so "
                          "that proves nothing yet.";
    assessment.advice.emplace_back("Read the value on the body and note it with the part's name.");
    return assessment;
  }
  if (alone && above >= convincing) {
    const bool may_drift = has_dry_dielectric(input.technology);
    assessment.verdict = Verdict::above_mark;
    assessment.sentence =
        share + " is more than any tolerance of such a part: " +
        (may_drift ? "it has drifted, or leaks, " : "a part that leaks can read so, ") +
        "or, as likely as not, something still sits across it or it is not what it says.";
    // Drying out loses capacitance: a leak reads so, and a dry dielectric that drifts.
    const double as_weighed = assessment.after.front();
    for (std::vector<double>& row : assessment.likelihood) {
      for (std::size_t s = 1; s < row.size(); ++s) {
        const std::string& state = setting.priors.states[s];
        const bool reads_high = state == "leaky" || (may_drift && state == "drifted");
        row[s] = reads_high ? leaky_reads_high : state == "shorted" ? 1.0 : dried_reads_high;
      }
      row.front() = 1.0;
    }
    hold_sound_to(std::min(sound_above_mark, as_weighed), setting.priors, assessment.likelihood);
    assessment.after = posterior_of(setting.priors, assessment.likelihood);
    assessment.advice.emplace_back(
        "Measure its leakage at working volts, and read the value on the body again.");
    return assessment;
  }
  switch (assessment.verdict) {
    case Verdict::over_limit:
      assessment.sentence = share + " is left: below the " +
                            (is_tuned(input) ? "nine tenths" : "four fifths") +
                            " that makers allow.";
      if (value < 0.01 * marked) {
        assessment.sentence +=
            " That is as good as nothing: open, or shorted, which some bridges show alike; the "
            "d.c. resistance tells which.";
      }
      break;
    case Verdict::within_limit:
      assessment.sentence = share +
                            ": it has its capacitance. That says nothing of its resistance "
                            "or of leakage.";
      break;
    case Verdict::masked:
      assessment.sentence = share +
                            " was read in circuit, where whatever sits across the part "
                            "adds to it: that proves nothing. Lift a leg.";
      break;
    default:
      assessment.sentence = share + " is too near to its tolerance to call it either way.";
      break;
  }
  return assessment;
}

Assessment assess_dissipation(const RatioSetting& setting, Assessment assessment) {
  const ReadingInput& input = setting.input;
  const double value = setting.reading.value;
  const auto limit = loss_limit(input, setting.library);
  if (setting.reading.shown == 0.0 && is_wet(input.technology)) {
    assessment.verdict = Verdict::no_reading;
    assessment.sentence =
        "a loss of 0 is no reading: no such part is without loss. The range does not show it, or "
        "the part is not between the clips.";
    assessment.advice.emplace_back("Check that its capacitance shows, and take a finer range.");
    return assessment;
  }
  const std::string shown = "a loss of " + significant_figures(setting.reading.shown, 3) + " at " +
                            format(input.frequency);
  if (!limit) {
    assessment.sentence =
        shown + " can't be held against anything: no limit is known for this part there.";
    assessment.advice.emplace_back("Measure at the frequency of the sheet: 120 Hz or 1 kHz.");
    return assessment;
  }
  const BelievedLimit believed{limit->value, believe(*limit).log_spread};
  RatioFigures figures;
  figures.beyond = normal_below(std::log(value / believed.median) /
                                std::hypot(believed.log_spread, setting.reading.log_spread));
  figures.may_convict = is_alone(input);  // a resistor across it looks like loss
  figures.may_acquit = is_alone(input);
  figures.past_printed = value > limit->value;
  figures.past_from = limit->value;
  assessment.over_probability = figures.beyond;
  assessment.believed = believed;
  tell_limit(*limit, significant_figures(limit->value, 3), assessment);
  CorrectedReading reading = setting.reading;
  reading.value = std::min(reading.value, 10.0 * limit->value);  // dried out is dried out
  weigh({input, setting.priors, setting.library, reading},
        {believed.median, believed.log_spread, {}}, figures, assessment);
  const std::string against = shown + " against a limit of " +
                              significant_figures(limit->value, 3) + " (" + assessment.provenance +
                              ")";
  std::string as_resistance;
  if (input.capacitance && is_wet(input.technology)) {
    as_resistance =
        " That is " +
        format(circuit::esr_from_tan_delta(value, input.frequency, *input.capacitance)) +
        " in series at this frequency.";
  }
  switch (assessment.verdict) {
    case Verdict::over_limit:
      assessment.sentence = against + ": it loses too much." + as_resistance;
      break;
    case Verdict::within_limit:
      assessment.sentence = against + ": its loss is in order." + as_resistance;
      break;
    case Verdict::masked:
      assessment.sentence = against + " was read in circuit, where others load it: lift a leg.";
      break;
    default:
      assessment.sentence = !is_alone(input)
                                ? against +
                                      " was read in circuit, where a resistor across it looks like "
                                      "loss: lift a leg."
                            : figures.past_printed && figures.beyond >= convincing
                                ? against + " is well past it, but " + few_fail_so + as_resistance
                                : against + " is too near to call it either way." + as_resistance;
      break;
  }
  return assessment;
}

}  // namespace dryout::readings
