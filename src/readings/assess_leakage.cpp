// Direct current through a part: leakage, insulation, a short. A leakage in amperes and an
// insulation in ohms at the same volts are one current, and are judged as one.
#include <algorithm>
#include <cmath>

#include "quantities/printed_number.h"
#include "readings/assess_resistance.h"
#include "readings/leakage_allowance.h"
#include "readings/normal_law.h"
#include "readings/ratio_figures.h"
#include "readings/verdict.h"

namespace dryout::readings {
namespace {

constexpr double shorted_below_ohm = 20.0;
constexpr double cleared_above_ohm = 1000.0;
constexpr double path_below_ohm = 5e3;    // alone, settled: the least a big sound can may show
constexpr double ohmmeter_telling = 4e6;  // a fifth of where hand-held meters end (judged)
constexpr double safely_below = 10.0;     // what a sound part should have (judged)
constexpr double shorted_all_the_same = 1e-3;
constexpr double most_telling_leak = 1e4;  // limits: what a shorted part passes (states.cpp)
constexpr double path_leaves_sound = 0.3;  // of a dry part alone with some hundred ohms (judged)
constexpr double long_wait_minutes = 5.0;  // from here on a limit is told with its wait
constexpr double rounding = 1e-9;          // of volts over ohms
constexpr double unformed_times = 3.0;     // limits that a sound part may pass, unformed (judged)
constexpr double mostly_shorted = 0.6;     // the sentence says no more than the figures
constexpr double paper_tired = 25.0;       // with the 0.13 of the table: three limits (judged)

std::string at_volts(const ReadingInput& input) {
  return input.test_volts ? " at " + format(*input.test_volts) : std::string();
}

/// A path that no leak makes: the meter's own short.
bool is_short(const ReadingInput& input, double ohms) {
  return is_alone(input) && ohms < cleared_above_ohm;
}

double share_of(const Assessment& assessment, std::string_view state) {
  for (std::size_t s = 0; s < assessment.states.size(); ++s) {
    if (assessment.states[s] == state) {
      return assessment.after[s];
    }
  }
  return 0.0;
}

/// Re-forming at working volts: not above 5 mA (KEMET PEH169, A4035: twice the limit or 5 mA), and
/// no more heat than a small can sheds (judged).
constexpr double forming_at_most_A = 5e-3;
constexpr double forming_at_most_W = 1.0;

std::string what_to_do(const ReadingInput& input, const Assessment& assessment, double amperes,
                       double volts, double limit) {
  if (is_aluminium_electrolytic(input.technology)) {
    const double most = std::max(forming_at_most_A, 2.0 * limit);
    const std::string how = " through a resistor that holds it to " +
                            format(quantities::amperes(most)) +
                            ", covered and hands off, and discharged afterwards";
    const double watts = amperes * volts;
    if (amperes <= most && watts <= forming_at_most_W) {
      return ": it leaks. If it has lain unused for years, re-form it before condemning it," + how +
             ".";
    }
    return ": it leaks" +
           (watts > forming_at_most_W ? ", and " + quantities::significant_figures(watts, 2) +
                                            " W heat it until it bursts"
                                      : std::string()) +
           ". Take the volts off. If it is re-formed at all, then from a few volts upwards" + how +
           "; one that does not come down is replaced.";
  }
  if (share_of(assessment, "tired") > share_of(assessment, "leaky")) {
    return ": it passes more than its limit, as most old parts of this kind do (tired), be it "
           "enough "
           "to upset its place or not. It does not come back: it is replaced, and never goes back "
           "across or near the mains.";
  }
  if (input.technology == "mains-film" || input.technology == "paper" ||
      input.technology == "oil-paper") {
    return ": it leaks. A part of this kind does not come back: it is replaced, and never goes "
           "back across or near the mains.";
  }
  return ": it leaks. A part of this kind does not come back: replace it.";
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

/// How a direct current and its limit are told: in amperes, or in ohms at the volts of the test.
struct DirectWords {
  std::string shown;  ///< "1 µA at 400 V against a limit of 100 nA"
  std::string holds;  ///< what is said of a part that passes
};

DirectWords words_of(const ReadingInput& input, double value, double limit, double minutes) {
  if (input.kind == Kind::leakage_current) {
    return {format(quantities::amperes(value)) + at_volts(input) + " against a limit of " +
                format(quantities::amperes(limit)) +
                (minutes >= long_wait_minutes
                     ? " after " + quantities::whole_number(minutes) + " minutes there"
                     : std::string()),
            ": it does not leak at this voltage."};
  }
  return {format(quantities::ohms(value)) + at_volts(input) + " where at least " +
              format(quantities::ohms(limit)) + " should be",
          ": its insulation holds at this voltage."};
}

/// The limit in the unit that was read.
void tell_allowance(const ReadingInput& input, const LeakageAllowance& allowed,
                    Assessment& assessment) {
  Limit limit = allowed.limit;
  const double spread = believe(limit).log_spread;
  if (input.kind == Kind::leakage_current) {
    assessment.believed = BelievedLimit{limit.value, spread};
    tell_limit(limit, format(quantities::amperes(limit.value)), assessment);
    return;
  }
  limit.kind = Kind::insulation;
  limit.value = allowed.volts.si() / limit.value;
  assessment.believed = BelievedLimit{limit.value, spread};
  tell_limit(limit, "at least " + format(quantities::ohms(limit.value)), assessment);
}

Assessment assess_direct_current(const RatioSetting& setting, const LeakageAllowance& allowed,
                                 Assessment assessment) {
  const ReadingInput& input = setting.input;
  const double limit = allowed.limit.value;
  CorrectedReading reading = setting.reading;  // in amperes from here on
  if (input.kind != Kind::leakage_current) {
    reading.value = allowed.volts.si() / reading.value;
  }
  const double current = reading.value;
  const double spread = believe(allowed.limit).log_spread;
  const bool dry = has_dry_dielectric(input.technology);
  RatioFigures figures;
  figures.beyond =
      normal_below(std::log(current / limit) / std::hypot(spread, setting.reading.log_spread));
  // What is across takes current too.
  figures.may_convict = is_alone(input) && !allowed.still_falling && !allowed.volts_unsaid;
  figures.may_acquit =
      telling_volts(input) || (!input.test_volts && !dry && input.kind == Kind::leakage_current);
  figures.past_printed = current > limit * (1.0 + rounding);
  figures.past_from = limit;
  assessment.over_probability = figures.beyond;
  tell_allowance(input, allowed, assessment);
  // Past what a shorted part passes, more says no more.
  reading.value = std::min(current, most_telling_leak * limit);
  RatioReference reference{limit, spread, {}};
  reference.sound_times = allowed.sound_times;
  reference.tired_times = dry ? paper_tired : 1.0;
  reference.tight_at_most = unformed_times;
  ReadingInput as_current = input;
  as_current.kind = Kind::leakage_current;
  weigh({as_current, setting.priors, setting.library, reading}, reference, figures, assessment);
  const bool volts_known = input.test_volts || input.rated || input.kind != Kind::leakage_current;
  const bool as_good_as_shorted = share_of(assessment, "shorted") >= mostly_shorted;
  const bool shorted =
      volts_known && is_short(input, allowed.volts.si() / current) && as_good_as_shorted;
  const bool says_nothing = (allowed.still_falling || allowed.volts_unsaid) && figures.past_printed;
  if (says_nothing && as_good_as_shorted) {
    hold_below_conviction(setting.priors, assessment.likelihood);
    assessment.after = posterior_of(setting.priors, assessment.likelihood);
  } else if (says_nothing) {
    assessment.likelihood = blank_assessment(setting.priors).likelihood;
    assessment.after = assessment.before;
  }
  const DirectWords words =
      words_of(input, setting.reading.shown, assessment.limit->value, allowed.limit.minutes);
  if (shorted && figures.past_printed) {
    assessment.verdict = Verdict::suspect_short;
    assessment.sentence = words.shown + ": that is no leak, the part is shorted.";
  } else if (as_good_as_shorted && figures.past_printed &&
             (says_nothing || assessment.verdict == Verdict::over_limit)) {
    assessment.verdict = says_nothing ? Verdict::suspect_short : Verdict::over_limit;
    assessment.sentence =
        words.shown +
        ": more than a leak passes, as good as shorted. Take the volts off, and "
        "measure its d.c. resistance." +
        (is_aluminium_electrolytic(input.technology) ? " No part that passes so much is re-formed."
                                                     : "");
  } else if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence =
        words.shown + what_to_do(input, assessment, current, allowed.volts.si(), limit);
  } else if (allowed.still_falling && figures.past_printed) {
    assessment.sentence = words.shown +
                          " proves nothing yet: what such a part takes falls for half an hour and "
                          "more. Leave it at these volts and read again.";
  } else if (allowed.volts_unsaid && figures.past_printed) {
    assessment.sentence = words.shown + " proves nothing yet: " + too_few_volts(input) + ".";
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = words.shown + words.holds;
  } else if (!figures.may_convict && figures.beyond >= convincing) {
    assessment.sentence =
        words.shown + " was read in circuit, where others take current too: lift a leg.";
  } else if (figures.past_printed && figures.beyond >= convincing) {
    assessment.sentence = words.shown +
                          " is past it, but so few parts of this kind leak that a wrong limit or a "
                          "slip is as likely: " +
                          (is_aluminium_electrolytic(input.technology) ? "form it and read again."
                                                                       : "read it again.");
  } else if (!figures.may_acquit && figures.beyond <= 1.0 - convincing) {
    assessment.verdict = Verdict::not_proven;
    assessment.sentence = words.shown + " does not clear it: " + too_few_volts(input) + ".";
  } else {
    assessment.sentence = words.shown + " is too near to call it either way.";
  }
  return assessment;
}

}  // namespace

Assessment assess_leakage(const RatioSetting& setting, Assessment assessment) {
  return assess_direct_current(setting, leakage_allowance(setting.input, setting.library),
                               std::move(assessment));
}

Assessment assess_insulation(const RatioSetting& setting, Assessment assessment) {
  return assess_direct_current(setting, leakage_allowance(setting.input, setting.library),
                               std::move(assessment));
}

namespace {

/// It is not shorted, and that is all: what leaks at working volts an ohmmeter's few do not show.
void rule_out_a_short(const Priors& priors, Assessment& assessment) {
  clear_nobody(assessment.likelihood);
  for (std::vector<double>& row : assessment.likelihood) {
    for (std::size_t s = 0; s < row.size(); ++s) {
      row[s] = priors.states[s] == "shorted" ? shorted_all_the_same * row.front() : row[s];
    }
  }
  assessment.after = posterior_of(priors, assessment.likelihood);
}

/// Of kilohms and more: who can leak leaks, and is not shorted.
void call_it_a_leak(const Priors& priors, Assessment& assessment) {
  const auto index_of = [&](const char* state) {
    return static_cast<std::size_t>(std::find(priors.states.begin(), priors.states.end(), state) -
                                    priors.states.begin());
  };
  const std::size_t leaky = index_of("leaky");
  const std::size_t shorted = index_of("shorted");
  if (leaky == priors.states.size() || shorted == priors.states.size()) {
    return;
  }
  for (std::vector<double>& row : assessment.likelihood) {
    row[shorted] = shorted_all_the_same * row[leaky];
  }
  assessment.after = posterior_of(priors, assessment.likelihood);
}

/// What an ohmmeter shows of a sound part of these kinds: more than it can (judged).
const StateSpread tight_sound{1e9, 2.0};

/// Alone, a sound part of these kinds shows an ohmmeter next to no path. Its few volts convict only
/// well below what the part should have at working volts, and never acquit.
Assessment assess_tight_part(const RatioSetting& setting, Assessment assessment) {
  ReadingInput as_insulation = setting.input;
  as_insulation.kind = Kind::insulation;
  as_insulation.limit.reset();
  LeakageAllowance allowed = leakage_allowance(as_insulation, setting.library);
  const double due = allowed.volts.si() / allowed.limit.value;
  const double convicting = std::min(ohmmeter_telling, due / safely_below);
  const double value = setting.reading.value;
  if (value < convicting) {
    allowed.limit.value = allowed.volts.si() / convicting;
    allowed.limit.source = LimitSource::look_alike;
    allowed.limit.document = "what an ohmmeter's few volts can prove (common practice)";
    allowed.row = nullptr;
    allowed.sound_times = 1.0;
    allowed.volts_unsaid = false;
    as_insulation.test_volts.reset();
    // Deeper than a leak goes it is no less of one.
    CorrectedReading reading = setting.reading;
    reading.value =
        std::max(value, convicting / ratio_spread(Kind::leakage_current, "leaky").median);
    assessment = assess_direct_current({as_insulation, setting.priors, setting.library, reading},
                                       allowed, std::move(assessment));
    call_it_a_leak(setting.priors, assessment);
    return assessment;
  }
  assessment.over_probability = 0.0;
  rule_out_a_short(setting.priors, assessment);
  const std::string shown =
      format(quantities::ohms(setting.reading.shown)) + ": it is not shorted.";
  if (value >= due) {
    assessment.verdict = Verdict::within_limit;
    assessment.sentence = shown + " Leakage at working voltage is another matter.";
    return assessment;
  }
  assessment.verdict = Verdict::not_proven;
  assessment.sentence = shown +
                        " A sound one may show more, but an ohmmeter's few volts neither clear a "
                        "part of leakage nor convict it.";
  assessment.advice.emplace_back(
      "Clean the body, keep fingers off the tips, and measure insulation or leakage at working "
      "volts.");
  return assessment;
}

}  // namespace

Assessment assess_dc_resistance(const RatioSetting& setting, Assessment assessment) {
  const ReadingInput& input = setting.input;
  const double value = setting.reading.value;
  const bool alone = is_alone(input);
  const bool tight = has_dry_dielectric(input.technology) || input.technology == "solid-tantalum";
  if (alone && tight && value >= cleared_above_ohm) {
    return assess_tight_part(setting, std::move(assessment));
  }
  const double cleared_from = alone ? path_below_ohm : cleared_above_ohm;
  const bool path_known =
      input.in_circuit && (input.across == Across::winding || input.across == Across::low_resistor);
  const std::string shown = format(quantities::ohms(setting.reading.shown));
  assessment.over_probability = normal_below(std::log(shorted_below_ohm / value) /
                                             std::hypot(setting.reading.log_spread, 0.1));
  // The deader the short the surer: below what shorts usually show, less is no other fault.
  CorrectedReading reading = setting.reading;
  const double dead = ratio_spread(Kind::dc_resistance, "shorted").median;
  if (value < dead) {
    reading.value = dead;
    reading.absolute = input.meter ? input.meter->floor : Meter{}.floor;
    reading.log_spread = reading.spread_at(dead);
  }
  RatioFigures figures;
  figures.past_printed = value < cleared_from;
  figures.may_acquit = value >= shorted_below_ohm || !path_known;
  RatioReference reference{1.0, input.in_circuit ? 1.0 : 0.0, parallel_ohms(input)};
  if (alone && has_dry_dielectric(input.technology)) {
    reference.sound = tight_sound;
  }
  weigh({input, setting.priors, setting.library, reading}, reference, figures, assessment);
  if (alone && tight && value < cleared_from) {
    hold_sound_to(path_leaves_sound, setting.priors, assessment.likelihood);
    assessment.after = posterior_of(setting.priors, assessment.likelihood);
  }
  assessment.verdict = Verdict::not_proven;
  if (value >= cleared_from) {
    rule_out_a_short(setting.priors, assessment);
    assessment.verdict = Verdict::within_limit;
    assessment.sentence = shown +
                          ": it is not shorted. Leakage at working voltage is another "
                          "matter.";
  } else if (value >= shorted_below_ohm) {
    const bool mostly = share_of(assessment, "shorted") >= 0.5;
    assessment.sentence =
        shown +
        (alone && mostly ? " is no dead short, but as good as one: its dielectric is burnt through."
         : alone && tight ? " is no dead short, but a path that a sound one has not."
         : alone ? " is no short, but a path is there: a leak, unless the figure still climbs."
                 : " is no short, but a path is there: the circuit's, or a leak.");
  } else if (path_known) {
    assessment.verdict = Verdict::masked;
    assessment.masking = 1.0;
    assessment.sentence = shown + " is what " + std::string(told(input.across)) +
                          " across it would show anyway: lift a leg.";
  } else if (input.technology == "supercap") {
    // A meter's milliampere takes a farad an hour to a volt (I t = C U).
    assessment.sentence = shown +
                          " is what an empty part of this kind shows for minutes or hours, while "
                          "the meter fills it: charge it through a resistor, and see whether it "
                          "holds.";
  } else {
    assessment.verdict = Verdict::suspect_short;
    assessment.sentence =
        shown + " is next to nothing: " +
        (alone ? "the part is shorted." : "the part, or something on the same rail, is shorted.");
  }
  return assessment;
}

}  // namespace dryout::readings
