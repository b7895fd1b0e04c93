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

void heed_rating(const ReadingInput& input, Assessment& assessment) {
  if (!input.test_volts || !input.rated ||
      input.test_volts->si() <= most_of(input) * input.rated->si()) {
    return;
  }
  const bool dry = has_dry_dielectric(input.technology);
  std::string warning =
      "STOP: " + format(*input.test_volts) + " is above the " + format(*input.rated) +
      (input.mark_known ? " that it is rated for. " : " that is usual in such a place. ") +
      (dry ? "Its dielectric can break down. "
           : "Electrolytic and tantalum parts above their rating can burst or catch fire. ");
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
