#include "readings/assess_ratio.h"

#include <cmath>

#include "readings/assess_resistance.h"
#include "readings/normal_law.h"
#include "readings/verdict.h"

namespace dryout::readings {

using quantities::Problem;
using quantities::Result;

namespace {

constexpr double capacitance_floor = 0.8;  // tolerance letter M, and what endurance tests allow
constexpr double volts_tolerance = 0.1;
constexpr double shorted_below_ohm = 20.0;
constexpr double cleared_above_ohm = 1000.0;

/// P(the figure is beyond its limit) and whether the circuit lets it convict, or acquit.
struct RatioFigures {
  double beyond = 0.5;
  bool may_convict = true;
  bool may_acquit = true;
};

Verdict judge(const RatioFigures& figures) {
  if (figures.beyond >= convincing) {
    return figures.may_convict ? Verdict::over_limit : Verdict::not_proven;
  }
  if (figures.beyond <= 1.0 - convincing) {
    return figures.may_acquit ? Verdict::within_limit : Verdict::masked;
  }
  return Verdict::not_proven;
}

bool is_alone(const ReadingInput& input) {
  return !input.in_circuit || input.across == Across::nothing;
}

/// Direct-current path that the usual neighbours are.
std::optional<double> parallel_ohms(const ReadingInput& input) {
  if (!input.in_circuit) {
    return std::nullopt;
  }
  switch (input.across) {
    case Across::winding:
      return 5.0;
    case Across::low_resistor:
      return 10.0;
    case Across::regulator:
    case Across::unknown:
      return 2e3;
    case Across::nothing:
    case Across::ceramic:
    case Across::electrolytic:
      break;
  }
  return 1e6;
}

Assessment finish(Assessment assessment, const ReadingInput& input, const CorrectedReading& reading,
                  const RatioReference& reference, const Priors& priors) {
  assessment.likelihood = ratio_likelihood(input.kind, reading, reference, priors);
  assessment.after = posterior_of(priors, assessment.likelihood);
  return assessment;
}

Assessment assess_capacitance(const ReadingInput& input, const Priors& priors,
                              const CorrectedReading& reading, Assessment assessment) {
  const double marked = input.limit ? *input.limit : input.capacitance->si();
  const bool alone = is_alone(input);
  RatioFigures figures;
  figures.beyond =
      normal_below(std::log(capacitance_floor * marked / reading.value) / reading.log_spread);
  figures.may_acquit = alone;  // what is across adds to it: low convicts, high proves nothing
  assessment.verdict = judge(figures);
  assessment.over_probability = figures.beyond;
  assessment.masking = alone ? 0.0 : 1.0;
  const std::string share = std::to_string(std::lround(100.0 * reading.value / marked)) +
                            " % of the marked " + format(quantities::farads(marked));
  switch (assessment.verdict) {
    case Verdict::over_limit:
      assessment.sentence = share + " is left: below the four fifths that any maker allows.";
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
    case Verdict::suspect_short:
    case Verdict::not_proven:
      assessment.sentence = share + " is too near to its tolerance to call it either way.";
      break;
  }
  return finish(std::move(assessment), input, reading, {marked, alone ? 0.0 : 0.6, {}}, priors);
}

Assessment assess_leakage(const ReadingInput& input, const Priors& priors,
                          const LimitsLibrary& library, const CorrectedReading& reading,
                          Assessment assessment) {
  Limit limit =
      leakage_limit(library, {input.technology, input.body, input.capacitance, input.rated});
  if (input.limit) {
    limit = {*input.limit, Kind::leakage_current, input.limit_source, {}, {}, input.limit_document,
             0.0};
  }
  const BelievedLimit believed{limit.value, believe(limit).log_spread};
  assessment.limit = limit;
  RatioFigures figures;
  figures.beyond = normal_below(std::log(reading.value / believed.median) /
                                std::hypot(believed.log_spread, reading.log_spread));
  figures.may_convict = is_alone(input);  // what is across takes current too
  assessment.verdict = judge(figures);
  assessment.over_probability = figures.beyond;
  const std::string shown = format(quantities::amperes(reading.value)) + " against a limit of " +
                            format(quantities::amperes(limit.value));
  assessment.limit_told = format(quantities::amperes(limit.value)) + " (" + limit.document + ")";
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown +
                          ": it leaks. If it has lain unused for years, re-form it before "
                          "condemning it.";
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": it does not leak at this voltage.";
  } else if (!figures.may_convict && figures.beyond >= convincing) {
    assessment.sentence =
        shown + " was read in circuit, where others take current too: lift a leg.";
  } else {
    assessment.sentence = shown + " is too near to call it either way.";
  }
  return finish(std::move(assessment), input, reading, {believed.median, believed.log_spread, {}},
                priors);
}

Assessment assess_dc_resistance(const ReadingInput& input, const Priors& priors,
                                const CorrectedReading& reading, Assessment assessment) {
  const bool path_known =
      input.in_circuit && (input.across == Across::winding || input.across == Across::low_resistor);
  const std::string shown = format(quantities::ohms(reading.value));
  assessment.over_probability = normal_below(std::log(shorted_below_ohm / reading.value) /
                                             std::hypot(reading.log_spread, 0.1));
  if (reading.value >= cleared_above_ohm) {
    assessment.verdict = Verdict::within_limit;
    assessment.sentence = shown +
                          ": it is not shorted. Leakage at working voltage is another "
                          "matter.";
  } else if (reading.value >= shorted_below_ohm) {
    assessment.sentence = shown + " is no short, but a path is there: the circuit's, or a leak.";
  } else if (path_known) {
    assessment.verdict = Verdict::masked;
    assessment.masking = 1.0;
    assessment.sentence = shown + " is what " + std::string(told(input.across)) +
                          " across it would show anyway: lift a leg.";
  } else {
    assessment.verdict = Verdict::suspect_short;
    assessment.sentence =
        shown + " is next to nothing: " +
        (is_alone(input) ? "the part is shorted."
                         : "the part, or something on the same rail, is shorted.");
  }
  return finish(std::move(assessment), input, reading,
                {1.0, input.in_circuit ? 1.0 : 0.0, parallel_ohms(input)}, priors);
}

Assessment assess_ripple(const ReadingInput& input, const Priors& priors,
                         const CorrectedReading& reading, Assessment assessment) {
  RatioFigures figures;
  figures.beyond =
      normal_below(std::log(reading.value / *input.limit) / std::hypot(reading.log_spread, 0.1));
  assessment.verdict = judge(figures);
  assessment.over_probability = figures.beyond;
  const std::string shown = format(quantities::volts(reading.value)) + " of ripple against " +
                            format(quantities::volts(*input.limit));
  assessment.limit_told = format(quantities::volts(*input.limit)) + " (as typed)";
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown +
                          ": the smoothing does not do its work. A diode or an overload "
                          "can do the same; look at the rate.";
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": the smoothing does its work at this load.";
  } else {
    assessment.sentence = shown + " is too near to call it either way.";
  }
  return finish(std::move(assessment), input, reading, {*input.limit, 0.2, {}}, priors);
}

Assessment assess_volts(const ReadingInput& input, const Priors& priors,
                        const CorrectedReading& reading, Assessment assessment) {
  const double off = std::log(reading.value / *input.limit);
  RatioFigures figures;
  figures.beyond = normal_below((std::abs(off) - volts_tolerance) / reading.log_spread);
  assessment.verdict = judge(figures);
  assessment.over_probability = figures.beyond;
  const std::string shown = format(quantities::volts(reading.value)) + " where " +
                            format(quantities::volts(*input.limit)) + " should be";
  assessment.limit_told = format(quantities::volts(*input.limit)) + " within a tenth";
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown + (off < 0.0 ? ": something draws it down or fails to make it; a "
                                               "leaky or shorted part is one of the reasons."
                                             : ": too high is the regulator's doing, seldom a "
                                               "capacitor's.");
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": nothing drains this rail.";
  } else {
    assessment.sentence = shown + " is near the edge of a tenth either way.";
  }
  return finish(std::move(assessment), input, reading, {*input.limit, 0.03, {}}, priors);
}

Problem missing(std::string message, std::string accepted) {
  return {std::move(message), {}, "nothing", std::move(accepted)};
}

}  // namespace

Result<Assessment> assess_ratio(const ReadingInput& input, const Priors& priors,
                                const LimitsLibrary& library, const Meter& meter) {
  Assessment blank = blank_assessment(priors);
  const CorrectedReading reading = correct(input.value, input.kind, input.lead_zero, meter);
  blank.corrected_value = reading.value;
  const bool needs_limit = input.kind == Kind::ripple || input.kind == Kind::dc_volts;
  if (needs_limit && !input.limit) {
    return missing(
        "a " + std::string(word_of(input.kind)) + " reading needs what it is held against",
        "a limit: the ripple allowed, or the volts that should be there");
  }
  switch (input.kind) {
    case Kind::capacitance:
      if (!input.capacitance && !input.limit) {
        return missing("a capacitance reading needs the marked value", "the value on the part");
      }
      return assess_capacitance(input, priors, reading, std::move(blank));
    case Kind::leakage_current:
      return assess_leakage(input, priors, library, reading, std::move(blank));
    case Kind::dc_resistance:
      return assess_dc_resistance(input, priors, reading, std::move(blank));
    case Kind::ripple:
      return assess_ripple(input, priors, reading, std::move(blank));
    case Kind::dc_volts:
      return assess_volts(input, priors, reading, std::move(blank));
    case Kind::esr:
    case Kind::impedance:
      break;
  }
  CHECK(false);
  return blank;
}

}  // namespace dryout::readings
