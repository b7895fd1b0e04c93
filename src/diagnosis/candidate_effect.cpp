#include "diagnosis/candidate_effect.h"

#include <algorithm>

namespace dryout::diagnosis {
namespace {

std::vector<ItemStrengths> by_item(const Finding& finding) {
  std::vector<Cause> causes;
  std::copy_if(finding.causes.begin(), finding.causes.end(), std::back_inserter(causes),
               [](const Cause& cause) { return cause.strength > 0.0; });
  std::stable_sort(causes.begin(), causes.end(),
                   [](const Cause& a, const Cause& b) { return a.item < b.item; });
  std::vector<ItemStrengths> items;
  for (const Cause& cause : causes) {
    const auto item = static_cast<Index>(cause.item);
    if (items.empty() || items.back().item != item) {
      items.push_back({item, {}});
    }
    items.back().states.push_back({static_cast<Index>(cause.state), cause.strength});
  }
  return items;
}

StepEffect& effect_on_step(std::vector<StepEffect>& steps, Index step) {
  const auto at = std::find_if(steps.begin(), steps.end(),
                               [step](const StepEffect& effect) { return effect.step == step; });
  if (at != steps.end()) {
    return *at;
  }
  steps.push_back({step, {}, none});
  return steps.back();
}

template <class Real>
void add_cold(const FoldedEvidence& folded, ItemStrengths item,
              std::vector<ColdEffect<Real>>& cold) {
  const auto& cohort = folded.network->items[item.item].cohort;
  if (cohort) {
    for (ColdEffect<Real>& effect : cold) {
      if (effect.cohort == *cohort) {
        effect.items.push_back(std::move(item));
        return;
      }
    }
  }
  ColdEffect<Real> effect;
  effect.cohort = cohort ? static_cast<Index>(*cohort) : none;
  effect.items.push_back(std::move(item));
  cold.push_back(std::move(effect));
}

template <class Real>
void find_cold_chances(const FoldedEvidence& folded, ColdEffect<Real>& effect) {
  const Index levels = folded.levels(effect.items.front().item);
  for (Index level = 0; level < levels; ++level) {
    Shown<Real> shown;
    for (const ItemStrengths& item : effect.items) {
      shown = either(shown, shown_by_item<Real>(folded, item, level));
    }
    effect.at_level.push_back(shown);
  }
}

}  // namespace

template <class Real>
Shown<Real> shown_by(const ItemStrengths& item, Index state) {
  Shown<Real> shown;
  for (const StateStrength& cause : item.states) {
    if (cause.state == state) {
      const auto strength = static_cast<Real>(cause.strength);
      shown = either(shown, {Real{1} - strength, strength});
    }
  }
  return shown;
}

template <class Real>
Shown<Real> shown_by_item(const FoldedEvidence& folded, const ItemStrengths& item, Index level) {
  const long double total = folded.total[folded.first_total[item.item] + level];
  if (total == 0.0L) {
    return {};
  }
  Shown<Real> by_item{Real{0}, Real{0}};
  for (Index state = 0; state < folded.states(item.item); ++state) {
    const auto chance = static_cast<Real>(folded.weights(item.item, level)[state] / total);
    const Shown<Real> by_state = shown_by<Real>(item, state);
    by_item.no += chance * by_state.no;
    by_item.yes += chance * by_state.yes;
  }
  return by_item;
}

template <class Real>
void find_effect(const FoldedEvidence& folded, const SweepPlan& plan, Index finding,
                 CandidateEffect<Real>& effect) {
  const Finding& candidate = folded.network->findings[finding];
  effect.leak = {static_cast<Real>(1.0L - candidate.leak), static_cast<Real>(candidate.leak)};
  for (ItemStrengths& item : by_item(candidate)) {
    if (folded.is_hot(item.item)) {
      effect.hot.push_back(std::move(item));
    } else {
      add_cold(folded, std::move(item), effect.cold);
    }
  }
  for (const ItemStrengths& item : effect.hot) {
    effect_on_step(effect.steps, plan.step_of_item[item.item]).hot.push_back(&item);
  }
  for (Index c = 0; c < effect.cold.size(); ++c) {
    find_cold_chances(folded, effect.cold[c]);
    const Index cohort = effect.cold[c].cohort;
    if (cohort != none && plan.block_of_cohort[cohort] != none) {
      const Index step = plan.blocks[plan.block_of_cohort[cohort]].first_step;
      effect_on_step(effect.steps, step).cold = c;
    }
  }
  std::sort(effect.steps.begin(), effect.steps.end(),
            [](const StepEffect& a, const StepEffect& b) { return a.step < b.step; });
}

template Shown<double> shown_by(const ItemStrengths&, Index);
template Shown<long double> shown_by(const ItemStrengths&, Index);
template Shown<double> shown_by_item(const FoldedEvidence&, const ItemStrengths&, Index);
template Shown<long double> shown_by_item(const FoldedEvidence&, const ItemStrengths&, Index);
template void find_effect(const FoldedEvidence&, const SweepPlan&, Index, CandidateEffect<double>&);
template void find_effect(const FoldedEvidence&, const SweepPlan&, Index,
                          CandidateEffect<long double>&);

}  // namespace dryout::diagnosis
