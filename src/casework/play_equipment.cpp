#include "casework/play_equipment.h"

#include <utility>

#include "casework/case_bench.h"
#include "casework/case_evidence.h"
#include "casework/case_state.h"

namespace dryout::casework {

quantities::Result<planning::SimulationReport> play_equipment(
    GroundCache& grounds, const std::string& equipment, std::int64_t now, planning::Habit habit,
    planning::SimulationSettings settings) {
  CaseState state;
  state.opened_at = now;
  state.intake.equipment = equipment;
  const auto ground = grounds.of(state);
  if (!ground) {
    return ground.problems();
  }
  CaseEvidence evidence = evidence_of(**ground, state);
  const CaseBench bench = bench_of(**ground, state, evidence);
  const auto& findings = (*ground)->compiled.findings;
  for (std::size_t f = 0; f < findings.size(); ++f) {
    if (!findings[f].symptom.empty()) {
      settings.symptoms.push_back(f);
    }
  }
  return planning::simulate(evidence.network, bench.bench, habit, settings);
}

}  // namespace dryout::casework
