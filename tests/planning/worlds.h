// Judges of plans that share nothing with the planners: one plays a policy tree in every world
// there can be (every fault with every combination of check outcomes), the other tries every policy
// there is.
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>
#include <vector>

#include "planning/plan.h"

namespace dryout::planning {

/// Minutes for opening `access` and what it needs, marking it open.
inline double open_up(const TroubleshootingProblem& problem, const std::vector<std::size_t>& access,
                      std::set<std::size_t>& open) {
  double minutes = 0.0;
  for (const std::size_t a : access) {
    minutes += open_up(problem, problem.access[a].needs, open);
    if (open.insert(a).second) {
      minutes += problem.access[a].minutes;
    }
  }
  return minutes;
}

/// Minutes of one job: the true fault is known, and what each check would say.
inline double play(const TroubleshootingProblem& problem, const Step& first, std::size_t fault,
                   const std::vector<std::size_t>& outcomes) {
  double minutes = 0.0;
  std::set<std::size_t> open;
  for (const Step* step = &first;;) {
    if (step->kind == Step::Kind::give_up) {
      return minutes + problem.give_up_minutes;
    }
    if (step->kind == Step::Kind::check) {
      const Check& check = problem.checks[step->index];
      minutes += check.minutes + open_up(problem, check.access, open);
      step = step->then.at(outcomes[step->index]).get();
    } else {
      const Repair& repair = problem.repairs[step->index];
      minutes += repair.minutes + open_up(problem, repair.access, open);
      if (std::count(repair.fixes.begin(), repair.fixes.end(), fault) != 0) {
        return minutes;
      }
      step = step->then.at(0).get();
    }
  }
}

/// The expectation over all worlds, each played through.
inline double minutes_over_all_worlds(const TroubleshootingProblem& problem, const Step& first) {
  double minutes = 0.0;
  for (std::size_t f = 0; f < problem.faults.size(); ++f) {
    std::vector<std::size_t> outcomes(problem.checks.size(), 0);
    for (bool more = true; more;) {
      double p = problem.faults[f].prior;
      for (std::size_t c = 0; c < outcomes.size(); ++c) {
        p *= problem.checks[c].given[f][outcomes[c]];
      }
      if (p > 0.0) {
        minutes += p * play(problem, first, f, outcomes);
      }
      more = false;
      for (std::size_t c = 0; c < outcomes.size() && !more; ++c) {
        outcomes[c] = (outcomes[c] + 1) % problem.checks[c].outcomes.size();
        more = outcomes[c] != 0;
      }
    }
  }
  return minutes;
}

/// The least expected minutes (times the probability of the history) of any policy at all: every
/// step in every order after every history, nothing remembered, nothing bounded.
inline double try_every_policy(const TroubleshootingProblem& problem, std::vector<double> joint,
                               std::set<std::size_t> open, std::map<std::size_t, std::size_t> seen,
                               std::set<std::size_t> repaired) {
  double here = 0.0;
  for (const double w : joint) {
    here += w;
  }
  if (here == 0.0) {
    return 0.0;
  }
  double best = here * problem.give_up_minutes;
  for (std::size_t r = 0; r < problem.repairs.size(); ++r) {
    if (repaired.count(r) == 0) {
      auto opened = open;
      auto done = repaired;
      auto left = joint;
      const Repair& repair = problem.repairs[r];
      const double cost = repair.minutes + open_up(problem, repair.access, opened);
      done.insert(r);
      for (const std::size_t f : repair.fixes) {
        left[f] = 0.0;
      }
      best = std::min(best, here * cost + try_every_policy(problem, left, opened, seen, done));
    }
  }
  for (std::size_t c = 0; c < problem.checks.size(); ++c) {
    if (seen.count(c) == 0) {
      auto opened = open;
      const Check& check = problem.checks[c];
      double cost = here * (check.minutes + open_up(problem, check.access, opened));
      for (std::size_t o = 0; o < check.outcomes.size(); ++o) {
        auto then = seen;
        auto left = joint;
        then[c] = o;
        for (std::size_t f = 0; f < left.size(); ++f) {
          left[f] *= check.given[f][o];
        }
        cost += try_every_policy(problem, left, opened, then, repaired);
      }
      best = std::min(best, cost);
    }
  }
  return best;
}

inline double best_of_every_policy(const TroubleshootingProblem& problem) {
  std::vector<double> joint;
  for (const Fault& fault : problem.faults) {
    joint.push_back(fault.prior);
  }
  return try_every_policy(problem, joint, {}, {}, {});
}

}  // namespace dryout::planning
