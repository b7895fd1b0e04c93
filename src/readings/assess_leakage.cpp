// Direct current through a part: leakage, insulation, a short.
#include <algorithm>
#include <array>
#include <cmath>

#include "readings/normal_law.h"
#include "readings/ratio_figures.h"
#include "readings/verdict.h"

namespace dryout::readings {
namespace {

constexpr double shorted_below_ohm = 20.0;
constexpr double cleared_above_ohm = 1000.0;
constexpr double telling_share = 0.5;  // of the rated volts: below, a pass says little
constexpr double old_years = 55.0;
constexpr double paper_tired = 25.0;  // with the 0.13 of the table: three limits (judged)
// JAN-C-62 (second-hand): about 1.1 mA for 20 uF at 450 V, 0.12 of C times V.
constexpr double old_per_CV = 0.12;
// What a grid or a control notices (common practice, no source): less is not held against a part.
constexpr double least_leak_A = 0.1e-6;

/// Insulation that makers promise at least: ohms, or ohms times farads where that is less. Film:
/// a polyester sheet asks 10 gigohm below 0.33 uF; products by WIMA's table of dielectrics; paper
/// and mica from memory.
struct DryInsulation {
  std::string_view technology;
  double least_ohm, ohm_farad;
};
constexpr std::array dry_insulations{
    DryInsulation{"film", 10e9, 3000.0},  DryInsulation{"mains-film", 10e9, 3000.0},
    DryInsulation{"paper", 1e9, 500.0},   DryInsulation{"oil-paper", 1e9, 500.0},
    DryInsulation{"mica", 3e9, 1000.0},   DryInsulation{"polystyrene", 30e9, 30e3},
    DryInsulation{"ceramic", 1e9, 500.0}, DryInsulation{"trimmer", 1e9, 1e3}};

struct Floor {
  double ohm;
  std::string document;
};

/// The least insulation of a dry part, by rows near its volts, else by its dielectric. Sheets of
/// one technology differ by a decade (polyester, polypropylene) and the body does not say which it
/// is: the one that asks least.
std::optional<Floor> floor_of(const ReadingInput& input, const LimitsLibrary& library) {
  constexpr double near = 0.9;  // ln of volts, and of the value where the row has one
  const quantities::Farad c = input.capacitance.value_or(quantities::Farad(1e-8));
  std::optional<Floor> least;
  for (const LimitRow& row : library.rows) {
    double apart = input.rated ? std::abs(std::log(row.rated / *input.rated)) : 0.0;
    apart += row.capacitance ? std::abs(std::log(*row.capacitance / c)) : 0.0;
    if (row.technology != input.technology || !row.insulation || apart > near) {
      continue;
    }
    const auto ohm = insulation_floor(row, c);
    if (ohm && ohm->si() > 0.0 && (!least || ohm->si() < least->ohm)) {
      least = Floor{ohm->si(), told(row)};
    }
  }
  if (least) {
    return least;
  }
  for (const DryInsulation& dry : dry_insulations) {
    if (dry.technology == input.technology) {
      return Floor{std::min(dry.least_ohm, dry.ohm_farad / c.si()),
                   "what makers promise of this dielectric"};
    }
  }
  return std::nullopt;
}

bool telling_volts(const ReadingInput& input) {
  if (!input.test_volts) {
    return false;
  }
  return !input.rated || input.test_volts->si() >= telling_share * input.rated->si();
}

std::string at_volts(const ReadingInput& input) {
  return input.test_volts ? " at " + format(*input.test_volts) : std::string();
}

std::string what_to_do(const ReadingInput& input) {
  if (is_aluminium_electrolytic(input.technology)) {
    return ": it leaks. If it has lain unused for years, re-form it before condemning it.";
  }
  if (input.technology == "mains-film" || input.technology == "paper" ||
      input.technology == "oil-paper") {
    return ": it leaks. A part of this kind does not come back: it is replaced, and never goes "
           "back across or near the mains.";
  }
  return ": it leaks. A part of this kind does not come back: replace it.";
}

std::string too_few_volts(const ReadingInput& input) {
  const std::string wanted =
      input.rated ? format(quantities::volts(telling_share * input.rated->si())) + " or more"
                  : std::string("its working volts");
  return input.test_volts
             ? "leakage shows at working volts: read it at " + wanted
             : "say at how many volts it was read: leakage shows at working volts, " + wanted;
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

/// Leakage that is allowed, and where a sound part of a dry dielectric lies below it.
struct Allowance {
  Limit limit;
  double sound_times = 1.0;
};

Allowance allowance_of(const ReadingInput& input, const LimitsLibrary& library) {
  Allowance allowed;
  allowed.limit =
      leakage_limit(library, {input.technology, input.body, input.capacitance, input.rated});
  if (input.limit) {
    allowed.limit = {
        *input.limit, Kind::leakage_current, input.limit_source, {}, {}, input.limit_document, 0.0};
    return allowed;
  }
  const auto volts = input.test_volts ? input.test_volts : input.rated;
  if (has_dry_dielectric(input.technology)) {
    const auto floor = floor_of(input, library);
    const double current = floor && volts ? volts->si() / floor->ohm : least_leak_A;
    allowed.limit.value = std::max(current, least_leak_A);
    allowed.limit.document = floor && current > least_leak_A
                                 ? floor->document
                                 : "what a grid or a control notices (common practice)";
    allowed.sound_times = std::min(1.0, current / allowed.limit.value);
  } else if (is_aluminium_electrolytic(input.technology) && input.years >= old_years &&
             input.capacitance && input.rated) {
    const double old = old_per_CV * input.capacitance->si() * input.rated->si();
    if (old > allowed.limit.value) {
      allowed.limit.value = old;
      allowed.limit.document = "JAN-C-62, for parts of that time (second-hand)";
    }
  }
  return allowed;
}

}  // namespace

Assessment assess_leakage(const RatioSetting& setting, Assessment assessment) {
  const ReadingInput& input = setting.input;
  const Allowance allowed = allowance_of(input, setting.library);
  const Limit& limit = allowed.limit;
  const BelievedLimit believed{limit.value, believe(limit).log_spread};
  RatioFigures figures;
  figures.beyond = normal_below(std::log(setting.reading.value / believed.median) /
                                std::hypot(believed.log_spread, setting.reading.log_spread));
  figures.may_convict = is_alone(input);  // what is across takes current too
  figures.may_acquit =
      telling_volts(input) || (!input.test_volts && !has_dry_dielectric(input.technology));
  figures.past_printed = setting.reading.value > limit.value;
  assessment.over_probability = figures.beyond;
  assessment.believed = believed;
  tell_limit(limit, format(quantities::amperes(limit.value)), assessment);
  RatioReference reference{believed.median, believed.log_spread, {}};
  reference.sound_times = allowed.sound_times;
  reference.tired_times = has_dry_dielectric(input.technology) ? paper_tired : 1.0;
  weigh(setting, reference, figures, assessment);
  const std::string shown = format(quantities::amperes(setting.reading.value)) + at_volts(input) +
                            " against a limit of " + format(quantities::amperes(limit.value));
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown + what_to_do(input);
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": it does not leak at this voltage.";
  } else if (!figures.may_convict && figures.beyond >= convincing) {
    assessment.sentence =
        shown + " was read in circuit, where others take current too: lift a leg.";
  } else if (!figures.may_acquit && figures.beyond <= 1.0 - convincing) {
    assessment.verdict = Verdict::not_proven;
    assessment.sentence = shown + " does not clear it: " + too_few_volts(input) + ".";
  } else {
    assessment.sentence = shown + " is too near to call it either way.";
  }
  return assessment;
}

Assessment assess_insulation(const RatioSetting& setting, Assessment assessment) {
  const ReadingInput& input = setting.input;
  Limit limit;
  limit.kind = Kind::insulation;
  limit.source = LimitSource::look_alike;
  if (input.limit) {
    limit.value = *input.limit;
    limit.source = input.limit_source;
    limit.document = input.limit_document;
  } else if (const auto floor = floor_of(input, setting.library)) {
    limit.value = floor->ohm;
    limit.document = floor->document;
  } else {
    // An electrolytic's leakage limit at its rated volts, as a resistance.
    const Limit leak = leakage_limit(
        setting.library, {input.technology, input.body, input.capacitance, input.rated});
    limit.value = input.rated.value_or(quantities::Volt(25.0)).si() / leak.value;
    limit.document = "its leakage limit: " + leak.document;
  }
  const BelievedLimit believed{limit.value, believe(limit).log_spread};
  RatioFigures figures;
  figures.beyond = normal_below(std::log(believed.median / setting.reading.value) /
                                std::hypot(believed.log_spread, setting.reading.log_spread));
  figures.may_convict = is_alone(input);
  figures.may_acquit = telling_volts(input);
  figures.past_printed = setting.reading.value < limit.value;
  assessment.over_probability = figures.beyond;
  assessment.believed = believed;
  tell_limit(limit, "at least " + format(quantities::ohms(limit.value)), assessment);
  RatioReference reference{believed.median, believed.log_spread, {}};
  reference.tired_times = has_dry_dielectric(input.technology) ? 1.0 / paper_tired : 1.0;
  weigh(setting, reference, figures, assessment);
  const std::string shown = format(quantities::ohms(setting.reading.value)) + at_volts(input) +
                            " where at least " + format(quantities::ohms(limit.value)) +
                            " should be";
  if (assessment.verdict == Verdict::over_limit) {
    assessment.sentence = shown + what_to_do(input);
  } else if (assessment.verdict == Verdict::within_limit) {
    assessment.sentence = shown + ": its insulation holds at this voltage.";
  } else if (!figures.may_convict && figures.beyond >= convincing) {
    assessment.sentence =
        shown + " was read in circuit, where others take current too: lift a leg.";
  } else if (figures.beyond <= 1.0 - convincing) {
    assessment.verdict = Verdict::not_proven;
    assessment.sentence = shown + " does not clear it: " + too_few_volts(input) + ".";
  } else {
    assessment.sentence =
        shown + " is not enough to condemn it: a part that works at these volts may well go on.";
  }
  return assessment;
}

Assessment assess_dc_resistance(const RatioSetting& setting, Assessment assessment) {
  const ReadingInput& input = setting.input;
  const double value = setting.reading.value;
  const bool path_known =
      input.in_circuit && (input.across == Across::winding || input.across == Across::low_resistor);
  const std::string shown = format(quantities::ohms(value));
  assessment.over_probability = normal_below(std::log(shorted_below_ohm / value) /
                                             std::hypot(setting.reading.log_spread, 0.1));
  RatioFigures figures;
  figures.past_printed = value < cleared_above_ohm;
  weigh(setting, {1.0, input.in_circuit ? 1.0 : 0.0, parallel_ohms(input)}, figures, assessment);
  assessment.verdict = Verdict::not_proven;
  if (value >= cleared_above_ohm) {
    assessment.verdict = Verdict::within_limit;
    assessment.sentence = shown +
                          ": it is not shorted. Leakage at working voltage is another "
                          "matter.";
  } else if (value >= shorted_below_ohm) {
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
  return assessment;
}

}  // namespace dryout::readings
