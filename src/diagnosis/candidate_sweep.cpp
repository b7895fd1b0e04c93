#include "diagnosis/candidate_sweep.h"

#include <algorithm>
#include <array>

#include "diagnosis/step_kernel.h"
#include "quantities/check.h"

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
  CHECK(step.lanes() > 0);
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

/// Between the first and the last step that shows the candidate, both sides are pairs: absent,
/// present and, with Width 3, what follows if it was shown anyway.
template <class Real, Index Width>
std::vector<Real> meet_between(const Step& step, const std::vector<Real>& before,
                               const std::vector<Real>& after, const std::vector<Real>& anyway) {
  const std::size_t entries = step.entries();
  std::vector<Real> met(step.lanes() * entries * Width, Real{0});
  const auto add = [&](Index lane, Index entry, const Real* f, Index out, Index run) {
    const Real* const b = &after[2 * out];
    const Real* const all = &anyway[out];
    std::array<Real, Width> sum{};
    for (std::size_t x = 0; x < run; ++x) {
      sum[0] += f[2 * x] * b[2 * x];
      sum[1] += f[2 * x] * b[2 * x + 1] + f[2 * x + 1] * all[x];
      if constexpr (Width == 3) {
        // cppcheck-suppress containerOutOfBounds ; it does not see that Width is 3 in here
        sum[2] += (f[2 * x] + f[2 * x + 1]) * all[x];
      }
    }
    for (Index k = 0; k < Width; ++k) {
      met[(lane * entries + entry) * Width + k] += sum[k];
    }
  };
  for_each_run(step, before.data(), 2, add);
  return met;
}

}  // namespace

template <class Real>
CandidateSweep<Real>::CandidateSweep(const ExplainedSetSweep<Real>& sweep,
                                     const CandidateEffect<Real>& effect)
    : CandidateOdds<Real>(sweep, effect) {
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
bool CandidateOdds<Real>::is_in_sweep(const ColdEffect<Real>& cold) const {
  return cold.cohort != none && sweep_.plan().block_of_cohort[cold.cohort] != none;
}

template <class Real>
Shown<Real> CandidateOdds<Real>::by_rest(Index except) const {
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
      for (std::size_t s = 0; s < size; ++s) {
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
    const auto add = [&](Index lane, Index entry, const Real* from, Index out, Index run) {
      const Real hidden = s->kernel[2 * (lane * step.entries() + entry)];
      const Real shown = s->kernel[2 * (lane * step.entries() + entry) + 1];
      const Real both = hidden + shown;
      Real* const to = &next[2 * out];
      for (std::size_t x = 0; x < std::size_t{2} * run; x += 2) {
        to[x] += hidden * from[x];
        to[x + 1] += both * from[x + 1] + shown * from[x];
      }
    };
    for_each_run(step, pair.data(), 2, add);
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
    const std::vector<Real>& anyway = sweep_.after(t + 1);
    const auto add = [&](Index lane, Index entry, Real* to, Index out, Index run) {
      const Real hidden = s->kernel[2 * (lane * step.entries() + entry)];
      const Real shown = s->kernel[2 * (lane * step.entries() + entry) + 1];
      const Real* const from = &pair[2 * out];
      const Real* const after = &anyway[out];
      for (std::size_t x = 0; x < run; ++x) {
        to[2 * x] += hidden * from[2 * x];
        to[2 * x + 1] += hidden * from[2 * x + 1] + shown * after[x];
      }
    };
    for_each_run_back(step, next.data(), 2, add);
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
                       meet_many_after(step, sweep_.before(t).data(), pair_after(t + 1).data(), 2));
  }
  if (t >= end_) {
    return fit_by_lane(
        folded, step, meet_many_before(step, pair_before(t).data(), sweep_.after(t + 1).data(), 2));
  }
  const bool shows = showing(t) != nullptr;
  return fit_by_lane(
      folded, step,
      shows ? meet_between<Real, 3>(step, pair_before(t), pair_after(t + 1), sweep_.after(t + 1))
            : meet_between<Real, 2>(step, pair_before(t), pair_after(t + 1), sweep_.after(t + 1)));
}

/// One level's values met with the fit of a showing step.
template <class Real>
Outcomes<Real> CandidateSweep<Real>::read(const ShowingStep& step, const Real* values,
                                          const Real* fit) const {
  const Index size = sweep_.step(step.effect->step).tables.size;
  Outcomes<Real> sum;
  for (std::size_t s = 0; s < size; ++s) {
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
  for (std::size_t s = 0; s < size; ++s) {
    sum.absent += values[s] * lane_fit[2 * s];
    sum.present += values[s] * lane_fit[2 * s + 1];
  }
  return sum;
}

template <class Real>
Shown<Real> chance_of(const ExplainedSetSweep<Real>& sweep, Index finding) {
  CandidateEffect<Real> effect;
  find_effect(sweep.folded(), sweep.plan(), finding, effect);
  return CandidateSweep<Real>(sweep, effect).chance();
}

template Shown<double> chance_of(const ExplainedSetSweep<double>&, Index);
template Shown<long double> chance_of(const ExplainedSetSweep<long double>&, Index);
template class CandidateOdds<double>;
template class CandidateOdds<long double>;
template class CandidateSweep<double>;
template class CandidateSweep<long double>;

}  // namespace dryout::diagnosis
