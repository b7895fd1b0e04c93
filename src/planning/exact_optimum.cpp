#include "planning/exact_optimum.h"

#include <algorithm>
#include <vector>

namespace dryout::planning {
namespace {

constexpr std::size_t asked_every = 256;  // entries; a clock costs less than that many
constexpr double unlimited = std::numeric_limits<double>::infinity();

/// An action with a bound from below on what it and everything after it costs.
struct Candidate {
  Action action;
  double bound = 0.0;
};

std::vector<Candidate> candidates(const SituationSpace& space, const Situation& at) {
  std::vector<Candidate> found;
  for (const Action action : space.actions(at)) {
    double bound = space.cost(at, action);
    for (const Branch& branch : space.follow(at, action)) {
      bound += branch.probability * space.lower_bound(branch.situation);
    }
    found.push_back({action, bound});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Candidate& a, const Candidate& b) { return a.bound < b.bound; });
  return found;
}

}  // namespace

std::optional<ExactOptimum::Solved> ExactOptimum::solve(const Situation& at, std::size_t table_max,
                                                        const KeepOn& keep_on) {
  table_max_ = table_max;
  keep_on_ = keep_on ? &keep_on : nullptr;
  ask_at_ = table_.size() + asked_every;
  table_full_ = false;
  const double minutes = search(at, unlimited);
  if (table_full_) {
    return std::nullopt;
  }
  return Solved{minutes, table_.at(space_->key(at)).action};
}

double ExactOptimum::search(const Situation& at, double limit) {
  std::string key = space_->key(at);
  if (const auto known = table_.find(key);
      known != table_.end() && (known->second.exact || known->second.minutes >= limit)) {
    return known->second.minutes;
  }
  if (keep_on_ != nullptr && table_.size() >= ask_at_) {
    ask_at_ = table_.size() + asked_every;
    table_full_ = table_full_ || !(*keep_on_)();
  }
  if (table_full_ || table_.size() >= table_max_) {
    table_full_ = true;
    return 0.0;
  }
  Entry best{space_->problem().give_up_minutes, true, {}};
  double skipped = unlimited;  // no action that was left out can cost less than this
  for (const Candidate& candidate : candidates(*space_, at)) {
    const double target = std::min(best.minutes, limit);
    if (candidate.bound >= target) {
      skipped = std::min(skipped, candidate.bound);
      break;  // the rest is bounded higher still
    }
    const double minutes = try_action(at, candidate.action, target);
    if (table_full_) {
      return 0.0;
    }
    if (minutes < target) {
      best = {minutes, true, candidate.action};
    } else {
      skipped = std::min(skipped, minutes);
    }
  }
  if (best.minutes >= limit) {
    best = {std::min(best.minutes, skipped), false, {}};
  }
  table_.insert_or_assign(std::move(key), best);
  return best.minutes;
}

double ExactOptimum::try_action(const Situation& at, Action action, double limit) {
  const std::vector<Branch> branches = space_->follow(at, action);
  std::vector<double> bounds;
  double total = space_->cost(at, action);
  for (const Branch& branch : branches) {
    bounds.push_back(space_->lower_bound(branch.situation));
    total += branch.probability * bounds.back();
  }
  for (std::size_t b = 0; b < branches.size() && total < limit; ++b) {
    const double p = branches[b].probability;
    const double minutes = search(branches[b].situation, bounds[b] + (limit - total) / p);
    if (table_full_) {
      return 0.0;
    }
    total += p * (minutes - bounds[b]);
  }
  return total;
}

}  // namespace dryout::planning
