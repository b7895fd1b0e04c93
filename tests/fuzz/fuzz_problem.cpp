// Bare troubleshooting problems. A small one that is accepted is planned, and the plan costs what
// it says.
#include <cmath>

#include "fuzz/fuzz_target.h"
#include "planning/plan.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto document = documents::parse(fuzz::text_of(data, size), "fuzz");
  if (!document) {
    return 0;
  }
  const auto problem = planning::read_problem(*document);
  if (!problem) {
    fuzz::demand_reasons(problem);
    return 0;
  }
  if (problem->faults.size() > 6 || problem->checks.size() > 3 || problem->repairs.size() > 6) {
    return 0;  // planning is exercised at size elsewhere; here it would eat the run
  }
  for (const planning::Policy policy :
       {planning::Policy::ours, planning::Policy::probability_over_cost}) {
    const auto plan = planning::plan(*problem, policy);
    if (!plan) {
      fuzz::demand_reasons(plan);
      continue;
    }
    const double walked = planning::expected_minutes(*problem, *plan->first);
    fuzz::demand(std::abs(walked - plan->expected_minutes) <= 1e-9 * (1.0 + std::abs(walked)));
  }
  return 0;
}
