// The bench of a case as the planner sees it: what can still be checked, what must be opened for
// it, what hurts, and what curing each item takes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "casework/case_evidence.h"
#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "planning/next_check.h"
#include "quantities/quantity.h"

namespace dryout::casework {

/// One run of the set after mending (judgement).
inline constexpr quantities::Second proof_run = quantities::minutes(5.0);

struct CaseBench {
  planning::Bench bench;
  std::vector<KnownFinding> findings;  ///< [check of the bench] what it looks for
};

/// May add twins of findings to the evidence's network.
[[nodiscard]] CaseBench bench_of(const Ground& ground, const CaseState& state,
                                 CaseEvidence& evidence);

/// Access steps of the equipment, with those open that are, and those behind which something is.
[[nodiscard]] planning::Bench access_of(const Ground& ground, const CaseState& state);

/// Steps still to be opened before `wanted` is, in the order to open them.
[[nodiscard]] std::vector<std::size_t> steps_to(const planning::Bench& bench,
                                                const std::vector<std::size_t>& wanted);
[[nodiscard]] quantities::Second effort_of(const planning::Bench& bench,
                                           const std::vector<std::size_t>& steps);

/// What must be open to make a check: indices into Bench::access.
[[nodiscard]] std::vector<std::size_t> access_for_check(const Ground& ground, KnownFinding finding);

/// A set of one kind of equipment as it comes in, with nothing told or done: what simulation and
/// practice draw their faults for. The ground stays valid as GroundCache says.
struct UntouchedSet {
  const Ground* ground = nullptr;
  CaseEvidence evidence;
  planning::Bench bench;
};
[[nodiscard]] quantities::Result<UntouchedSet> untouched_set(GroundCache& grounds,
                                                             const std::string& equipment,
                                                             std::int64_t now);

}  // namespace dryout::casework
