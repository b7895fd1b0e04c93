// Folds, plans and sweeps, in double precision where that is safe and in extended range where it
// is not. The ground that posterior, outlook and weights stand on.
#pragma once

#include "diagnosis/explained_set_sweep.h"
#include "diagnosis/marginals.h"
#include "diagnosis/posterior.h"

namespace dryout::diagnosis {

/// "hum present", "hum absent", "hum observed", "reading of C1": all pieces of the evidence in the
/// order present, absent, soft, readings.
[[nodiscard]] std::vector<std::string> piece_labels(const Network& network,
                                                    const Evidence& evidence);
/// The pieces of the evidence for which keep[piece] holds.
[[nodiscard]] Evidence selection(const Evidence& evidence, const std::vector<bool>& keep);

/// Names a smallest contradictory set.
[[nodiscard]] quantities::Problem contradiction(const Network& network, const Evidence& evidence);
[[nodiscard]] quantities::Problem out_of_range();

/// Posterior from a finished sweep. P(present) of findings without evidence is worked out only
/// `with_findings`; it is left at 0 otherwise.
template <class Real>
[[nodiscard]] Posterior posterior_of(const ExplainedSetSweep<Real>& sweep,
                                     const Marginals<Real>& marginals, bool with_findings);

/// Calls use(sweep) with a sweep that can be trusted and returns what it returns; a Problem where
/// the evidence is impossible or too closely tied.
template <class Answer, class Use>
[[nodiscard]] quantities::Result<Answer> with_sweep(const Network& network,
                                                    const Evidence& evidence, const Use& use) {
  const FoldedEvidence folded = fold_evidence(network, evidence);
  if (!folded.possible) {
    return contradiction(network, evidence);
  }
  const quantities::Result<SweepPlan> plan = plan_sweep(folded);
  if (!plan) {
    return plan.problems();
  }
  {
    const ExplainedSetSweep<double> sweep(folded, *plan);
    if (sweep.in_range() && !sweep.impossible()) {
      return use(sweep);
    }
  }
  const ExplainedSetSweep<long double> sweep(folded, *plan);
  if (sweep.impossible()) {
    return contradiction(network, evidence);
  }
  return sweep.in_range() ? use(sweep) : quantities::Result<Answer>(out_of_range());
}

}  // namespace dryout::diagnosis
