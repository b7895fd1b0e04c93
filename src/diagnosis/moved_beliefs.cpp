#include "diagnosis/moved_beliefs.h"

#include <algorithm>

namespace dryout::diagnosis {
namespace {

void add_to_group(const FoldedEvidence& folded, Index group, Index item, ItemGroups& groups) {
  if (group >= groups.members.size()) {
    groups.members.resize(group + 1);
    groups.width.resize(group + 1, 0);
  }
  groups.group[item] = group;
  groups.place[item] = groups.width[group];
  groups.members[group].push_back(item);
  groups.width[group] += folded.states(item);
}

template <class Real, class Candidate>
class Writer {
 public:
  Writer(const ExplainedSetSweep<Real>& sweep, const Marginals<Real>& now, const ItemGroups& groups,
         Candidate& candidate)
      : sweep_(sweep), folded_(sweep.folded()), now_(now), groups_(groups), candidate_(candidate) {}

  MovedBeliefs run() {
    candidate_.extend();
    const Index begin = candidate_.moved_begin();
    const Index end = candidate_.moved_end();
    for (Index t = begin; t < end; t = sweep_.plan().piece_end[t]) {
      open_group(groups_.group[first_item_from(t)]);
    }
    rest_ = candidate_.by_rest();
    for (Index t = begin; t < end; ++t) {
      write_step(t);
    }
    const auto& cold = candidate_.effect().cold;
    for (Index c = 0; c < cold.size(); ++c) {
      if (!candidate_.is_in_sweep(cold[c])) {
        write_cold_effect(c);
      }
    }
    return std::move(out_);
  }

 private:
  /// Steps that only open or close findings have no items, but no piece is without.
  [[nodiscard]] Index first_item_from(Index t) const {
    while (sweep_.plan().steps[t].items.empty()) {
      ++t;
    }
    return sweep_.plan().steps[t].items.front();
  }

  void open_group(Index group) {
    out_.groups.push_back({group, static_cast<Index>(out_.if_absent.size())});
    out_.if_absent.resize(out_.if_absent.size() + groups_.width[group]);
    out_.if_present.resize(out_.if_absent.size());
  }

  [[nodiscard]] std::size_t slot(Index item) const {
    for (const ItemBeliefs::MovedGroup& moved : out_.groups) {
      if (moved.group == groups_.group[item]) {
        return moved.first + groups_.place[item];
      }
    }
    return 0;
  }

  /// Weights of the item's states stand in absent_ and present_; what shows the candidate anyway
  /// leaves the item as it is now.
  void write(Index item) {
    const Index states = folded_.states(item);
    const Real* const now = &now_.state[now_.first_state[item]];
    for (Index state = 0; state < states; ++state) {
      present_[state] = rest_.no * present_[state] + rest_.yes * now[state];
    }
    const std::size_t at = slot(item);
    normalise_to(absent_.data(), states, &out_.if_absent[at]);
    normalise_to(present_.data(), states, &out_.if_present[at]);
  }

  void write_step(Index t) {
    const Step& step = sweep_.plan().steps[t];
    const auto& fit = candidate_.fit(t);
    for (std::size_t k = 0; k < step.items.size(); ++k) {
      clear(step.items[k]);
      for (Index row = step.first_row[k]; row < step.first_row[k + 1]; ++row) {
        const Outcomes<Real> outcomes = candidate_.row(t, row, fit);
        absent_[row - step.first_row[k]] = outcomes.absent;
        present_[row - step.first_row[k]] = outcomes.present;
      }
      write(step.items[k]);
    }
    const Block& block = sweep_.plan().blocks[step.block];
    if (step.opens && block.cohort != none) {
      write_cold_members(t, block, fit);
    }
  }

  template <class Fit>
  void write_cold_members(Index t, const Block& block, const Fit& fit) {
    levels_.clear();
    for (Index level = 0; level < block.levels; ++level) {
      levels_.push_back(candidate_.level(t, level, fit));
    }
    const ColdEffect<Real>* effect = nullptr;
    for (const ColdEffect<Real>& cold : candidate_.effect().cold) {
      effect = cold.cohort == block.cohort ? &cold : effect;
    }
    write_cohort(block.cohort, effect);
  }

  /// Cold members of a cohort, from the outcomes at each of its levels.
  void write_cohort(Index cohort, const ColdEffect<Real>* effect) {
    weigh_levels(cohort, effect);
    find_others(effect);
    std::size_t next = 0;  // members and causes are in the same order
    for (const Index item : folded_.members[cohort]) {
      if (effect != nullptr && next < effect->items.size() && effect->items[next].item == item) {
        write_cause(effect->items[next], next);
        ++next;
      } else if (!folded_.is_hot(item)) {
        write_bystander(item);
      }
    }
  }

  /// What all causes but one show, for each of them: products from both ends, since dividing one
  /// out fails where it is zero.
  void find_others(const ColdEffect<Real>* effect) {
    others_.clear();
    if (effect == nullptr) {
      return;
    }
    const auto& items = effect->items;
    others_.resize(levels_.size() * items.size());
    for (Index level = 0; level < levels_.size(); ++level) {
      Shown<Real>* const others = &others_[level * items.size()];
      Shown<Real> before;
      for (std::size_t k = 0; k < items.size(); ++k) {
        others[k] = before;
        before = either(before, shown_by_item<Real>(folded_, items[k], level));
      }
      Shown<Real> after;
      for (std::size_t k = items.size(); k-- > 0;) {
        others[k] = either(others[k], after);
        after = either(shown_by_item<Real>(folded_, items[k], level), after);
      }
    }
  }

  [[nodiscard]] static Outcomes<Real> after_cold(const Outcomes<Real>& level,
                                                 const Shown<Real>& cold) {
    return {cold.no * level.absent, cold.no * level.present + cold.yes * level.anyway, Real{0}};
  }

  /// P(level | outcome), the cohort's own cold causes included.
  void weigh_levels(Index cohort, const ColdEffect<Real>* effect) {
    level_absent_.clear();
    level_present_.clear();
    for (std::size_t level = 0; level < levels_.size(); ++level) {
      const Shown<Real> cold = effect == nullptr ? Shown<Real>{} : effect->at_level[level];
      const Outcomes<Real> mixed = after_cold(levels_[level], cold);
      level_absent_.push_back(mixed.absent);
      level_present_.push_back(rest_.no * mixed.present + rest_.yes * now_.level[cohort][level]);
    }
    divide_by_sum(level_absent_);
    divide_by_sum(level_present_);
  }

  static void divide_by_sum(std::vector<Real>& values) {
    Real sum{0};
    for (const Real value : values) {
      sum += value;
    }
    for (Real& value : values) {
      value /= sum;
    }
  }

  /// A cold item that cannot show the candidate learns of it through its cohort's level only.
  void write_bystander(Index item) {
    const Index states = folded_.states(item);
    const std::size_t at = slot(item);
    double* const absent = &out_.if_absent[at];
    double* const present = &out_.if_present[at];
    const Real* const chances = now_.chances(folded_, item, 0);
    for (Index state = 0; state < states; ++state) {
      Real if_absent{0};
      Real if_present{0};
      for (std::size_t level = 0; level < level_absent_.size(); ++level) {
        const Real chance = chances[level * states + state];
        if_absent += chance * level_absent_[level];
        if_present += chance * level_present_[level];
      }
      absent[state] = static_cast<double>(if_absent);
      present[state] = static_cast<double>(if_present);
    }
  }

  /// A cold item that can show the candidate itself, at its place among the causes.
  void write_cause(const ItemStrengths& causes, std::size_t place) {
    const Index item = causes.item;
    clear(item);
    for (Index level = 0; level < levels_.size(); ++level) {
      const Real* const chances = now_.chances(folded_, item, level);
      const Shown<Real>& others = others_[level * (others_.size() / levels_.size()) + place];
      for (Index state = 0; state < folded_.states(item); ++state) {
        const Outcomes<Real> outcomes =
            after_cold(levels_[level], either(others, shown_by<Real>(causes, state)));
        absent_[state] += chances[state] * outcomes.absent;
        present_[state] += chances[state] * outcomes.present;
      }
    }
    write(item);
  }

  /// A cohort or lone item outside the sweep: to it, the sweep is part of the rest.
  void write_cold_effect(Index index) {
    const ColdEffect<Real>& effect = candidate_.effect().cold[index];
    rest_ = either(candidate_.by_rest(index), candidate_.by_sweep());
    open_group(groups_.group[effect.items.front().item]);
    levels_.clear();
    if (effect.cohort == none) {
      levels_.push_back({Real{1}, Real{0}, Real{1}});
      find_others(&effect);
      write_cause(effect.items.front(), 0);
      return;
    }
    for (const Real weight : now_.level[effect.cohort]) {
      levels_.push_back({weight, Real{0}, weight});
    }
    write_cohort(effect.cohort, &effect);
  }

  void clear(Index item) {
    absent_.assign(folded_.states(item), Real{0});
    present_.assign(folded_.states(item), Real{0});
  }

  const ExplainedSetSweep<Real>& sweep_;
  const FoldedEvidence& folded_;
  const Marginals<Real>& now_;
  const ItemGroups& groups_;
  Candidate& candidate_;
  MovedBeliefs out_;
  Shown<Real> rest_;                    ///< whatever shows the candidate from elsewhere
  std::vector<Outcomes<Real>> levels_;  ///< without the cohort's own cold causes
  std::vector<Shown<Real>> others_;     ///< [level][cause]
  std::vector<Real> level_absent_, level_present_;
  std::vector<Real> absent_, present_;  ///< states of the item being written
};

}  // namespace

ItemGroups group_items(const FoldedEvidence& folded, const SweepPlan& plan) {
  const Network& network = *folded.network;
  ItemGroups groups;
  groups.group.resize(network.items.size());
  groups.place.resize(network.items.size());
  std::vector<Index> group_of_step(plan.steps.size());
  Index next = 0;
  for (std::size_t t = 0; t < plan.steps.size(); ++t) {
    next += plan.piece_begin[t] == t ? 1 : 0;
    group_of_step[t] = next - 1;
  }
  std::vector<Index> group_of_cohort(network.cohorts.size(), none);
  for (Index item = 0; item < network.items.size(); ++item) {
    const auto& cohort = network.items[item].cohort;
    Index group = none;
    if (folded.is_hot(item)) {
      group = group_of_step[plan.step_of_item[item]];
    } else if (!cohort) {
      group = next++;
    } else if (const Index block = plan.block_of_cohort[*cohort]; block != none) {
      group = group_of_step[plan.blocks[block].first_step];
    } else {
      Index& of_cohort = group_of_cohort[*cohort];
      of_cohort = of_cohort == none ? next++ : of_cohort;
      group = of_cohort;
    }
    add_to_group(folded, group, item, groups);
  }
  return groups;
}

template <class Real, class Candidate>
MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<Real>& sweep, const Marginals<Real>& now,
                                const ItemGroups& groups, Candidate& candidate) {
  return Writer<Real, Candidate>(sweep, now, groups, candidate).run();
}

template MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<double>&, const Marginals<double>&,
                                         const ItemGroups&, CandidateSweep<double>&);
template MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<double>&, const Marginals<double>&,
                                         const ItemGroups&, HeldCandidate<double>&);
template MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<long double>&,
                                         const Marginals<long double>&, const ItemGroups&,
                                         CandidateSweep<long double>&);
template MovedBeliefs find_moved_beliefs(const ExplainedSetSweep<long double>&,
                                         const Marginals<long double>&, const ItemGroups&,
                                         HeldCandidate<long double>&);

}  // namespace dryout::diagnosis
