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

/// Between the first and the last step that shows the candidate, both sides are pairs; they meet as
/// absent, present and, with Width 3, what follows if it was shown anyway.
template <class Real, Index Width>
void meet_pairs(const Real* before, const Real* after, const Real* anyway, Index run, Real* met) {
  std::array<Real, Width> sum{};
  for (std::size_t x = 0; x < run; ++x) {
    sum[0] += before[2 * x] * after[2 * x];
    sum[1] += before[2 * x] * after[2 * x + 1] + before[2 * x + 1] * anyway[x];
    if constexpr (Width == 3) {
      // cppcheck-suppress containerOutOfBounds ; it does not see that Width is 3 in here
      sum[2] += (before[2 * x] + before[2 * x + 1]) * anyway[x];
    }
  }
  for (Index k = 0; k < Width; ++k) {
    met[k] += sum[k];
  }
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
  after_.push_back(pair_with_zero(sweep.after(end_)));
  for (Index t = end_; t-- > first_;) {
    step_backward(t);
  }
  const std::vector<Real>& before = sweep.before(first_);
  const std::vector<Real>& pair = after_.back();
  Shown<Real> joint{Real{0}, Real{0}};
  for (std::size_t k = 0; k < before.size(); ++k) {
    joint.no += before[k] * pair[2 * k];
    joint.yes += before[k] * pair[2 * k + 1];
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
  std::vector<Real> pairs(2 * static_cast<std::size_t>(size) * step.lanes(), Real{0});
  for (Index level = 0; level < levels; ++level) {
    Real* const pair =
        &pairs[step.lanes() == levels ? 2 * static_cast<std::size_t>(level) * size : 0];
    const Shown<Real> cold = shown_by_cold(effect, level);
    for (std::size_t s = 0; s < size; ++s) {
      const Real not_shown =
          showing.has_bit() ? showing.own.total_at(level)[2 * s] : result.tables.total_at(level)[s];
      const Real shown = showing.has_bit() ? showing.own.total_at(level)[2 * s + 1] : Real{0};
      pair[2 * s] += result.scale * cold.no * not_shown;
      pair[2 * s + 1] += result.scale * (cold.no * shown + cold.yes * (not_shown + shown));
    }
  }
  showing.kernel = to_kernel(sweep_.folded(), step, std::move(pairs), 2);
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

/// A step that can show the candidate, or a wide one: carried on and met in one go, because what
/// a wide step makes of the pairs serves both. Returns the pairs after it.
template <class Real>
template <Index Width, class Kernel>
std::vector<Real> CandidateSweep<Real>::cross(Index t, const std::vector<Real>& pair,
                                              const Kernel& kernel) {
  const Step& step = sweep_.plan().steps[t];
  const std::vector<Real>& after = pair_after(t + 1);
  const std::vector<Real>& anyway = sweep_.after(t + 1);
  std::vector<Real> next(2 * static_cast<std::size_t>(step.size_out()), Real{0});
  std::vector<Real> met(std::size_t{step.lanes()} * step.entries() * Width, Real{0});
  for_each_run(
      step, pair.data(), 2, [&](Index lane, Index entry, const Real* from, Index out, Index run) {
        const std::size_t at = lane * step.entries() + entry;
        const Shown<Real> shown = kernel(at);
        const Real both = shown.no + shown.yes;
        Real* const to = &next[2 * out];
        for (std::size_t x = 0; x < std::size_t{2} * run; x += 2) {
          to[x] += shown.no * from[x];
          to[x + 1] += both * from[x + 1] + shown.yes * from[x];
        }
        meet_pairs<Real, Width>(from, &after[2 * out], &anyway[out], run, &met[at * Width]);
      });
  keep_fit(t, std::move(met));
  return next;
}

/// Between the first and the last step that can show the candidate.
template <class Real>
std::vector<Real> CandidateSweep<Real>::step_forward(Index t, const std::vector<Real>& pair) {
  const Step& step = sweep_.plan().steps[t];
  const std::vector<Real>& own = sweep_.step(t).forward;
  if (const ShowingStep* const s = showing(t); s != nullptr) {
    return cross<3>(t, pair, [s](std::size_t at) {
      return Shown<Real>{s->kernel[2 * at], s->kernel[2 * at + 1]};
    });
  }
  if (step.wide) {
    return cross<2>(t, pair, [&own](std::size_t at) { return Shown<Real>{own[at], Real{0}}; });
  }
  std::vector<Real> met(2 * static_cast<std::size_t>(step.lanes()) * step.entries(), Real{0});
  for_each_run(step, pair.data(), 2,
               [&](Index lane, Index entry, const Real* from, Index out, Index run) {
                 meet_pairs<Real, 2>(from, &pair_after(t + 1)[2 * out], &sweep_.after(t + 1)[out],
                                     run, &met[2 * (lane * step.entries() + entry)]);
               });
  keep_fit(t, std::move(met));
  std::vector<Real> next(2 * static_cast<std::size_t>(step.size_out()));
  apply(step, Way::forward, own, pair.data(), next.data(), 2);
  return next;
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
  fits_.resize(moved_end_ - moved_begin_);
  std::vector<Real> pair = after_.back();
  for (Index t = first_; t-- > moved_begin_;) {
    keep_fit(t,
             pass_back(sweep_.plan().steps[t], sweep_.step(t).backward, sweep_.before(t), pair, 2));
  }
  pair = pair_with_zero(sweep_.before(first_));
  for (Index t = first_; t < end_; ++t) {
    pair = step_forward(t, pair);
  }
  for (Index t = end_; t < moved_end_; ++t) {
    keep_fit(t,
             pass_on(sweep_.plan().steps[t], sweep_.step(t).forward, pair, sweep_.after(t + 1), 2));
  }
}

template <class Real>
void CandidateSweep<Real>::keep_fit(Index t, std::vector<Real> met) {
  fits_[t - moved_begin_] = from_kernel(sweep_.folded(), sweep_.plan().steps[t], std::move(met));
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
