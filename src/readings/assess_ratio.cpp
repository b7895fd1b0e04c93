#include "readings/assess_ratio.h"

#include <algorithm>
#include <cmath>

#include "quantities/check.h"
#include "readings/assess_resistance.h"
#include "readings/ratio_figures.h"
#include "readings/verdict.h"

namespace dryout::readings {

using quantities::Problem;
using quantities::Result;

namespace {

Verdict judge(const RatioFigures& figures, double unsound) {
  if (figures.beyond >= convincing && figures.past_printed) {
    const bool convicts = !figures.of_the_part || unsound >= convicted_from;
    return figures.may_convict && convicts ? Verdict::over_limit : Verdict::not_proven;
  }
  if (figures.beyond <= 1.0 - convincing) {
    return figures.may_acquit ? Verdict::within_limit : Verdict::masked;
  }
  return Verdict::not_proven;
}

/// The least of sound that any reading between the limit and this one leaves.
double least_sound_on_the_way(const RatioSetting& setting, const RatioReference& reference,
                              double from) {
  constexpr double step = 1.07;
  const double to = setting.reading.value;
  const double towards = to > from ? step : 1.0 / step;
  double least = 1.0;
  CorrectedReading nearer = setting.reading;
  for (double at = from * towards; (to > from) == (at < to); at *= towards) {
    nearer.value = at;
    nearer.log_spread = setting.reading.spread_at(at);
    const auto rows = ratio_likelihood(setting.input.kind, nearer, reference, setting.priors);
    least = std::min(least, posterior_of(setting.priors, rows).front());
  }
  return least;
}

Problem missing(std::string message, std::string accepted) {
  return {std::move(message), {}, "nothing", std::move(accepted)};
}

}  // namespace

bool is_alone(const ReadingInput& input) {
  return !input.in_circuit || input.across == Across::nothing;
}

void weigh(const RatioSetting& setting, const RatioReference& reference,
           const RatioFigures& figures, Assessment& assessment) {
  assessment.likelihood =
      ratio_likelihood(setting.input.kind, setting.reading, reference, setting.priors);
  if (!figures.past_printed) {
    accuse_nobody(setting.priors, assessment.likelihood);
  }
  if (!figures.may_acquit) {
    clear_nobody(assessment.likelihood);
  }
  if (figures.past_printed && figures.past_from && *figures.past_from > 0.0) {
    hold_sound_to(least_sound_on_the_way(setting, reference, *figures.past_from), setting.priors,
                  assessment.likelihood);
  }
  assessment.after = posterior_of(setting.priors, assessment.likelihood);
  assessment.verdict = judge(figures, 1.0 - assessment.after.front());
}

void tell_limit(const Limit& limit, const std::string& shown, Assessment& assessment) {
  assessment.limit = limit;
  if (!assessment.believed) {
    assessment.believed = believe(limit);
    assessment.believed->median = limit.value;
  }
  assessment.provenance =
      limit.document.empty() ? std::string(rung_of(limit.source).told) : limit.document;
  assessment.limit_told = shown + " (" + assessment.provenance + ")";
}

Result<Assessment> assess_ratio(const ReadingInput& input, const Priors& priors,
                                const LimitsLibrary& library, const Meter& meter) {
  Assessment blank = blank_assessment(priors);
  const CorrectedReading reading = correct(input.value, input.kind, input.lead_zero, meter);
  blank.corrected_value = reading.shown;
  const bool needs_limit =
      input.kind == Kind::ripple || input.kind == Kind::dc_volts || input.kind == Kind::hold_up;
  if (needs_limit && !input.limit) {
    return missing(
        "a " + std::string(word_of(input.kind)) + " reading needs what it is held against",
        input.kind == Kind::hold_up
            ? "a limit: how long a sound part holds"
            : "a limit: the ripple allowed, or the volts that should be there");
  }
  const RatioSetting setting{input, priors, library, reading};
  switch (input.kind) {
    case Kind::capacitance:
      if (!input.capacitance && !input.limit) {
        return missing("a capacitance reading needs the marked value", "the value on the part");
      }
      return assess_capacitance(setting, std::move(blank));
    case Kind::dissipation:
      return assess_dissipation(setting, std::move(blank));
    case Kind::leakage_current:
      return assess_leakage(setting, std::move(blank));
    case Kind::insulation:
      return assess_insulation(setting, std::move(blank));
    case Kind::dc_resistance:
      return assess_dc_resistance(setting, std::move(blank));
    case Kind::ripple:
      return assess_ripple(setting, std::move(blank));
    case Kind::dc_volts:
      return assess_volts(setting, std::move(blank));
    case Kind::hold_up:
      return assess_hold_up(setting, std::move(blank));
    case Kind::esr:
    case Kind::impedance:
      break;
  }
  CHECK(false);
  return blank;
}

}  // namespace dryout::readings
