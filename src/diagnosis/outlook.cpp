#include <algorithm>
#include <memory>

#include "diagnosis/inference.h"
#include "diagnosis/moved_beliefs.h"
#include "quantities/check.h"
#include "quantities/patience.h"

namespace dryout::diagnosis {
namespace {

/// All items in one group: for outcomes that were inferred anew.
ItemBeliefs whole_table(const ItemGroups& groups, const Posterior& now,
                        const std::vector<std::vector<double>>& items) {
  std::vector<ItemBeliefs::MovedGroup> moved;
  std::vector<double> values;
  for (std::uint32_t g = 0; g < groups.members.size(); ++g) {
    moved.push_back({g, static_cast<std::uint32_t>(values.size())});
    for (const std::size_t item : groups.members[g]) {
      values.insert(values.end(), items[item].begin(), items[item].end());
    }
  }
  return {groups, now.items, std::move(moved), std::move(values)};
}

template <class Real>
class Foreseer {
 public:
  Foreseer(const ExplainedSetSweep<Real>& sweep, const Evidence& evidence)
      : sweep_(sweep), evidence_(evidence), marginals_(find_marginals(sweep)) {
    auto groups = std::make_unique<ItemGroups>(group_items(sweep.folded(), sweep.plan()));
    foresight_.now = posterior_of(sweep, marginals_, false);
    foresight_.groups = std::move(groups);
    known_.assign(foresight_.now.findings.size(), false);
  }

  Foresight run(std::span<const std::size_t> candidates) {
    const auto twins = find_twins(*sweep_.folded().network, evidence_, candidates);
    find_effects(candidates, twins);
    hold_what_pays();
    foresight_.outlooks.reserve(candidates.size());
    for (std::size_t c = 0; c < candidates.size(); ++c) {
      quantities::rest(c, candidates.size());
      const auto finding = static_cast<Index>(candidates[c]);
      foresight_.outlooks.push_back(twins[c]                 ? image_of(*twins[c], finding)
                                    : effects_[c] == nullptr ? look_at_observed(finding)
                                                             : look_at(finding, *effects_[c]));
    }
    for (Index f = 0; f < known_.size(); ++f) {
      if (!known_[f] && !is_observed(f)) {
        foresight_.now.findings[f] = static_cast<double>(chance_of(sweep_, f).yes);
      }
    }
    return std::move(foresight_);
  }

 private:
  struct Shared {
    Held held;
    Index candidates = 0;
    std::unique_ptr<HeldSweep<Real>> sweep;
  };

  [[nodiscard]] bool is_observed(Index finding) const {
    return sweep_.folded().observed[finding].informative();
  }

  Shared& shared(const Held& held) {
    const auto found = std::find_if(shared_.begin(), shared_.end(),
                                    [&](const Shared& each) { return each.held == held; });
    return found != shared_.end() ? *found : shared_.emplace_back(Shared{held, 0, nullptr});
  }

  void find_effects(std::span<const std::size_t> candidates,
                    const std::vector<std::optional<CandidateTwin>>& twins) {
    for (std::size_t c = 0; c < candidates.size(); ++c) {
      const auto finding = static_cast<Index>(candidates[c]);
      effects_.push_back(
          twins[c] || is_observed(finding) ? nullptr : std::make_unique<CandidateEffect<Real>>());
      if (effects_.back() != nullptr) {
        find_effect(sweep_.folded(), sweep_.plan(), finding, *effects_.back());
      }
    }
  }

  /// Holding a thing costs a vector for each of its ways, a candidate's own sweep two.
  void hold_what_pays() {
    for (const auto& effect : effects_) {
      if (effect == nullptr) {
        continue;
      }
      if (const auto held = held_for(sweep_.folded(), *effect)) {
        ++shared(*held).candidates;
      }
    }
    std::erase_if(shared_, [this](const Shared& each) {
      return HeldSweep<Real>::ways_of(sweep_.folded(), each.held) > 2 * each.candidates;
    });
    for (Shared& each : shared_) {
      each.sweep = std::make_unique<HeldSweep<Real>>(sweep_, each.held);
    }
  }

  [[nodiscard]] const HeldSweep<Real>* held_sweep_for(const CandidateEffect<Real>& effect) const {
    const auto held = held_for(sweep_.folded(), effect);
    for (const Shared& each : shared_) {
      if (held && each.held == *held) {
        return each.sweep.get();
      }
    }
    return nullptr;
  }

  Outlook look_at(Index finding, const CandidateEffect<Real>& effect) {
    if (const HeldSweep<Real>* const held = held_sweep_for(effect)) {
      HeldCandidate<Real> candidate(sweep_, *held, effect);
      return look_through(finding, candidate);
    }
    CandidateSweep<Real> candidate(sweep_, effect);
    return look_through(finding, candidate);
  }

  template <class Candidate>
  Outlook look_through(Index finding, Candidate& candidate) {
    const Shown<Real> chance = candidate.chance();
    MovedBeliefs moved = find_moved_beliefs(sweep_, marginals_, *foresight_.groups, candidate);
    Outlook outlook;
    outlook.finding = finding;
    outlook.present = static_cast<double>(chance.yes);
    if (chance.yes > Real{0}) {
      outlook.items_if_present = {*foresight_.groups, foresight_.now.items, moved.groups,
                                  std::move(moved.if_present)};
    }
    if (chance.no > Real{0}) {
      outlook.items_if_absent = {*foresight_.groups, foresight_.now.items, std::move(moved.groups),
                                 std::move(moved.if_absent)};
    }
    foresight_.now.findings[finding] = outlook.present;
    known_[finding] = true;
    return outlook;
  }

  Outlook image_of(const CandidateTwin& twin, Index finding) {
    const Outlook& first = foresight_.outlooks[twin.of];
    Outlook outlook;
    outlook.finding = finding;
    outlook.present = first.present;
    outlook.items_if_present = first.items_if_present.with_swapped(twin.its_item, twin.own_item);
    outlook.items_if_absent = first.items_if_absent.with_swapped(twin.its_item, twin.own_item);
    outlook.twin = twin;
    foresight_.now.findings[finding] = outlook.present;
    known_[finding] = true;
    return outlook;
  }

  /// A finding with evidence of its own, hard or soft: its outcomes are inferred anew.
  Outlook look_at_observed(Index finding) {
    Outlook outlook;
    outlook.finding = finding;
    outlook.present = foresight_.now.findings[finding];
    outlook.items_if_present = infer_with(finding, true);
    outlook.items_if_absent = infer_with(finding, false);
    return outlook;
  }

  ItemBeliefs infer_with(Index finding, bool present) {
    const double chance = foresight_.now.findings[finding];
    if (chance == (present ? 0.0 : 1.0)) {
      return {};
    }
    Evidence more = evidence_;
    (present ? more.present : more.absent).push_back(finding);
    const auto then = with_sweep<Posterior>(*sweep_.folded().network, more, [](const auto& sweep) {
      return posterior_of(sweep, find_marginals(sweep), false);
    });
    return then ? whole_table(*foresight_.groups, foresight_.now, then->items) : ItemBeliefs{};
  }

  const ExplainedSetSweep<Real>& sweep_;
  const Evidence& evidence_;
  Marginals<Real> marginals_;
  Foresight foresight_;
  /// Per candidate; null where the finding carries evidence or is a twin. They point into
  /// themselves.
  std::vector<std::unique_ptr<CandidateEffect<Real>>> effects_;
  std::vector<Shared> shared_;
  std::vector<bool> known_;  ///< per finding: its chance stands in `now` already
};

}  // namespace

quantities::Result<Foresight> infer_with_outlook(const Network& network, const Evidence& evidence,
                                                 std::span<const std::size_t> candidates) {
  for (const std::size_t candidate : candidates) {
    CHECK(candidate < network.findings.size());
  }
  return with_sweep<Foresight>(
      network, evidence,
      [&]<class Real>(const ExplainedSetSweep<Real>& sweep) -> quantities::Result<Foresight> {
        return Foreseer<Real>(sweep, evidence).run(candidates);
      });
}

}  // namespace dryout::diagnosis
