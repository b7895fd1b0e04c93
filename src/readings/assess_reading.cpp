#include "readings/assess_reading.h"

#include <algorithm>
#include <cmath>

#include "quantities/printed_number.h"
#include "readings/above_rating.h"
#include "readings/assess_over_range.h"
#include "readings/assess_ratio.h"
#include "readings/assess_resistance.h"

namespace dryout::readings {

using quantities::Problem;
using quantities::Problems;
using quantities::Result;

namespace {

constexpr double largest_figure = 1e15;
constexpr double finest_ohm = 0.2e-3;  // of a hand-held four-wire meter

// A leak or a coil across it makes a bridge show tens of times the mark; a thousand is a lost
// prefix.
constexpr double no_bridge_times = 1000.0;

/// "4.7u": how such a value is typed.
std::string example_near(quantities::Farad mark) {
  constexpr double nano = 1e-9;
  constexpr double micro = 1e-6;
  const double c = mark.si();
  return c >= micro  ? quantities::significant_figures(c / micro, 3) + "u"
         : c >= nano ? quantities::significant_figures(c / nano, 3) + "n"
                     : quantities::significant_figures(c / 1e-12, 3) + "p";
}

bool is_plausible(double figure) {
  return std::isfinite(figure) && figure > 0.0 && figure < largest_figure;
}

void require_plausible(double figure, const char* what, Problems& problems) {
  if (!is_plausible(figure)) {
    problems.push_back({std::string(what) + " is not a figure that can be read",
                        {},
                        std::isfinite(figure) ? std::to_string(figure) : "not a number",
                        "above 0"});
  }
}

Problems faults_of(const ReadingInput& input, const Priors& priors) {
  Problems problems;
  // A meter may well show nothing: of a short, of a part without leakage, of a dead rail.
  if (!input.over_range && input.value != 0.0) {
    require_plausible(input.value, "the reading", problems);
  }
  if (input.test_volts) {
    require_plausible(input.test_volts->si(), "the test voltage", problems);
  }
  if (input.limit) {
    require_plausible(*input.limit, "the limit", problems);
  }
  if (input.capacitance) {
    require_plausible(input.capacitance->si(), "the capacitance", problems);
  }
  if (input.kind == Kind::capacitance && !input.over_range && input.mark_known &&
      input.capacitance && input.value > no_bridge_times * input.capacitance->si()) {
    const quantities::Farad mark = *input.capacitance;
    problems.push_back(
        {"the reading is " + quantities::whole_number(input.value / mark.si()) +
             " times the mark: a prefix is missing or wrong",
         {},
         format(quantities::Farad(input.value)) + " on a part marked " + format(mark),
         "at most " + quantities::whole_number(no_bridge_times) +
             " times the mark, written with its prefix: " + example_near(mark)});
  }
  if (input.rated) {
    require_plausible(input.rated->si(), "the rated voltage", problems);
  }
  require_plausible(input.frequency.si(), "the frequency", problems);
  for (const double brother : input.brothers) {
    require_plausible(brother, "a brother's reading", problems);
  }
  if (input.netlist && !input.netlist->point.target) {
    problems.push_back({"the netlist names no target",
                        {},
                        "no \"target\"",
                        "the id of the capacitor that was measured"});
  }
  if (priors.states.empty() || priors.levels.empty()) {
    problems.push_back({"nothing is known of how this technology fails",
                        {},
                        input.technology,
                        "a technology of the knowledge base"});
  }
  return problems;
}

/// The meter as given, or a usual one for the kind: handheld, one standard deviation.
Meter meter_of(const ReadingInput& input) {
  if (input.meter) {
    return *input.meter;
  }
  Meter meter;
  meter.frequency = input.frequency;
  const bool direct_current = input.kind == Kind::dc_volts || input.kind == Kind::dc_resistance ||
                              input.kind == Kind::leakage_current || input.kind == Kind::insulation;
  meter.accuracy = direct_current ? 0.02 : 0.05;
  if (input.value > 0.0) {
    // What it showed tells how finely it shows: 7 milliohms are not read on a meter good to 20.
    meter.floor = std::clamp(shown_finely * input.value, finest_ohm, meter.floor);
  }
  return meter;
}

CaveatFacts facts_of(const ReadingInput& input, const Assessment& assessment, const Meter& meter) {
  CaveatFacts facts;
  facts.kind = input.kind;
  facts.across = input.across;
  facts.body = input.body;
  facts.technology = input.technology;
  facts.verdict = assessment.verdict;
  if (assessment.limit) {
    facts.limit_source = assessment.limit->source;
  }
  facts.in_circuit = input.in_circuit;
  const auto zero = input.lead_zero ? input.lead_zero : meter.lead_zero;
  if (zero) {
    facts.lead_zero_ohm = zero->si();
  }
  facts.value = input.value;
  facts.temperature_C = input.temperature.degrees();
  if (input.capacitance) {
    facts.capacitance_F = input.capacitance->si();
  }
  if (input.rated) {
    facts.rated_V = input.rated->si();
  }
  facts.frequency_Hz = input.frequency.si();
  if (meter.test_volts) {
    facts.test_volts = meter.test_volts->si();
  }
  facts.brothers = static_cast<int>(input.brothers.size() + input.brothers_uncompared);
  return facts;
}

}  // namespace

namespace {

/// A negative rail is read as its size; a sign against what should be there is no size at all.
Result<ReadingInput> without_sign(ReadingInput input) {
  if (input.kind != Kind::dc_volts || input.over_range || !input.limit) {
    return input;
  }
  if (input.value < 0.0 && *input.limit < 0.0) {
    input.value = -input.value;
    input.limit = -*input.limit;
  } else if (input.value != 0.0 && (input.value < 0.0) != (*input.limit < 0.0)) {
    return Problem{
        "the reading has the other sign than what should be there: the leads are swapped, "
        "or the rail is reversed, and electrolytics on a reversed rail can burst",
        {},
        format(quantities::Volt(input.value)) + " where " + format(quantities::Volt(*input.limit)) +
            " should be",
        "both with one sign, once the leads are the right way round"};
  }
  return input;
}

}  // namespace

Result<Assessment> assess_reading(const ReadingInput& as_given, const Priors& priors,
                                  const ReadingKnowledge& knowledge) {
  const auto signless = without_sign(as_given);
  if (!signless) {
    return signless.problems();
  }
  const ReadingInput& input = *signless;
  if (const Problems problems = faults_of(input, priors); !problems.empty()) {
    return problems;
  }
  const Meter meter = meter_of(input);
  const bool resistance = input.kind == Kind::esr || input.kind == Kind::impedance;
  auto assessment = input.over_range ? Result<Assessment>(assess_over_range(input, priors))
                    : resistance     ? assess_resistance(input, priors, knowledge.limits, meter)
                                     : assess_ratio(input, priors, knowledge.limits, meter);
  if (!assessment) {
    return assessment;
  }
  heed_rating(input, *assessment);
  for (const Caveat* caveat : caveats_on(knowledge.caveats, facts_of(input, *assessment, meter))) {
    assessment->caveats.push_back({caveat->id, caveat->title, caveat->effect, caveat->because});
  }
  return assessment;
}

Result<ReadingKnowledge> load_reading_knowledge(const std::vector<std::string>& directories) {
  auto limits = load_limits(directories);
  auto caveats = load_caveats(directories);
  auto meters = load_meters(directories);
  if (limits && caveats && meters) {
    return ReadingKnowledge{std::move(*limits), std::move(*caveats), std::move(*meters)};
  }
  Problems problems;
  if (!limits) {
    problems = limits.problems();
  }
  if (!caveats) {
    problems.insert(problems.end(), caveats.problems().begin(), caveats.problems().end());
  }
  if (!meters) {
    problems.insert(problems.end(), meters.problems().begin(), meters.problems().end());
  }
  return problems;
}

}  // namespace dryout::readings
