#include "planning/situation_space.h"

#include <algorithm>
#include <bit>
#include <cstring>

#include "quantities/check.h"

namespace dryout::planning {
namespace {

constexpr std::uint64_t bit(std::size_t index) { return std::uint64_t{1} << index; }

/// Scales the weights to sum to 1 and returns what they summed to.
double normalise(std::vector<double>& weights) {
  double total = 0.0;
  for (const double w : weights) {
    total += w;
  }
  if (total > 0.0) {
    for (double& w : weights) {
      w /= total;
    }
  }
  return total;
}

/// Drops the last 12 of 52 bits, so that the same belief reached on two ways compares equal.
std::uint64_t rounded_bits(double weight) {
  constexpr std::uint64_t dropped = 12;
  return (std::bit_cast<std::uint64_t>(weight) + (std::uint64_t{1} << (dropped - 1))) >> dropped;
}

void append(std::string& text, std::uint64_t word) {
  char bytes[sizeof word];
  std::memcpy(bytes, &word, sizeof word);
  text.append(bytes, sizeof word);
}

}  // namespace

SituationSpace::SituationSpace(const TroubleshootingProblem& problem) : problem_(&problem) {
  CHECK(problem.access.size() <= TroubleshootingProblem::access_max);
  CHECK(problem.checks.size() <= TroubleshootingProblem::checks_max);
  repairs_of_.resize(problem.faults.size());
  for (std::size_t r = 0; r < problem.repairs.size(); ++r) {
    repair_needs_.push_back(closure(problem.repairs[r].access));
    for (const std::size_t fault : problem.repairs[r].fixes) {
      repairs_of_[fault].push_back(r);
    }
  }
  for (const Check& check : problem.checks) {
    check_needs_.push_back(closure(check.access));
  }
}

std::uint64_t SituationSpace::closure(const std::vector<std::size_t>& access) const {
  std::uint64_t bits = 0;
  std::vector<std::size_t> open_next = access;
  while (!open_next.empty()) {
    const std::size_t step = open_next.back();
    open_next.pop_back();
    if ((bits & bit(step)) == 0) {
      bits |= bit(step);
      const auto& needs = problem_->access[step].needs;
      open_next.insert(open_next.end(), needs.begin(), needs.end());
    }
  }
  return bits;
}

Situation SituationSpace::start() const {
  Situation situation;
  for (const Fault& fault : problem_->faults) {
    situation.weights.push_back(fault.prior);
  }
  normalise(situation.weights);
  return situation;
}

double SituationSpace::cures(const Situation& at, std::size_t repair) const {
  double sum = 0.0;
  for (const std::size_t fault : problem_->repairs[repair].fixes) {
    sum += at.weights[fault];
  }
  return sum;
}

bool SituationSpace::informs(const Situation& at, std::size_t check) const {
  if ((at.made & bit(check)) != 0) {
    return false;
  }
  const auto& given = problem_->checks[check].given;
  const std::vector<double>* first = nullptr;
  for (std::size_t f = 0; f < given.size(); ++f) {
    if (at.weights[f] <= 0.0) {
      continue;
    }
    if (first == nullptr) {
      first = &given[f];
    } else if (given[f] != *first) {
      return true;
    }
  }
  return false;
}

std::vector<Action> SituationSpace::actions(const Situation& at) const {
  std::vector<Action> found;
  for (std::size_t r = 0; r < problem_->repairs.size(); ++r) {
    if (cures(at, r) > 0.0) {
      found.push_back({Step::Kind::repair, r});
    }
  }
  for (std::size_t c = 0; c < problem_->checks.size(); ++c) {
    if (informs(at, c)) {
      found.push_back({Step::Kind::check, c});
    }
  }
  return found;
}

std::uint64_t SituationSpace::needs(Action action) const {
  switch (action.kind) {
    case Step::Kind::check:
      return check_needs_[action.index];
    case Step::Kind::repair:
      return repair_needs_[action.index];
    case Step::Kind::give_up:
      break;
  }
  return 0;
}

double SituationSpace::opening_minutes(std::uint64_t closed) const {
  double sum = 0.0;
  for (; closed != 0; closed &= closed - 1) {
    sum += problem_->access[static_cast<std::size_t>(std::countr_zero(closed))].minutes;
  }
  return sum;
}

double SituationSpace::cost(const Situation& at, Action action) const {
  const double opening = opening_minutes(needs(action) & ~at.open);
  switch (action.kind) {
    case Step::Kind::check:
      return problem_->checks[action.index].minutes + opening;
    case Step::Kind::repair:
      return problem_->repairs[action.index].minutes + opening;
    case Step::Kind::give_up:
      break;
  }
  return problem_->give_up_minutes;
}

std::size_t SituationSpace::slots(Action action) const {
  switch (action.kind) {
    case Step::Kind::check:
      return problem_->checks[action.index].outcomes.size();
    case Step::Kind::repair:
      return 1;
    case Step::Kind::give_up:
      break;
  }
  return 0;
}

std::vector<Branch> SituationSpace::follow(const Situation& at, Action action) const {
  std::vector<Branch> branches;
  for (std::size_t slot = 0; slot < slots(action); ++slot) {
    Branch branch{0.0, slot, {at.weights, at.open | needs(action), at.made}};
    auto& weights = branch.situation.weights;
    if (action.kind == Step::Kind::repair) {
      for (const std::size_t fault : problem_->repairs[action.index].fixes) {
        weights[fault] = 0.0;
      }
    } else {
      branch.situation.made |= bit(action.index);
      const auto& given = problem_->checks[action.index].given;
      for (std::size_t f = 0; f < weights.size(); ++f) {
        weights[f] *= given[f][slot];
      }
    }
    branch.probability = normalise(weights);
    if (branch.probability > 0.0) {
      branches.push_back(std::move(branch));
    }
  }
  return branches;
}

double SituationSpace::lower_bound(const Situation& at) const {
  double sum = 0.0;
  for (std::size_t f = 0; f < at.weights.size(); ++f) {
    if (at.weights[f] <= 0.0) {
      continue;
    }
    double least = problem_->give_up_minutes;
    for (const std::size_t r : repairs_of_[f]) {
      least = std::min(least, cost(at, {Step::Kind::repair, r}));
    }
    sum += at.weights[f] * least;
  }
  return sum;
}

std::string SituationSpace::key(const Situation& at) const {
  std::string text;
  text.reserve((at.weights.size() + 2) * sizeof(std::uint64_t));
  for (const double w : at.weights) {
    append(text, rounded_bits(w));
  }
  std::uint64_t informing = 0;
  std::uint64_t wanted = 0;
  for (const Action action : actions(at)) {
    wanted |= needs(action);
    if (action.kind == Step::Kind::check) {
      informing |= bit(action.index);
    }
  }
  append(text, informing);
  append(text, wanted & ~at.open);
  return text;
}

}  // namespace dryout::planning
