#include "readings/less_than_reactance.h"

#include "circuit/capacitor_model.h"
#include "readings/choose_limit.h"
#include "readings/likelihood.h"

namespace dryout::readings {
namespace {

// Against a sound part, both judged: only a short explains such an impedance; of the in-phase part
// a sound one may well show as little.
constexpr double impedance_of_shorts = 1e5;
constexpr double in_phase_of_shorts = 20.0;
constexpr double share_of_reactance = 0.1;

}  // namespace

bool shows_less_than_reactance(const ReadingInput& input) {
  const bool alone = !input.in_circuit || input.across == Across::nothing;
  const auto capacitance = capacitance_of(input);
  return alone && !input.netlist && capacitance &&
         input.value < share_of_reactance * circuit::reactance(*capacitance, input.frequency).si();
}

Assessment assess_less_than_reactance(const ReadingInput& input, const Priors& priors,
                                      Assessment assessment) {
  const bool whole = input.kind == Kind::impedance;
  for (std::vector<double>& row : assessment.likelihood) {
    for (std::size_t s = 0; s < row.size(); ++s) {
      row[s] = priors.states[s] != "shorted" ? 1.0
               : whole                       ? impedance_of_shorts
                                             : in_phase_of_shorts;
    }
  }
  assessment.after = posterior_of(priors, assessment.likelihood);
  assessment.verdict = Verdict::suspect_short;
  assessment.sentence =
      format(quantities::ohms(assessment.corrected_value)) + " is less than its reactance of " +
      format(circuit::reactance(*capacitance_of(input), input.frequency)) + " at " +
      format(input.frequency) +
      (whole ? ": a path round the dielectric, so it is shorted, or is not what it says. Its d.c. "
               "resistance settles that."
             : ": it is shorted, unless the tester shows the in-phase part alone, which is next to "
               "nothing in a sound one too. Its d.c. resistance decides.");
  assessment.advice.emplace_back(
      "With the set off and everything discharged, measure the d.c. resistance both ways round.");
  return assessment;
}

}  // namespace dryout::readings
