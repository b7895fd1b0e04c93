#include "diagnosis/explained_set_sweep.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "diagnosis/step_kernel.h"
#include "quantities/patience.h"

namespace dryout::diagnosis {
namespace {

/// Sums tables over levels where the step does not carry them: [row][level][size] to
/// [row][lane][size].
template <class Real>
std::vector<Real> mix_levels(const std::vector<Real>& table, Index levels, Index lanes,
                             Index size) {
  if (levels == lanes) {
    return table;
  }
  const std::size_t rows = table.size() / (static_cast<std::size_t>(levels) * size);
  std::vector<Real> mixed(rows * size, Real{0});
  for (std::size_t row = 0; row < rows; ++row) {
    for (Index level = 0; level < levels; ++level) {
      const Real* const from = &table[(row * levels + level) * size];
      for (Index s = 0; s < size; ++s) {
        mixed[row * size + s] += from[s];
      }
    }
  }
  return mixed;
}

/// The largest of non-negative values, found in columns that do not wait on each other.
template <class Real>
Real largest_of(const std::vector<Real>& values) {
  constexpr std::size_t columns = 8;
  std::array<Real, columns> largest{};
  std::size_t k = 0;
  for (; k + columns <= values.size(); k += columns) {
    for (std::size_t i = 0; i < columns; ++i) {
      largest[i] = values[k + i] > largest[i] ? values[k + i] : largest[i];
    }
  }
  for (; k < values.size(); ++k) {
    largest[0] = std::max(largest[0], values[k]);
  }
  return *std::max_element(largest.begin(), largest.end());
}

template <class Real>
void scale_all(std::vector<Real>& values, Real factor) {
  for (Real& value : values) {
    value *= factor;
  }
}

}  // namespace

template <class Real>
ExplainedSetSweep<Real>::ExplainedSetSweep(const FoldedEvidence& folded, const SweepPlan& plan)
    : folded_(folded), plan_(plan), evidence_(folded.constant), steps_(plan.steps.size()) {
  go_forward();
  if (!impossible_) {
    go_backward();
    meet_all();
  }
}

/// Tables and kernel of a step, not scaled yet.
template <class Real>
void ExplainedSetSweep<Real>::prepare(std::size_t t) {
  const Step& step = plan_.steps[t];
  StepResult& result = steps_[t];
  result.tables = tabulate<Real>(folded_, plan_, step, nullptr);
  const StepTables<Real>& tables = result.tables;
  result.rows = mix_levels(tables.rows, tables.levels, step.lanes(), tables.size);
  const std::vector<Real> kernels = to_kernel(
      folded_, step, mix_levels(tables.total, tables.levels, step.lanes(), tables.size), 1);
  result.forward = in_order_of(step, Way::forward, kernels);
  result.backward = in_order_of(step, Way::backward, kernels);
}

/// After each step the largest entry is brought into [0.5, 1) by a power of two; the kernel carries
/// the factor, so that forward and backward vectors stay in step.
template <class Real>
void ExplainedSetSweep<Real>::go_forward() {
  constexpr int shift_max = std::numeric_limits<Real>::max_exponent / 4;
  before_.push_back({Real{1}});
  for (std::size_t t = 0; t < plan_.steps.size(); ++t) {
    quantities::rest();
    const Step& step = plan_.steps[t];
    prepare(t);
    std::vector<Real> next(step.size_out());
    apply(step, Way::forward, steps_[t].forward, before_[t].data(), next.data(), 1);
    const Real largest = largest_of(next);
    if (!(largest > Real{0})) {
      impossible_ = true;
      return;
    }
    int shift = 0;
    std::frexp(largest, &shift);
    in_range_ = in_range_ && std::abs(shift) < shift_max;
    steps_[t].scale = std::ldexp(Real{1}, -shift);
    evidence_.multiply_power_of_two(shift);
    scale_all(next, steps_[t].scale);
    scale_all(steps_[t].forward, steps_[t].scale);
    scale_all(steps_[t].backward, steps_[t].scale);
    before_.push_back(std::move(next));
  }
  evidence_.multiply(before_.back()[0]);
}

template <class Real>
void ExplainedSetSweep<Real>::go_backward() {
  // Entries of `before` below the smallest Real are lost; they would have met `after` at most this
  // large, so that what is lost stays far below every posterior of interest.
  const Real after_max = std::ldexp(Real{1}, std::numeric_limits<Real>::max_exponent / 2);
  after_.resize(plan_.steps.size() + 1);
  after_.back() = {Real{1}};
  for (std::size_t t = plan_.steps.size(); t-- > 0;) {
    quantities::rest();
    const Step& step = plan_.steps[t];
    after_[t].resize(step.size_in());
    apply(step, Way::backward, steps_[t].backward, after_[t + 1].data(), after_[t].data(), 1);
    in_range_ = in_range_ && largest_of(after_[t]) < after_max;
  }
}

template <class Real>
void ExplainedSetSweep<Real>::meet_all() {
  for (std::size_t t = 0; t < plan_.steps.size(); ++t) {
    const Step& step = plan_.steps[t];
    steps_[t].fit = from_kernel(folded_, step, meet(step, before_[t].data(), after_[t + 1].data()));
  }
}

template <class Real>
std::vector<Real> ExplainedSetSweep<Real>::level_values(Index block) const {
  const Index t = plan_.blocks[block].first_step;
  const StepTables<Real>& tables = steps_[t].tables;
  const bool carried = plan_.steps[t].lanes() > 1;
  std::vector<Real> values(tables.levels);
  for (Index level = 0; level < tables.levels; ++level) {
    const Real* const fit = &steps_[t].fit[carried ? level * tables.size : 0];
    values[level] = dot(tables.total_at(level), fit, tables.size);
  }
  return values;
}

template <class Real>
std::vector<Real> ExplainedSetSweep<Real>::state_values(Index item) const {
  const Index t = plan_.step_of_item[item];
  const Step& step = plan_.steps[t];
  const StepResult& result = steps_[t];
  const auto at = std::find(step.items.begin(), step.items.end(), item) - step.items.begin();
  const Index first = step.first_row[static_cast<std::size_t>(at)];
  const std::size_t length = result.fit.size();
  std::vector<Real> values(folded_.states(item));
  for (std::size_t state = 0; state < values.size(); ++state) {
    values[state] = dot(&result.rows[(first + state) * length], result.fit.data(), length);
  }
  return values;
}

template <class Real>
Real ExplainedSetSweep<Real>::present(Index shared) const {
  std::size_t t = plan_.steps.size();
  do {
    --t;
  } while (!std::binary_search(plan_.steps[t].shared.begin(), plan_.steps[t].shared.end(), shared));
  const Step& step = plan_.steps[t];
  const StepTables<Real>& tables = steps_[t].tables;
  const std::vector<Real> fit =
      from_kernel(folded_, step, meet(step, before_[t].data(), after_[t + 1].data()), shared);
  const std::vector<Real> total =
      mix_levels(tables.total, tables.levels, step.lanes(), tables.size);
  return dot(total.data(), fit.data(), fit.size()) /
         dot(total.data(), steps_[t].fit.data(), fit.size());
}

template class ExplainedSetSweep<double>;
template class ExplainedSetSweep<long double>;

}  // namespace dryout::diagnosis
