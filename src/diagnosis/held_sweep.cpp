#include "diagnosis/held_sweep.h"

#include <algorithm>
#include <bit>

#include "diagnosis/step_kernel.h"
#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

/// sum[way] += value[k] * fit[k][way]
template <class Real>
void add_met(const Real* values, const Real* fit, std::size_t size, Index width, Real* sum) {
  for (std::size_t k = 0; k < size; ++k) {
    for (Index way = 0; way < width; ++way) {
      sum[way] += values[k] * fit[k * width + way];
    }
  }
}

bool opens_cohort(const SweepPlan& plan, const Step& step) {
  return step.opens && plan.blocks[step.block].cohort != none;
}

}  // namespace

template <class Real>
Index HeldSweep<Real>::ways_of(const FoldedEvidence& folded, const Held& held) {
  return held.item != none ? folded.states(held.item)
                           : static_cast<Index>(folded.level_weight[held.cohort].size());
}

template <class Real>
HeldSweep<Real>::HeldSweep(const ExplainedSetSweep<Real>& sweep, const Held& held)
    : sweep_(sweep), held_(held), ways_(ways_of(sweep.folded(), held)) {
  CHECK(ways_ <= ways_max);
  const SweepPlan& plan = sweep.plan();
  width_ = std::bit_ceil(ways_);
  step_ = held.item != none ? plan.step_of_item[held.item]
                            : plan.blocks[plan.block_of_cohort[held.cohort]].first_step;
  begin_ = plan.piece_begin[step_];
  end_ = plan.piece_end[step_];
  rows_.resize(end_ - begin_);
  levels_.resize(end_ - begin_);
  read_own_step();
  const std::vector<Real> held_kernel = kernel();
  go_on(first_after(held_kernel));
  go_back(first_before(held_kernel));
}

/// The step's own table [size] at a level, in the worlds where it is held this way; null where it
/// cannot be.
template <class Real>
const Real* HeldSweep<Real>::table(Index way, Index level) const {
  const StepTables<Real>& tables = sweep_.step(step_).tables;
  if (held_.item == none) {
    return level == way ? tables.total_at(level) : nullptr;
  }
  const Step& step = sweep_.plan().steps[step_];
  const auto at = std::find(step.items.begin(), step.items.end(), held_.item) - step.items.begin();
  return tables.row_at(step.first_row[static_cast<std::size_t>(at)] + way, level);
}

/// [lane][entry][width], scaled as the sweep's.
template <class Real>
std::vector<Real> HeldSweep<Real>::kernel() const {
  const Step& step = sweep_.plan().steps[step_];
  const auto& result = sweep_.step(step_);
  const Index levels = result.tables.levels;
  const Index size = result.tables.size;
  const std::size_t lane_size = static_cast<std::size_t>(size) * width_;
  std::vector<Real> side_by_side(step.lanes() * lane_size, Real{0});
  for (Index level = 0; level < levels; ++level) {
    Real* const lane = &side_by_side[step.lanes() == levels ? level * lane_size : 0];
    for (Index way = 0; way < ways_; ++way) {
      const Real* const values = table(way, level);
      for (std::size_t s = 0; values != nullptr && s < size; ++s) {
        lane[s * width_ + way] += result.scale * values[s];
      }
    }
  }
  return to_kernel(sweep_.folded(), step, std::move(side_by_side), width_);
}

template <class Real>
std::vector<Real> HeldSweep<Real>::first_after(const std::vector<Real>& kernel) const {
  const Step& step = sweep_.plan().steps[step_];
  std::vector<Real> next(static_cast<std::size_t>(step.size_out()) * width_, Real{0});
  for_each_run(step, sweep_.before(step_).data(), 1,
               [&](Index lane, Index entry, const Real* from, Index out, Index run) {
                 const Real* const c = &kernel[(lane * step.entries() + entry) * width_];
                 Real* const to = &next[static_cast<std::size_t>(out) * width_];
                 for (std::size_t x = 0; x < run; ++x) {
                   for (Index way = 0; way < width_; ++way) {
                     to[x * width_ + way] += c[way] * from[x];
                   }
                 }
               });
  return next;
}

template <class Real>
std::vector<Real> HeldSweep<Real>::first_before(const std::vector<Real>& kernel) const {
  const Step& step = sweep_.plan().steps[step_];
  const std::vector<Real>& after = sweep_.after(step_ + 1);
  std::vector<Real> next(static_cast<std::size_t>(step.size_in()) * width_, Real{0});
  for_each_run_back(step, next.data(), width_,
                    [&](Index lane, Index entry, Real* to, Index out, Index run) {
                      const Real* const c = &kernel[(lane * step.entries() + entry) * width_];
                      for (std::size_t x = 0; x < run; ++x) {
                        for (Index way = 0; way < width_; ++way) {
                          to[x * width_ + way] += c[way] * after[out + x];
                        }
                      }
                    });
  return next;
}

template <class Real>
void HeldSweep<Real>::go_on(std::vector<Real> vector) {
  for (Index t = step_ + 1; t < end_; ++t) {
    read(t, pass_on(sweep_.plan().steps[t], sweep_.step(t).forward, vector, sweep_.after(t + 1),
                    width_));
  }
}

template <class Real>
void HeldSweep<Real>::go_back(std::vector<Real> vector) {
  for (Index t = step_; t-- > begin_;) {
    read(t, pass_back(sweep_.plan().steps[t], sweep_.step(t).backward, sweep_.before(t), vector,
                      width_));
  }
}

/// Rows and levels of another step, from what the rest makes of its kernel entries.
template <class Real>
void HeldSweep<Real>::read(Index t, std::vector<Real> met) {
  const Step& step = sweep_.plan().steps[t];
  const auto& result = sweep_.step(t);
  const Index size = result.tables.size;
  const std::vector<Real> fit =
      from_kernel(sweep_.folded(), step, std::move(met));  // [lane][size][width]
  const std::size_t length = fit.size() / width_;
  std::vector<Real>& rows = rows_[t - begin_];
  rows.assign(static_cast<std::size_t>(step.rows()) * width_, Real{0});
  for (Index row = 0; row < step.rows(); ++row) {
    add_met(&result.rows[row * length], fit.data(), length, width_, &rows[row * width_]);
  }
  if (!opens_cohort(sweep_.plan(), step)) {
    return;
  }
  std::vector<Real>& levels = levels_[t - begin_];
  levels.assign(static_cast<std::size_t>(result.tables.levels) * width_, Real{0});
  for (Index level = 0; level < result.tables.levels; ++level) {
    const Real* const lane_fit =
        &fit[step.lanes() > 1 ? static_cast<std::size_t>(level) * size * width_ : 0];
    add_met(result.tables.total_at(level), lane_fit, size, width_, &levels[level * width_]);
  }
}

/// The step in which it is held: all within the step's own tables.
template <class Real>
void HeldSweep<Real>::read_own_step() {
  const SweepPlan& plan = sweep_.plan();
  const Step& step = plan.steps[step_];
  const auto& result = sweep_.step(step_);
  const Index levels = result.tables.levels;
  const Index size = result.tables.size;
  std::vector<Real>& rows = rows_[step_ - begin_];
  std::vector<Real>& level_weights = levels_[step_ - begin_];
  rows.assign(static_cast<std::size_t>(step.rows()) * width_, Real{0});
  level_weights.assign(opens_cohort(plan, step) ? static_cast<std::size_t>(levels) * width_ : 0,
                       Real{0});
  chances_.assign(ways_, Real{0});
  const auto fit = [&](Index level) {
    return &result.fit[step.lanes() > 1 ? static_cast<std::size_t>(level) * size : 0];
  };
  for (Index way = 0; way < ways_; ++way) {
    for (Index level = 0; level < levels; ++level) {
      const Real* const values = table(way, level);
      const Real weight = values == nullptr ? Real{0} : dot(values, fit(level), size);
      chances_[way] += weight;
      if (!level_weights.empty()) {
        level_weights[level * width_ + way] = weight;
      }
    }
    const bool alone = held_.item != none && step.items.size() == 1;
    const StepTables<Real> tables =
        held_.item == none || alone
            ? StepTables<Real>{}
            : tabulate_held<Real>(sweep_.folded(), plan, step, held_.item, way);
    for (std::size_t k = 0; k < step.items.size(); ++k) {
      for (Index row = step.first_row[k]; row < step.first_row[k + 1]; ++row) {
        Real& at = rows[row * width_ + way];
        if (step.items[k] == held_.item) {
          at = row - step.first_row[k] == way ? chances_[way] : Real{0};
        } else if (held_.item == none) {
          at = dot(result.tables.row_at(row, way), fit(way), size);
        } else {
          for (Index level = 0; level < levels; ++level) {
            at += dot(tables.row_at(row, level), fit(level), size);
          }
        }
      }
    }
  }
  Real sum{0};
  for (const Real chance : chances_) {
    sum += chance;
  }
  for (Real& chance : chances_) {
    chance /= sum;
  }
}

template class HeldSweep<double>;
template class HeldSweep<long double>;

}  // namespace dryout::diagnosis
