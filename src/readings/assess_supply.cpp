// What a set under power shows at the part: ripple, direct volts, how long a back-up holds.
#include <algorithm>
#include <cmath>

#include "readings/normal_law.h"
#include "readings/ratio_figures.h"

namespace dryout::readings {
namespace {

constexpr double volts_tolerance = 0.1;
constexpr double half_the_time = 0.5;

// A rail tells of all that hangs on it, so an indirect reading never convicts a part by itself. How
// often something else than this part makes it read so (a diode, the regulator, an overload,
// another part: judged), and over what span of ln(reading).
constexpr double ripple_by_others = 0.1;
constexpr double ripple_span = 3.0;
constexpr double ripple_most_telling = 8.0;  // limits: more is no worse a capacitor
constexpr double volts_by_others = 0.1;
constexpr double volts_span = 4.0;
constexpr double volts_least_telling = 0.03;  // of what should be there: dead is dead

/// Weighs what a rail shows, as if it were read as `value`. However old the part: a rail has other
/// causes, so nobody is convicted. `by_others`: their density, where the reading is off.
void weigh_rail(const RatioSetting& setting, double value, RatioReference reference,
                double by_others, const RatioFigures& figures, Assessment& assessment) {
  CorrectedReading reading = setting.reading;
  reading.value = value;
  if (figures.past_printed) {
    reference.by_others = by_others;
  }
  weigh({setting.input, setting.priors, setting.library, reading}, reference, figures, assessment);
  hold_below_conviction(setting.priors, assessment.likelihood);
  assessment.after = posterior_of(setting.priors, assessment.likelihood);
}

/// Too high a rail is the regulator's doing: it speaks of no state of a capacitor.
void say_nothing(Assessment& assessment) {
  for (std::vector<double>& row : assessment.likelihood) {
    row.assign(row.size(), 1.0);
  }
  assessment.after = assessment.before;
}

Limit typed_limit(const ReadingInput& input, double value) {
  Limit limit;
  limit.kind = input.kind;
  limit.value = value;
  limit.source = input.limit_source;
  // No part's data sheet says what its set has on a rail.
  limit.document = !input.limit_document.empty() ? input.limit_document
                   : input.limit_source == LimitSource::datasheet
                       ? "what should be there, as given"
                       : std::string(rung_of(input.limit_source).told);
  return limit;
}

}  // namespace

Assessment assess_ripple(const RatioSetting& setting, Assessment assessment) {
  const double limit = *setting.input.limit;
  RatioFigures figures;
  figures.beyond = normal_below(std::log(setting.reading.value / limit) /
                                std::hypot(setting.reading.log_spread, 0.1));
  figures.of_the_part = false;
  figures.past_printed = setting.reading.value > limit;
  figures.past_from = limit;
  assessment.over_probability = figures.beyond;
  const std::string allowed = format(quantities::volts(limit));
  tell_limit(typed_limit(setting.input, limit), allowed, assessment);
  weigh_rail(setting, std::min(setting.reading.value, ripple_most_telling * limit),
             {limit, 0.2, {}}, ripple_by_others / ripple_span, figures, assessment);
  const std::string shown =
      format(quantities::volts(setting.reading.shown)) + " of ripple against " + allowed;
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown +
                          ": the smoothing does not do its work. A diode, an overload or another "
                          "part of the rail can do the same: look at the rate, then at the part "
                          "itself.";
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": the smoothing does its work at this load.";
  } else if (figures.past_printed && figures.beyond > half_the_time) {
    assessment.sentence = shown + " is too much, but does not prove that it is this part's doing.";
  } else {
    assessment.sentence = shown + " is too near to call it either way.";
  }
  return assessment;
}

Assessment assess_volts(const RatioSetting& setting, Assessment assessment) {
  const double limit = *setting.input.limit;
  const double off = std::log(setting.reading.value / limit);
  RatioFigures figures;
  figures.beyond = normal_below((std::abs(off) - volts_tolerance) / setting.reading.log_spread);
  figures.of_the_part = false;
  figures.past_printed = std::abs(off) > volts_tolerance;
  assessment.over_probability = figures.beyond;
  const std::string due = format(quantities::volts(limit));
  tell_limit(typed_limit(setting.input, limit), due + " within a tenth", assessment);
  if (off < 0.0) {
    figures.past_from = std::exp(-volts_tolerance) * limit;
  }
  weigh_rail(setting, std::max(setting.reading.value, volts_least_telling * limit),
             {limit, 0.03, {}}, volts_by_others / volts_span, figures, assessment);
  if (off > 0.0 && figures.past_printed) {
    say_nothing(assessment);
  }
  const std::string shown =
      format(quantities::volts(setting.reading.shown)) + " where " + due + " should be";
  const bool off_for_sure = figures.beyond >= 0.97;
  if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": nothing drains this rail.";
  } else if (off_for_sure) {
    assessment.sentence =
        shown + (off < 0.0 ? ": something draws it down or fails to make it; a leaky or shorted "
                             "part is one of the reasons."
                           : ": too high is the regulator's doing or a load that is missing, and "
                             "speaks of no capacitor.");
  } else {
    assessment.sentence = shown + " is near the edge of a tenth either way.";
  }
  return assessment;
}

Assessment assess_hold_up(const RatioSetting& setting, Assessment assessment) {
  const double due = *setting.input.limit;
  const double least = half_the_time * due;
  RatioFigures figures;
  figures.beyond = normal_below(std::log(least / setting.reading.value) /
                                std::hypot(setting.reading.log_spread, 0.1));
  figures.past_printed = setting.reading.value < least;
  figures.past_from = least;
  assessment.over_probability = figures.beyond;
  const std::string wanted = format_duration(quantities::Second(due));
  Limit limit = typed_limit(setting.input, least);
  tell_limit(limit, "at least half of " + wanted, assessment);
  CorrectedReading reading = setting.reading;
  reading.value = std::max(reading.value, 0.05 * due);  // gone is gone
  weigh({setting.input, setting.priors, setting.library, reading}, {due, 0.2, {}}, figures,
        assessment);
  const std::string shown =
      "held up for " + format_duration(quantities::Second(setting.reading.shown)) + " of " + wanted;
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown + ": it no longer keeps its load alive.";
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown +
                          ": it does its work. Tens of ohms of series resistance are "
                          "sound in such a part.";
  } else {
    assessment.sentence = shown + " is too near to half to call it either way.";
  }
  return assessment;
}

}  // namespace dryout::readings
