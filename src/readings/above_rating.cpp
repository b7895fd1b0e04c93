#include "readings/above_rating.h"

namespace dryout::readings {
namespace {

constexpr double rounding_of_supplies = 1.05;
/// Rated in alternating volts and tried with 500 d.c. (common practice, no source).
constexpr double mains_part_times = 2.0;

double most_of(const ReadingInput& input) {
  return input.technology == "mains-film" ? mains_part_times : rounding_of_supplies;
}

bool accuses(const Assessment& assessment) {
  return assessment.verdict == Verdict::over_limit ||
         assessment.verdict == Verdict::suspect_short ||
         assessment.after.front() < assessment.before.front();
}

}  // namespace

namespace {

// Solid tantalum on a stiff rail: half its rating or less (KEMET Engineering Center, how much do
// you derate tantalum capacitors, section on MnO2 types).
constexpr double tantalum_share = 0.5;

std::string what_it_can_do(const ReadingInput& input) {
  return has_dry_dielectric(input.technology)
             ? "Its dielectric can break down. "
             : "Electrolytic and tantalum parts above their rating can burst or catch fire. ";
}

std::string rated_told(const ReadingInput& input) {
  return format(*input.rated) +
         (input.mark_known ? " that it is rated for. " : " that is usual in such a place. ");
}

/// Volts that stand at the part in its set: the rail's own, with nobody's test to take off.
void heed_rail(const ReadingInput& input, Assessment& assessment) {
  const quantities::Volt rail(input.value);
  if (input.value > most_of(input) * input.rated->si()) {
    assessment.likelihood.assign(assessment.likelihood.size(),
                                 std::vector<double>(assessment.states.size(), 1.0));
    assessment.after = assessment.before;
    assessment.verdict = Verdict::not_proven;
    assessment.sentence =
        "STOP: " + format(rail) + " is above the " + rated_told(input) + what_it_can_do(input) +
        (assessment.limit && input.value <= *input.limit * rounding_of_supplies
             ? "If the rail is meant to stand there, a part of too low a rating sits on it."
             : "The rail stands too high, or a part of too low a rating sits on it.");
    assessment.advice.insert(assessment.advice.begin(),
                             "Stop: switch off, keep clear until it has cooled, discharge it; then "
                             "find out which of the "
                             "two is wrong. A part that stood above its rating is replaced.");
    return;
  }
  if (input.technology == "solid-tantalum" && input.value > tantalum_share * input.rated->si()) {
    assessment.sentence += " The rail takes a solid tantalum part above half of the " +
                           format(*input.rated) +
                           " that it is rated for: on a stiff rail such parts break down early, so "
                           "the next one is rated for twice the rail.";
  }
}

}  // namespace

void heed_rating(const ReadingInput& input, Assessment& assessment) {
  if (input.kind == Kind::dc_volts && input.rated && !input.over_range) {
    heed_rail(input, assessment);
    return;
  }
  if (!input.test_volts || !input.rated ||
      input.test_volts->si() <= most_of(input) * input.rated->si()) {
    return;
  }
  const std::string warning = "STOP: " + format(*input.test_volts) + " is above the " +
                              rated_told(input) + what_it_can_do(input);
  if (accuses(assessment)) {
    for (std::vector<double>& row : assessment.likelihood) {
      row.assign(row.size(), 1.0);
    }
    assessment.after = assessment.before;
    assessment.verdict = Verdict::not_proven;
    assessment.over_probability = 0.5;
    assessment.advice.clear();
    assessment.sentence = "What was read there proves nothing against the part.";
  }
  assessment.sentence = warning + assessment.sentence;
  assessment.advice.insert(
      assessment.advice.begin(),
      "Stop: take the volts off, keep clear until it has cooled, discharge it, and read again at "
      "no more than " +
          format(*input.rated) + ".");
}

}  // namespace dryout::readings
