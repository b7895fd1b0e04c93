#include "diagnosis/candidate_sweep.h"

#include <algorithm>

#include "diagnosis/step_kernel.h"

namespace dryout::diagnosis {
namespace {

/// (values, 0) side by side.
template <class Real>
std::vector<Real> pair_with_zero(const std::vector<Real>& values) {
  std::vector<Real> pair(2 * values.size(), Real{0});
  for (std::size_t k = 0; k < values.size(); ++k) {
    pair[2 * k] = values[k];
  }
  return pair;
}

/// from_kernel for `width` values an entry, lane by lane.
template <class Real>
std::vector<Real> fit_by_lane(const FoldedEvidence& folded, const Step& step,
                              std::vector<Real> met) {
  if (step.lanes() == 1) {
    return from_kernel(folded, step, std::move(met));
  }
  std::vector<Real> fit;
  const std::size_t size = met.size() / step.lanes();
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    const auto begin = met.begin() + static_cast<std::ptrdiff_t>(lane * size);
    const std::vector<Real> part = from_kernel(
        folded, step, std::vector<Real>(begin, begin + static_cast<std::ptrdiff_t>(size)));
    fit.insert(fit.end(), part.begin(), part.end());
  }
  return fit;
}

}  // namespace

template <class Real>
CandidateSweep<Real>::CandidateSweep(const ExplainedSetSweep<Real>& sweep, Index finding)
    : sweep_(sweep) {
  find_effect(sweep.folded(), sweep.plan(), finding, effect_);
  if (effect_.steps.empty()) {
    return;
  }
  showing_.reserve(effect_.steps.size());
  for (const StepEffect& step : effect_.steps) {
    showing_.push_back(prepare(step));
  }
  first_ = effect_.steps.front().step;
  end_ = effect_.steps.back().step + 1;
  before_.push_back(pair_with_zero(sweep.before(first_)));
  for (Index t = first_; t < end_; ++t) {
    step_forward(t);
  }
  const std::vector<Real>& pair = before_.back();
  const std::vector<Real>& after = sweep.after(end_);
  Shown<Real> joint{Real{0}, Real{0}};
  for (std::size_t k = 0; k < after.size(); ++k) {
    joint.no += pair[2 * k] * after[k];
    joint.yes += pair[2 * k + 1] * after[k];
  }
  by_sweep_ = {joint.no / (joint.no + joint.yes), joint.yes / (joint.no + joint.yes)};
}

template <class Real>
bool CandidateSweep<Real>::is_in_sweep(const ColdEffect<Real>& cold) const {
  return cold.cohort != none && sweep_.plan().block_of_cohort[cold.cohort] != none;
}

template <class Real>
Shown<Real> CandidateSweep<Real>::by_rest(Index except) const {
  Shown<Real> shown = effect_.leak;
  for (Index c = 0; c < effect_.cold.size(); ++c) {
    const ColdEffect<Real>& cold = effect_.cold[c];
    if (c == except || is_in_sweep(cold)) {
      continue;
    }
    if (cold.cohort == none) {
      shown = either(shown, cold.at_level.front());
      continue;
    }
    Shown<Real> joint{Real{0}, Real{0}};
    for (std::size_t level = 0; level < cold.at_level.size(); ++level) {
      const auto weight = static_cast<Real>(sweep_.folded().level_weight[cold.cohort][level]);
      joint.no += weight * cold.at_level[level].no;
      joint.yes += weight * cold.at_level[level].yes;
    }
    const Real sum = joint.no + joint.yes;
    shown = either(shown, {joint.no / sum, joint.yes / sum});
  }
  return shown;
}

template <class Real>
Shown<Real> CandidateSweep<Real>::chance() const {
  return either(by_rest(), by_sweep_);
}

template <class Real>
Shown<Real> CandidateSweep<Real>::shown_by_cold(const StepEffect& effect, Index level) const {
  return effect.cold == none ? Shown<Real>{} : effect_.cold[effect.cold].at_level[level];
}

/// Tables of the step with the candidate's bit, and its kernel in two parts.
template <class Real>
typename CandidateSweep<Real>::ShowingStep CandidateSweep<Real>::prepare(
    const StepEffect& effect) const {
  const Step& step = sweep_.plan().steps[effect.step];
  const auto& result = sweep_.step(effect.step);
  ShowingStep showing;
  showing.effect = &effect;
  if (showing.has_bit()) {
    showing.own = tabulate<Real>(sweep_.folded(), sweep_.plan(), step, &effect.hot);
  }
  const Index levels = result.tables.levels;
  const Index size = result.tables.size;
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    std::vector<Real> pair(2 * static_cast<std::size_t>(size), Real{0});
    const bool carried = step.lanes() == levels;
    for (Index level = carried ? lane : 0; level < (carried ? lane + 1 : levels); ++level) {
      const Shown<Real> cold = shown_by_cold(effect, level);
      for (Index s = 0; s < size; ++s) {
        const Real not_shown = showing.has_bit() ? showing.own.total_at(level)[2 * s]
                                                 : result.tables.total_at(level)[s];
        const Real shown = showing.has_bit() ? showing.own.total_at(level)[2 * s + 1] : Real{0};
        pair[2 * s] += result.scale * cold.no * not_shown;
        pair[2 * s + 1] += result.scale * (cold.no * shown + cold.yes * (not_shown + shown));
      }
    }
    const std::vector<Real> kernel = to_kernel(sweep_.folded(), step, std::move(pair), 2);
    showing.kernel.insert(showing.kernel.end(), kernel.begin(), kernel.end());
  }
  return showing;
}

template <class Real>
const typename CandidateSweep<Real>::ShowingStep* CandidateSweep<Real>::showing(Index t) const {
  for (const ShowingStep& step : showing_) {
    if (step.effect->step == t) {
      return &step;
    }
  }
  return nullptr;
}

template <class Real>
void CandidateSweep<Real>::step_forward(Index t) {
  const Step& step = sweep_.plan().steps[t];
  const std::vector<Real>& pair = before_.back();
  std::vector<Real> next(2 * static_cast<std::size_t>(step.size_out()), Real{0});
  if (const ShowingStep* const s = showing(t); s != nullptr) {
    const std::size_t entries = step.from.size();
    for_each_product(step, [&](Index lane, Index entry, Index in, Index out) {
      const Real* const kernel = &s->kernel[2 * (lane * entries + entry)];
      next[2 * out] += kernel[0] * pair[2 * in];
      next[2 * out + 1] += (kernel[0] + kernel[1]) * pair[2 * in + 1] + kernel[1] * pair[2 * in];
    });
  } else {
    apply(step, Way::forward, sweep_.step(t).forward, pair.data(), next.data(), 2);
  }
  before_.push_back(std::move(next));
}

template <class Real>
void CandidateSweep<Real>::step_backward(Index t) {
  const Step& step = sweep_.plan().steps[t];
  const std::vector<Real>& pair = after_.back();
  std::vector<Real> next(2 * static_cast<std::size_t>(step.size_in()), Real{0});
  if (const ShowingStep* const s = showing(t); s != nullptr) {
    const std::size_t entries = step.from.size();
    const std::vector<Real>& anyway = sweep_.after(t + 1);
    for_each_product(step, [&](Index lane, Index entry, Index in, Index out) {
      const Real* const kernel = &s->kernel[2 * (lane * entries + entry)];
      next[2 * in] += kernel[0] * pair[2 * out];
      next[2 * in + 1] += kernel[0] * pair[2 * out + 1] + kernel[1] * anyway[out];
    });
  } else {
    apply(step, Way::backward, sweep_.step(t).backward, pair.data(), next.data(), 2);
  }
  after_.push_back(std::move(next));
}

template <class Real>
void CandidateSweep<Real>::extend() {
  if (effect_.steps.empty()) {
    return;
  }
  moved_begin_ = sweep_.plan().piece_begin[first_];
  moved_end_ = sweep_.plan().piece_end[end_ - 1];
  for (Index t = end_; t + 1 < moved_end_; ++t) {
    step_forward(t);
  }
  after_.push_back(pair_with_zero(sweep_.after(end_)));
  for (Index t = end_; t-- > moved_begin_ + 1;) {
    step_backward(t);
  }
}

/// [lane][local state][width]: width 2 (absent, present), or 3 with `anyway` where the step can
/// show the candidate.
template <class Real>
std::vector<Real> CandidateSweep<Real>::fit(Index t) const {
  const FoldedEvidence& folded = sweep_.folded();
  const Step& step = sweep_.plan().steps[t];
  if (t < first_) {
    return fit_by_lane(folded, step,
                       meet_pair_after(step, sweep_.before(t).data(), pair_after(t + 1).data()));
  }
  if (t >= end_) {
    return fit_by_lane(folded, step,
                       meet_pair_before(step, pair_before(t).data(), sweep_.after(t + 1).data()));
  }
  const std::size_t width = showing(t) == nullptr ? 2 : 3;
  const std::size_t entries = step.from.size();
  const std::vector<Real>& f = pair_before(t);
  const std::vector<Real>& b = pair_after(t + 1);
  const std::vector<Real>& anyway = sweep_.after(t + 1);
  std::vector<Real> met(step.lanes() * entries * width, Real{0});
  for_each_product(step, [&](Index lane, Index entry, Index in, Index out) {
    Real* const sum = &met[(lane * entries + entry) * width];
    sum[0] += f[2 * in] * b[2 * out];
    sum[1] += f[2 * in] * b[2 * out + 1] + f[2 * in + 1] * anyway[out];
    if (width == 3) {
      sum[2] += (f[2 * in] + f[2 * in + 1]) * anyway[out];
    }
  });
  return fit_by_lane(folded, step, std::move(met));
}

/// One level's values met with the fit of a showing step.
template <class Real>
Outcomes<Real> CandidateSweep<Real>::read(const ShowingStep& step, const Real* values,
                                          const Real* fit) const {
  const Index size = sweep_.step(step.effect->step).tables.size;
  Outcomes<Real> sum;
  for (Index s = 0; s < size; ++s) {
    const Real not_shown = step.has_bit() ? values[2 * s] : values[s];
    const Real shown = step.has_bit() ? values[2 * s + 1] : Real{0};
    sum.absent += not_shown * fit[3 * s];
    sum.present += not_shown * fit[3 * s + 1] + shown * fit[3 * s + 2];
    sum.anyway += (not_shown + shown) * fit[3 * s + 2];
  }
  return sum;
}

template <class Real>
Outcomes<Real> CandidateSweep<Real>::row(Index t, Index row, const std::vector<Real>& fit) const {
  const auto& result = sweep_.step(t);
  const ShowingStep* const step = showing(t);
  Outcomes<Real> sum;
  if (step == nullptr) {
    const std::size_t length = fit.size() / 2;
    const Real* const values = &result.rows[row * length];
    for (std::size_t k = 0; k < length; ++k) {
      sum.absent += values[k] * fit[2 * k];
      sum.present += values[k] * fit[2 * k + 1];
    }
    return sum;
  }
  const StepTables<Real>& tables = step->has_bit() ? step->own : result.tables;
  const bool carried = sweep_.plan().steps[t].lanes() > 1;
  for (Index level = 0; level < tables.levels; ++level) {
    const Real* const lane_fit = &fit[carried ? 3 * level * result.tables.size : 0];
    const Outcomes<Real> at_level = read(*step, tables.row_at(row, level), lane_fit);
    const Shown<Real> cold = shown_by_cold(*step->effect, level);
    sum.absent += cold.no * at_level.absent;
    sum.present += cold.no * at_level.present + cold.yes * at_level.anyway;
  }
  return sum;
}

template <class Real>
Outcomes<Real> CandidateSweep<Real>::level(Index t, Index level,
                                           const std::vector<Real>& fit) const {
  const auto& result = sweep_.step(t);
  const ShowingStep* const step = showing(t);
  const bool carried = sweep_.plan().steps[t].lanes() > 1;
  const Index size = result.tables.size;
  if (step != nullptr) {
    const StepTables<Real>& tables = step->has_bit() ? step->own : result.tables;
    return read(*step, tables.total_at(level), &fit[carried ? 3 * level * size : 0]);
  }
  const Real* const values = result.tables.total_at(level);
  const Real* const lane_fit = &fit[carried ? 2 * level * size : 0];
  Outcomes<Real> sum;
  for (Index s = 0; s < size; ++s) {
    sum.absent += values[s] * lane_fit[2 * s];
    sum.present += values[s] * lane_fit[2 * s + 1];
  }
  return sum;
}

template class CandidateSweep<double>;
template class CandidateSweep<long double>;

}  // namespace dryout::diagnosis
