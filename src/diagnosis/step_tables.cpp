#include "diagnosis/step_tables.h"

#include <algorithm>

#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

/// explained[S + mask] += strength * explained[S]; explained[S] *= 1 - strength, S without mask.
template <class Real>
void apply_link(std::vector<Real>& explained, Index mask, Real strength) {
  const Real rest = Real{1} - strength;
  for (Index high = 0; high < explained.size(); high += 2 * mask) {
    Real* const without = &explained[high];
    Real* const with = without + mask;
    for (Index low = 0; low < mask; ++low) {
      with[low] += strength * without[low];
      without[low] *= rest;
    }
  }
}

/// One way a state of an item marks the local state.
struct Mark {
  Index state = 0;
  Index mask = 0;
  double strength = 0.0;
};

template <class Real>
class Tabulator {
 public:
  Tabulator(const FoldedEvidence& folded, const SweepPlan& plan, const Step& step,
            const std::vector<const ItemStrengths*>* candidate)
      : folded_(folded), block_(plan.blocks[step.block]), step_(step) {
    tables_.levels = block_.levels;
    tables_.size = step.local_states() * (candidate == nullptr ? 1 : 2);
    collect_marks(candidate);
  }

  /// The findings of the step (by their place in it) that items are held to have no part in.
  void leave_undone(std::vector<bool> undone) {
    undone_ = std::move(undone);
    without_doing_.assign(step_.items.size() * tables_.levels * tables_.size, Real{0});
  }
  void hold_always(Index item, Index state) {
    held_ = item;
    held_state_ = state;
  }
  [[nodiscard]] std::vector<Real> without_doing() && { return std::move(without_doing_); }

  StepTables<Real> run() {
    tables_.total.assign(tables_.levels * tables_.size, Real{0});
    tables_.rows.assign(step_.rows() * tables_.levels * tables_.size, Real{0});
    const auto item_count = static_cast<Index>(step_.items.size());
    for (level_ = 0; level_ < tables_.levels; ++level_) {
      if (step_.wide) {
        list_states();
        continue;
      }
      std::vector<Real> start(tables_.size, Real{0});
      start[0] = level_weight();
      if (item_count == 0) {
        std::copy(start.begin(), start.end(), &tables_.total[level_ * tables_.size]);
      } else {
        find_own();
        leave_each_out(0, item_count, std::move(start));
      }
    }
    return std::move(tables_);
  }

 private:
  [[nodiscard]] Real level_weight() const {
    return step_.opens && block_.cohort != none
               ? static_cast<Real>(folded_.level_weight[block_.cohort][level_])
               : Real{1};
  }

  /// A wide step: its local states are the states of its item, each with its own row.
  void list_states() {
    const Index states = step_.rows();
    const Index width = tables_.size / states;
    for (Index state = 0; state < states; ++state) {
      std::vector<Real> shown(width, Real{0});
      shown[0] =
          level_weight() * static_cast<Real>(folded_.weights(step_.items.front(), level_)[state]);
      for (const Mark& mark : marks_) {
        if (width == 2 && mark.mask == 1 && mark.state == state) {
          apply_link(shown, 1, static_cast<Real>(mark.strength));
        }
      }
      const Index row = (state * tables_.levels + level_) * tables_.size;
      std::copy(shown.begin(), shown.end(), &tables_.rows[row + state * width]);
      std::copy(shown.begin(), shown.end(), &tables_.total[level_ * tables_.size + state * width]);
    }
  }

  void collect_marks(const std::vector<const ItemStrengths*>* candidate) {
    const Index shift = candidate == nullptr ? 0 : 1;
    for (Index k = 0; k < step_.items.size(); ++k) {
      first_mark_.push_back(static_cast<Index>(marks_.size()));
      for (Index l = step_.first_link[k]; l < step_.first_link[k + 1]; ++l) {
        const LocalLink& link = step_.links[l];
        marks_.push_back({link.state, Index{1} << (link.finding + shift), link.strength});
      }
      if (candidate != nullptr) {
        mark_candidate(step_.items[k], *candidate);
      }
    }
    first_mark_.push_back(static_cast<Index>(marks_.size()));
  }

  void mark_candidate(Index item, const std::vector<const ItemStrengths*>& candidate) {
    for (const ItemStrengths* strengths : candidate) {
      if (strengths->item == item) {
        for (const StateStrength& s : strengths->states) {
          marks_.push_back({s.state, 1, s.strength});
        }
      }
    }
  }

  /// `held` becomes `explained` with item k held in `state`, weight included. False, and `held` is
  /// not touched, where the item cannot be in it.
  [[nodiscard]] bool hold(Index k, Index state, const std::vector<Real>& explained,
                          std::vector<Real>& held) const {
    const auto weight = static_cast<Real>(folded_.weights(step_.items[k], level_)[state]);
    if (weight == Real{0} || (step_.items[k] == held_ && state != held_state_)) {
      return false;
    }
    held.resize(explained.size());
    for (std::size_t s = 0; s < held.size(); ++s) {
      held[s] = explained[s] * weight;
    }
    for (Index m = first_mark_[k]; m < first_mark_[k + 1]; ++m) {
      if (marks_[m].state == state) {
        apply_link(held, marks_[m].mask, static_cast<Real>(marks_[m].strength));
      }
    }
    return true;
  }

  /// The same where the item has no part in what is to be left undone.
  void hold_innocent(Index k, Index state, std::vector<Real>& explained) const {
    auto weight = static_cast<Real>(folded_.weights(step_.items[k], level_)[state]);
    for (Index l = step_.first_link[k]; l < step_.first_link[k + 1]; ++l) {
      const LocalLink& link = step_.links[l];
      if (link.state == state && undone_[link.finding]) {
        weight *= Real{1} - static_cast<Real>(link.strength);
      }
    }
    for (Real& value : explained) {
      value *= weight;
    }
    for (Index l = step_.first_link[k]; l < step_.first_link[k + 1]; ++l) {
      const LocalLink& link = step_.links[l];
      if (link.state == state && !undone_[link.finding]) {
        apply_link(explained, Index{1} << link.finding, static_cast<Real>(link.strength));
      }
    }
  }

  void write_without_doing(Index k, const std::vector<Real>& others) {
    Real* const to = &without_doing_[(k * tables_.levels + level_) * tables_.size];
    for (Index state = 0; state < folded_.states(step_.items[k]); ++state) {
      std::vector<Real> held = others;
      hold_innocent(k, state, held);
      for (std::size_t s = 0; s < held.size(); ++s) {
        to[s] += held[s];
      }
    }
  }

  /// Adds item k, in whatever state it is, to what is explained.
  void take_in(Index k, std::vector<Real>& explained) {
    sum_.assign(explained.size(), Real{0});
    if (own_.empty()) {
      for (Index state = 0; state < folded_.states(step_.items[k]); ++state) {
        if (hold(k, state, explained, in_state_)) {
          add(in_state_, sum_.data());
        }
      }
    } else {
      const Real* const own = &own_[std::size_t{k} * tables_.size];
      for (Index a = 0; a < tables_.size; ++a) {
        for (Index b = 0; b < tables_.size; ++b) {
          sum_[a | b] += explained[a] * own[b];
        }
      }
    }
    explained.swap(sum_);
  }

  /// What each item explains by itself. Where few things can be, sets of them are soon united, and
  /// an item is taken in many times.
  void find_own() {
    constexpr Index size_max = 8;
    own_.clear();
    if (tables_.size > size_max) {
      return;
    }
    std::vector<Real> own(step_.items.size() * tables_.size, Real{0});
    std::vector<Real> nothing(tables_.size, Real{0});
    nothing[0] = Real{1};
    for (Index k = 0; k < step_.items.size(); ++k) {
      for (Index state = 0; state < folded_.states(step_.items[k]); ++state) {
        if (hold(k, state, nothing, in_state_)) {
          add(in_state_, &own[std::size_t{k} * tables_.size]);
        }
      }
    }
    own_ = std::move(own);
  }

  static void add(const std::vector<Real>& values, Real* to) {
    for (std::size_t s = 0; s < values.size(); ++s) {
      to[s] += values[s];
    }
  }

  /// `others` holds every item outside [begin, end); halving the range costs a logarithm of
  /// applications per item where leaving out one by one would cost all of them.
  void leave_each_out(Index begin, Index end, std::vector<Real> others) {
    if (end - begin == 1) {
      if (undone_.empty()) {
        write_rows(begin, others);
      } else {
        write_without_doing(begin, others);
      }
      return;
    }
    const Index middle = (begin + end) / 2;
    std::vector<Real> with_right = others;
    for (Index k = middle; k < end; ++k) {
      take_in(k, with_right);
    }
    leave_each_out(begin, middle, std::move(with_right));
    for (Index k = begin; k < middle; ++k) {
      take_in(k, others);
    }
    leave_each_out(middle, end, std::move(others));
  }

  void write_rows(Index k, const std::vector<Real>& others) {
    for (Index state = 0; state < folded_.states(step_.items[k]); ++state) {
      if (!hold(k, state, others, in_state_)) {
        continue;
      }
      const Index row = step_.first_row[k] + state;
      std::copy(in_state_.begin(), in_state_.end(),
                &tables_.rows[(row * tables_.levels + level_) * tables_.size]);
      if (k == 0) {
        for (Index s = 0; s < tables_.size; ++s) {
          tables_.total[level_ * tables_.size + s] += in_state_[s];
        }
      }
    }
  }

  const FoldedEvidence& folded_;
  const Block& block_;
  const Step& step_;
  std::vector<Mark> marks_;
  std::vector<Index> first_mark_;
  StepTables<Real> tables_;
  std::vector<bool> undone_;
  std::vector<Real> without_doing_;
  Index held_ = none;
  Index held_state_ = none;
  Index level_ = 0;
  std::vector<Real> own_;       ///< [item][set explained]; empty where sets are too many
  std::vector<Real> sum_;       ///< of what an item explains in its states
  std::vector<Real> in_state_;  ///< what is explained with one item in one state, while summed
};

/// How one finding's two local values make its kernel entries: entry = a[entry][local] * value.
template <class Real>
struct RoleMatrix {
  std::array<std::array<Real, 2>, 3> a{};
  Index entries = 0;
};

template <class Real>
RoleMatrix<Real> role_matrix(const SharedFinding& shared, Role role, bool only_present) {
  const auto absent = static_cast<Real>(only_present ? 0.0L : shared.if_absent);
  const auto present = static_cast<Real>(shared.if_present);
  const auto leak = static_cast<Real>(shared.leak);
  const auto no_leak = static_cast<Real>(1.0L - shared.leak);
  constexpr Real zero{0};
  constexpr Real one{1};
  RoleMatrix<Real> m;
  m.entries = entries_of(role);
  switch (role) {
    case Role::stays:
      m.a = {{{one, zero}, {zero, one}, {one, one}}};
      break;
    case Role::leaves:
      m.a = {{{absent, present}, {present, present}, {zero, zero}}};
      break;
    case Role::enters:
      m.a = {{{no_leak, zero}, {leak, one}, {zero, zero}}};
      break;
    case Role::passes:
      m.a = {{{absent * no_leak + present * leak, present}, {zero, zero}, {zero, zero}}};
      break;
  }
  return m;
}

/// One digit of the kernel entries, its `Entries` values `done` places apart, back to the two local
/// values of its finding.
template <class Real, std::size_t Entries>
void sum_digit(const RoleMatrix<Real>& m, const std::vector<Real>& entries, std::size_t done,
               std::vector<Real>& local) {
  const std::size_t highs = entries.size() / (Entries * done);
  for (std::size_t high = 0; high < highs; ++high) {
    const Real* const in = &entries[high * Entries * done];
    Real* const absent = &local[2 * high * done];
    Real* const present = absent + done;
    for (std::size_t low = 0; low < done; ++low) {
      Real if_absent = m.a[0][0] * in[low];
      Real if_present = m.a[0][1] * in[low];
      for (std::size_t e = 1; e < Entries; ++e) {
        if_absent += m.a[e][0] * in[e * done + low];
        if_present += m.a[e][1] * in[e * done + low];
      }
      absent[low] = if_absent;
      present[low] = if_present;
    }
  }
}

}  // namespace

template <class Real>
StepTables<Real> tabulate(const FoldedEvidence& folded, const SweepPlan& plan, const Step& step,
                          const std::vector<const ItemStrengths*>* candidate) {
  return Tabulator<Real>(folded, plan, step, candidate).run();
}

template <class Real>
StepTables<Real> tabulate_held(const FoldedEvidence& folded, const SweepPlan& plan,
                               const Step& step, Index item, Index state) {
  CHECK(!step.wide);
  Tabulator<Real> tabulator(folded, plan, step, nullptr);
  tabulator.hold_always(item, state);
  return tabulator.run();
}

template <class Real>
std::vector<Real> tabulate_without_doing(const FoldedEvidence& folded, const SweepPlan& plan,
                                         const Step& step, const std::vector<bool>& marked) {
  CHECK(!step.wide);
  std::vector<bool> undone;
  for (const Index finding : step.shared) {
    undone.push_back(marked[finding]);
  }
  Tabulator<Real> tabulator(folded, plan, step, nullptr);
  tabulator.leave_undone(std::move(undone));
  (void)tabulator.run();
  return std::move(tabulator).without_doing();
}

template <class Real>
std::vector<Real> to_kernel(const FoldedEvidence& folded, const Step& step, std::vector<Real> table,
                            Index width) {
  if (step.wide) {
    return table;
  }
  std::size_t done = width;  // values already in kernel digits
  for (std::size_t k = 0; k < step.shared.size(); ++k) {
    const RoleMatrix<Real> m =
        role_matrix<Real>(folded.shared[step.shared[k]], step.roles[k], false);
    const std::size_t highs = table.size() / (2 * done);
    std::vector<Real> next(highs * m.entries * done);
    for (std::size_t high = 0; high < highs; ++high) {
      const Real* const absent = &table[2 * high * done];
      const Real* const present = absent + done;
      for (Index e = 0; e < m.entries; ++e) {
        Real* const out = &next[(high * m.entries + e) * done];
        for (std::size_t low = 0; low < done; ++low) {
          out[low] = m.a[e][0] * absent[low] + m.a[e][1] * present[low];
        }
      }
    }
    table = std::move(next);
    done *= m.entries;
  }
  return table;
}

template <class Real>
std::vector<Real> from_kernel(const FoldedEvidence& folded, const Step& step,
                              std::vector<Real> entries, Index only_present) {
  if (step.wide) {
    return entries;
  }
  std::size_t done = entries.size() / step.lanes();
  std::vector<Real> next;
  for (std::size_t k = step.shared.size(); k-- > 0;) {
    const bool present_only = step.shared[k] == only_present;
    const RoleMatrix<Real> m =
        role_matrix<Real>(folded.shared[step.shared[k]], step.roles[k], present_only);
    CHECK(m.entries > 0);
    done /= m.entries;
    CHECK(done > 0);
    next.resize(2 * entries.size() / m.entries);
    switch (m.entries) {
      case 1:
        sum_digit<Real, 1>(m, entries, done, next);
        break;
      case 2:
        sum_digit<Real, 2>(m, entries, done, next);
        break;
      default:
        sum_digit<Real, 3>(m, entries, done, next);
    }
    std::swap(entries, next);
  }
  return entries;
}

template struct StepTables<double>;
template struct StepTables<long double>;
template StepTables<double> tabulate(const FoldedEvidence&, const SweepPlan&, const Step&,
                                     const std::vector<const ItemStrengths*>*);
template StepTables<long double> tabulate(const FoldedEvidence&, const SweepPlan&, const Step&,
                                          const std::vector<const ItemStrengths*>*);
template StepTables<double> tabulate_held(const FoldedEvidence&, const SweepPlan&, const Step&,
                                          Index, Index);
template StepTables<long double> tabulate_held(const FoldedEvidence&, const SweepPlan&, const Step&,
                                               Index, Index);
template std::vector<double> tabulate_without_doing(const FoldedEvidence&, const SweepPlan&,
                                                    const Step&, const std::vector<bool>&);
template std::vector<long double> tabulate_without_doing(const FoldedEvidence&, const SweepPlan&,
                                                         const Step&, const std::vector<bool>&);
template std::vector<double> to_kernel(const FoldedEvidence&, const Step&, std::vector<double>,
                                       Index);
template std::vector<long double> to_kernel(const FoldedEvidence&, const Step&,
                                            std::vector<long double>, Index);
template std::vector<double> from_kernel(const FoldedEvidence&, const Step&, std::vector<double>,
                                         Index);
template std::vector<long double> from_kernel(const FoldedEvidence&, const Step&,
                                              std::vector<long double>, Index);

}  // namespace dryout::diagnosis
