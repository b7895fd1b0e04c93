#include "planning/policy_tree.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "quantities/check.h"

namespace dryout::planning {
namespace {

class Grower {
 public:
  Grower(const SituationSpace& space, const Choose& choose, std::size_t nodes_max)
      : space_(&space), choose_(&choose), nodes_left_(nodes_max) {}

  std::unique_ptr<Step> grow(const Situation& at) {
    if (nodes_left_ == 0) {
      too_large_ = true;
      return nullptr;
    }
    --nodes_left_;
    const Action action = (*choose_)(at);
    auto step = std::make_unique<Step>();
    step->kind = action.kind;
    step->index = action.index;
    step->then.resize(space_->slots(action));
    for (const Branch& branch : space_->follow(at, action)) {
      step->then[branch.slot] = grow(branch.situation);
      if (too_large_) {
        return nullptr;
      }
    }
    return step;
  }

 private:
  const SituationSpace* space_;
  const Choose* choose_;
  std::size_t nodes_left_;
  bool too_large_ = false;
};

/// What the walk of a tree remembers: unlike the planners it must cope with any tree, also one that
/// repeats a check, and so it keeps the outcomes seen. Weights are joint probabilities here.
struct Walk {
  std::vector<double> weights;
  std::uint64_t open = 0;
  std::vector<std::optional<std::size_t>> seen;  ///< [check] outcome
};

double total(const std::vector<double>& weights) {
  double sum = 0.0;
  for (const double w : weights) {
    sum += w;
  }
  return sum;
}

double walk(const SituationSpace& space, const Walk& at, const Step& step);

double walk_on(const SituationSpace& space, const Walk& at, const Step& step, std::size_t slot) {
  constexpr double vanishing = 1e-290;  // below: may have been rounded to nothing by the planner
  if (total(at.weights) <= vanishing) {
    return 0.0;
  }
  CHECK(slot < step.then.size() && step.then[slot] != nullptr);  // the tree has no answer here
  return walk(space, at, *step.then[slot]);
}

double walk_check(const SituationSpace& space, const Walk& after, const Step& step) {
  if (const auto seen = after.seen[step.index]) {
    return walk_on(space, after, step, *seen);
  }
  double minutes = 0.0;
  const Check& check = space.problem().checks[step.index];
  for (std::size_t outcome = 0; outcome < check.outcomes.size(); ++outcome) {
    Walk branch = after;
    branch.seen[step.index] = outcome;
    for (std::size_t f = 0; f < branch.weights.size(); ++f) {
      branch.weights[f] *= check.given[f][outcome];
    }
    minutes += walk_on(space, branch, step, outcome);
  }
  return minutes;
}

/// Expected minutes from here on, times the probability of standing here.
double walk(const SituationSpace& space, const Walk& at, const Step& step) {
  const Action action{step.kind, step.index};
  Walk after = at;
  after.open |= space.needs(action);
  const double minutes = total(at.weights) * space.cost({at.weights, at.open, 0}, action);
  switch (step.kind) {
    case Step::Kind::give_up:
      return minutes;
    case Step::Kind::check:
      return minutes + walk_check(space, after, step);
    case Step::Kind::repair:
      break;
  }
  for (const std::size_t fault : space.problem().repairs[step.index].fixes) {
    after.weights[fault] = 0.0;
  }
  return minutes + walk_on(space, after, step, 0);
}

}  // namespace

std::unique_ptr<Step> grow(const SituationSpace& space, const Choose& choose,
                           std::size_t nodes_max) {
  return Grower(space, choose, nodes_max).grow(space.start());
}

double give_up_in_time(const SituationSpace& space, const Situation& at, Step& step) {
  const Action action{step.kind, step.index};
  double minutes = space.cost(at, action);
  for (const Branch& branch : space.follow(at, action)) {
    minutes +=
        branch.probability * give_up_in_time(space, branch.situation, *step.then[branch.slot]);
  }
  const double give_up = space.problem().give_up_minutes;
  if (step.kind != Step::Kind::give_up && give_up < minutes) {
    step = Step{};
  }
  return std::min(minutes, give_up);
}

double expected_minutes(const TroubleshootingProblem& problem, const Step& first) {
  const SituationSpace space(problem);
  Walk start{space.start().weights, 0, {}};
  start.seen.resize(problem.checks.size());
  return walk(space, start, first);
}

}  // namespace dryout::planning
