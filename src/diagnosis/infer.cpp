#include "diagnosis/candidate_sweep.h"
#include "diagnosis/inference.h"

namespace dryout::diagnosis {
namespace {

/// P(present | evidence) of a soft finding that at most one item can explain.
double private_present(const FoldedEvidence& folded, Index finding, const Posterior& posterior) {
  const Observed& observed = folded.observed[finding];
  const auto present_given = [&observed](const Shown<long double>& shown) {
    const long double present = observed.if_present * shown.yes;
    return static_cast<double>(present / (observed.if_absent * shown.no + present));
  };
  const Shown<long double> leak{1.0L - observed.leak, observed.leak};
  if (observed.only_item == none) {
    return present_given(leak);
  }
  ItemStrengths strengths{observed.only_item, {}};
  for (const Cause& cause : folded.network->findings[finding].causes) {
    if (cause.item == observed.only_item) {
      strengths.states.push_back({static_cast<Index>(cause.state), cause.strength});
    }
  }
  const std::vector<double>& states = posterior.items[observed.only_item];
  double sum = 0.0;
  for (Index state = 0; state < states.size(); ++state) {
    if (states[state] > 0.0) {
      sum += states[state] * present_given(either(leak, shown_by<long double>(strengths, state)));
    }
  }
  return sum;
}

template <class Real>
double finding_present(const ExplainedSetSweep<Real>& sweep, Index finding,
                       const Posterior& posterior, bool with_findings) {
  const Observed& observed = sweep.folded().observed[finding];
  if (observed.if_absent == 0.0L || observed.if_present == 0.0L) {
    return observed.if_absent == 0.0L ? 1.0 : 0.0;
  }
  if (observed.shared != none) {
    return static_cast<double>(sweep.present(observed.shared));
  }
  if (observed.informative()) {
    return private_present(sweep.folded(), finding, posterior);
  }
  return with_findings ? static_cast<double>(chance_of(sweep, finding).yes) : 0.0;
}

}  // namespace

template <class Real>
Posterior posterior_of(const ExplainedSetSweep<Real>& sweep, const Marginals<Real>& marginals,
                       bool with_findings) {
  const Network& network = *sweep.folded().network;
  Posterior posterior;
  posterior.log_evidence = sweep.log_evidence();
  posterior.items.resize(network.items.size());
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    std::vector<double>& states = posterior.items[i];
    states.resize(network.items[i].states.size());
    normalise_to(&marginals.state[marginals.first_state[i]], states.size(), states.data());
  }
  for (const std::vector<Real>& levels : marginals.level) {
    std::vector<double>& cohort = posterior.cohorts.emplace_back(levels.size());
    normalise_to(levels.data(), levels.size(), cohort.data());
  }
  posterior.findings.resize(network.findings.size());
  for (Index f = 0; f < network.findings.size(); ++f) {
    posterior.findings[f] = finding_present(sweep, f, posterior, with_findings);
  }
  return posterior;
}

template Posterior posterior_of(const ExplainedSetSweep<double>&, const Marginals<double>&, bool);
template Posterior posterior_of(const ExplainedSetSweep<long double>&,
                                const Marginals<long double>&, bool);

quantities::Problem out_of_range() {
  return {"the evidence is so improbable that no exact answer can be given",
          {},
          "weights that span more than 4000 decades",
          "evidence of more than 1e-4000 of the best explanation's weight"};
}

quantities::Result<Posterior> infer(const Network& network, const Evidence& evidence) {
  return with_sweep<Posterior>(network, evidence, [](const auto& sweep) {
    return posterior_of(sweep, find_marginals(sweep), true);
  });
}

}  // namespace dryout::diagnosis
