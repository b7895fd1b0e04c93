#include "planning/repair_order.h"

#include <algorithm>
#include <limits>
#include <optional>

namespace dryout::planning {
namespace {

/// p/C, with nothing to pay ahead of everything.
double ratio(double probability, double minutes) {
  return minutes > 0.0 ? probability / minutes : std::numeric_limits<double>::infinity();
}

struct Pick {
  std::size_t repair = 0;
  double score = 0.0;
};

double single_score(const SituationSpace& space, const Situation& at, std::size_t repair,
                    OrderBy order) {
  const double p = space.cures(at, repair);
  switch (order) {
    case OrderBy::probability:
      return p;
    case OrderBy::probability_over_cost:
      return ratio(p, space.cost(at, {Step::Kind::repair, repair}));
    case OrderBy::printed:
      return 1.0;
    case OrderBy::clusters:
      break;
  }
  return ratio(p, space.problem().repairs[repair].minutes);
}

std::vector<Pick> useful_repairs(const SituationSpace& space, const Situation& at, OrderBy order) {
  std::vector<Pick> picks;
  for (std::size_t r = 0; r < space.problem().repairs.size(); ++r) {
    if (space.cures(at, r) > 0.0) {
      picks.push_back({r, single_score(space, at, r, order)});
    }
  }
  return picks;
}

/// The best prefix of the repairs that are within reach once `opened` stands open: its p/C, and the
/// repair it begins with. `picks` is sorted, best p/C first.
Pick best_prefix(const SituationSpace& space, const Situation& at, std::uint64_t opened,
                 const std::vector<Pick>& picks) {
  Pick best{picks.front().repair, -1.0};
  std::optional<std::size_t> first;
  std::vector<double> left = at.weights;
  double cured = 0.0;
  double minutes = space.opening_minutes(opened & ~at.open);
  for (const Pick& pick : picks) {
    if ((space.needs({Step::Kind::repair, pick.repair}) & ~(opened | at.open)) != 0) {
      continue;
    }
    for (const std::size_t fault : space.problem().repairs[pick.repair].fixes) {
      cured += left[fault];
      left[fault] = 0.0;
    }
    minutes += space.problem().repairs[pick.repair].minutes;
    first = first.value_or(pick.repair);
    if (ratio(cured, minutes) > best.score) {
      best = {*first, ratio(cured, minutes)};
    }
  }
  return best;
}

std::size_t best_by_cluster(const SituationSpace& space, const Situation& at,
                            std::vector<Pick>& picks) {
  std::stable_sort(picks.begin(), picks.end(),
                   [](const Pick& a, const Pick& b) { return a.score > b.score; });
  std::vector<std::uint64_t> clusters;
  clusters.reserve(picks.size());
  for (const Pick& pick : picks) {
    clusters.push_back(space.needs({Step::Kind::repair, pick.repair}) & ~at.open);
  }
  std::sort(clusters.begin(), clusters.end());
  clusters.erase(std::unique(clusters.begin(), clusters.end()), clusters.end());
  Pick best{picks.front().repair, -1.0};
  for (const std::uint64_t cluster : clusters) {
    const Pick pick = best_prefix(space, at, cluster, picks);
    if (pick.score > best.score) {
      best = pick;
    }
  }
  return best.repair;
}

std::optional<std::size_t> next_repair(const SituationSpace& space, const Situation& at,
                                       OrderBy order) {
  std::vector<Pick> picks = useful_repairs(space, at, order);
  if (picks.empty()) {
    return std::nullopt;
  }
  if (order == OrderBy::clusters) {
    return best_by_cluster(space, at, picks);
  }
  return std::max_element(picks.begin(), picks.end(),
                          [](const Pick& a, const Pick& b) { return a.score < b.score; })
      ->repair;
}

}  // namespace

Course repairs_in_order(const SituationSpace& space, Situation at, OrderBy order) {
  struct Try {
    Action action;
    double minutes, goes_on;
  };
  std::vector<Try> tries;
  while (const auto repair = next_repair(space, at, order)) {
    const Action action{Step::Kind::repair, *repair};
    tries.push_back({action, space.cost(at, action), 0.0});
    std::vector<Branch> branches = space.follow(at, action);
    if (branches.empty()) {
      break;
    }
    tries.back().goes_on = branches.front().probability;
    at = std::move(branches.front().situation);
  }
  const double give_up = space.problem().give_up_minutes;
  Course course{give_up, {}};
  for (auto t = tries.rbegin(); t != tries.rend(); ++t) {
    const double minutes = t->minutes + t->goes_on * course.minutes;
    course = minutes < give_up ? Course{minutes, t->action} : Course{give_up, {}};
  }
  return course;
}

}  // namespace dryout::planning
