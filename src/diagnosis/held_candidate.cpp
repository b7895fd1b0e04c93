#include "diagnosis/held_candidate.h"

namespace dryout::diagnosis {

template <class Real>
std::optional<Held> held_for(const FoldedEvidence& folded, const CandidateEffect<Real>& effect) {
  if (effect.steps.size() != 1) {
    return std::nullopt;
  }
  const StepEffect& step = effect.steps.front();
  Held held;
  if (step.hot.size() == 1 && step.cold == none) {
    held.item = step.hot.front()->item;
  } else if (step.hot.empty() && step.cold != none) {
    held.cohort = effect.cold[step.cold].cohort;
  } else {
    return std::nullopt;
  }
  return HeldSweep<Real>::ways_of(folded, held) <= HeldSweep<Real>::ways_max ? std::optional(held)
                                                                             : std::nullopt;
}

template <class Real>
HeldCandidate<Real>::HeldCandidate(const ExplainedSetSweep<Real>& sweep,
                                   const HeldSweep<Real>& held, const CandidateEffect<Real>& effect)
    : CandidateOdds<Real>(sweep, effect),
      held_(held),
      by_cohort_(effect.steps.front().hot.empty()) {
  const StepEffect& step = effect.steps.front();
  Shown<Real> joint{Real{0}, Real{0}};
  for (Index way = 0; way < held.ways(); ++way) {
    shown_.push_back(by_cohort_ ? effect.cold[step.cold].at_level[way]
                                : shown_by<Real>(*step.hot.front(), way));
    joint.no += held.chances()[way] * shown_.back().no;
    joint.yes += held.chances()[way] * shown_.back().yes;
  }
  by_sweep_ = {joint.no / (joint.no + joint.yes), joint.yes / (joint.no + joint.yes)};
}

template <class Real>
Outcomes<Real> HeldCandidate<Real>::weigh(const Real* ways) const {
  Outcomes<Real> sum;
  for (std::size_t way = 0; way < shown_.size(); ++way) {
    sum.absent += ways[way] * shown_[way].no;
    sum.present += ways[way] * shown_[way].yes;
  }
  return sum;
}

template <class Real>
Outcomes<Real> HeldCandidate<Real>::row(Index t, Index row, NoFit) const {
  return weigh(held_.row(t, row));
}

/// Of the cohort that is held, without its own cold causes.
template <class Real>
Outcomes<Real> HeldCandidate<Real>::level(Index t, Index level, NoFit) const {
  const Real* const ways = held_.level(t, level);
  return by_cohort_ && t == held_.step() ? Outcomes<Real>{ways[level], Real{0}, ways[level]}
                                         : weigh(ways);
}

template std::optional<Held> held_for(const FoldedEvidence&, const CandidateEffect<double>&);
template std::optional<Held> held_for(const FoldedEvidence&, const CandidateEffect<long double>&);
template class HeldCandidate<double>;
template class HeldCandidate<long double>;

}  // namespace dryout::diagnosis
