// OL on the display: an answer where no end of ohms is one, and no reading elsewhere.
#include "readings/assess_over_range.h"

#include <algorithm>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "readings/assess_resistance.h"
#include "readings/leakage_allowance.h"
#include "readings/verdict.h"

namespace dryout::readings {
namespace {

// P(OL | state) of an ESR tester whose range ends at some tens of ohms, after a second touch
// (judged): a good part shows OL only where the tips do not touch it.
struct Chance {
  double sound, open, dried, others;
};
constexpr Chance esr_chance{0.0005, 0.98, 0.20, 0.005};
constexpr double esr_range_ohm = 20.0;       // what the shortest ranges still show
constexpr double small_reactance_ohm = 5.0;  // above, a tester may well show OL of a sound part

void weigh_by(const Chance& chance, const Priors& priors, Assessment& assessment) {
  for (std::vector<double>& row : assessment.likelihood) {
    for (std::size_t s = 0; s < row.size(); ++s) {
      const std::string& state = priors.states[s];
      row[s] = state == "sound"   ? chance.sound
               : state == "open"  ? chance.open
               : state == "dried" ? chance.dried
                                  : chance.others;
    }
  }
  assessment.after = posterior_of(priors, assessment.likelihood);
}

std::string at_test_volts(const ReadingInput& input) {
  return input.test_volts ? " at " + format(*input.test_volts) : std::string();
}

/// What an ohmmeter or an insulation tester would show beside the part.
bool conducts_direct_current(const ReadingInput& input) {
  return input.in_circuit && !input.netlist &&
         (input.across == Across::low_resistor || input.across == Across::winding ||
          input.across == Across::regulator);
}

/// What an ESR tester would show beside an open part: a path within its range.
bool shows_beside(const ReadingInput& input) {
  if (!input.in_circuit) {
    return false;
  }
  if (!input.netlist) {
    return input.across == Across::low_resistor || input.across == Across::ceramic ||
           input.across == Across::electrolytic;
  }
  const circuit::ProbePoint& point = input.netlist->point;
  const auto sweep = sweep_resistance(input.netlist->netlist, input.frequency, point.probe,
                                      point.target.value_or(0));
  const auto open =
      sweep ? sweep->reading_if_open(input.kind == Kind::esr ? circuit::MeterShows::resistance
                                                             : circuit::MeterShows::impedance)
            : std::optional<double>();
  return open && *open < esr_range_ohm;
}

/// Open or not, the part has a path beside it that the meter would show.
Assessment tips_miss(const ReadingInput& input, Assessment assessment) {
  assessment.verdict = Verdict::no_reading;
  assessment.sentence = "OL proves nothing here: " +
                        (input.netlist ? "the circuit as given" : std::string(told(input.across))) +
                        " across the part would show whatever the part does, so the tips do not "
                        "touch, or that is not across it.";
  assessment.advice.emplace_back("Scrape the joints and touch again, or lift one leg.");
  return assessment;
}

Assessment open_ended_resistance(const ReadingInput& input, const Priors& priors,
                                 Assessment assessment) {
  const auto reactance = input.capacitance ? circuit::reactance(*input.capacitance, input.frequency)
                                           : quantities::Ohm();
  if (reactance.si() > small_reactance_ohm) {
    assessment.verdict = Verdict::no_reading;
    assessment.sentence = "OL is no reading of this part: its reactance alone is " +
                          format(reactance) + " at " + format(input.frequency) +
                          ", beyond what many such meters show.";
    assessment.advice.emplace_back("Measure its capacitance instead, one leg lifted.");
    return assessment;
  }
  if (shows_beside(input)) {
    return tips_miss(input, std::move(assessment));
  }
  weigh_by(esr_chance, priors, assessment);
  assessment.over_probability = 1.0 - assessment.after.front();
  if (assessment.over_probability >= convicted_from) {
    assessment.verdict = Verdict::over_limit;
    assessment.sentence =
        "OL: no path that the meter can show. If the tips touched clean metal, the part is open or "
        "dried out and is convicted.";
  } else {
    assessment.sentence =
        "OL: no path that the meter can show, or tips that do not touch. Scrape the joints and "
        "touch again; if it stays, the part is open.";
  }
  return assessment;
}

}  // namespace

Assessment assess_over_range(const ReadingInput& input, const Priors& priors) {
  Assessment assessment = blank_assessment(priors);
  switch (input.kind) {
    case Kind::esr:
    case Kind::impedance:
      return open_ended_resistance(input, priors, std::move(assessment));
    case Kind::dc_resistance:
    case Kind::insulation: {
      if (conducts_direct_current(input)) {
        return tips_miss(input, std::move(assessment));
      }
      const bool insulation = input.kind == Kind::insulation;
      if (insulation && !telling_volts(input)) {
        assessment.verdict = Verdict::not_proven;
        assessment.sentence = "OL: more than the meter can show" + at_test_volts(input) +
                              ", which does not clear it: " + too_few_volts(input) + ".";
        return assessment;
      }
      // An ohmmeter that finds no short says nothing of leakage.
      const double leaky = insulation ? 0.3 : 1.0;
      for (std::vector<double>& row : assessment.likelihood) {
        for (std::size_t s = 0; s < row.size(); ++s) {
          row[s] =
              priors.states[s] == "shorted" ? 0.001 : (priors.states[s] == "leaky" ? leaky : 1.0);
        }
      }
      assessment.after = posterior_of(priors, assessment.likelihood);
      assessment.over_probability = 0.0;
      assessment.verdict = Verdict::within_limit;
      assessment.sentence =
          input.kind == Kind::dc_resistance
              ? "OL: no direct-current path, so it is not shorted. Leakage at working voltage is "
                "another matter."
              : "OL: more than the meter can show" + at_test_volts(input) +
                    ", so its insulation holds at that voltage.";
      return assessment;
    }
    default:
      break;
  }
  assessment.verdict = Verdict::no_reading;
  assessment.sentence = input.kind == Kind::capacitance
                            ? "OL is no reading: more than this range shows, or a part that leaks "
                              "or is shorted. Take "
                              "a higher range; then measure the d.c. resistance."
                            : "OL is no reading: take a higher range and read again.";
  return assessment;
}

}  // namespace dryout::readings
