#include "casework/play_equipment.h"

#include "casework/case_bench.h"

namespace dryout::casework {

quantities::Result<planning::SimulationReport> play_equipment(
    GroundCache& grounds, const std::string& equipment, std::int64_t now, planning::Habit habit,
    planning::SimulationSettings settings) {
  const auto set = untouched_set(grounds, equipment, now);
  if (!set) {
    return set.problems();
  }
  const auto& findings = set->ground->compiled.findings;
  for (std::size_t f = 0; f < findings.size(); ++f) {
    if (!findings[f].symptom.empty()) {
      settings.symptoms.push_back(set->evidence.network.of(KnownFinding(f)).value());
    }
  }
  return planning::simulate(set->evidence.network.plain(), set->bench, habit, settings);
}

}  // namespace dryout::casework
