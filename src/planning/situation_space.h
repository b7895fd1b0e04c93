// Where a job can stand on its way through a bare troubleshooting problem, and what each step
// leads to. Everything that plans or judges a plan walks this one space, so that the meaning of the
// problem (troubleshooting_problem.h) is written down once.
//
// A situation is what is still believed (weights over the faults that are left, summing to 1), what
// stands open, and which checks were made. Costs are in minutes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "planning/plan.h"
#include "planning/troubleshooting_problem.h"

namespace dryout::planning {

struct Situation {
  std::vector<double> weights;  ///< [fault] P(fault | all that happened); 0 = ruled out or removed
  std::uint64_t open = 0;       ///< bit per access
  std::uint64_t made = 0;       ///< bit per check
};

struct Action {
  Step::Kind kind = Step::Kind::give_up;
  std::size_t index = 0;
};

/// One way an action can turn out.
struct Branch {
  double probability = 0.0;
  std::size_t slot = 0;  ///< which element of Step::then
  Situation situation;
};

class SituationSpace {
 public:
  /// The problem must outlive the space and keep within the sizes of read_problem.
  explicit SituationSpace(const TroubleshootingProblem& problem);

  [[nodiscard]] const TroubleshootingProblem& problem() const { return *problem_; }
  [[nodiscard]] Situation start() const;

  /// P(the repair ends the job).
  [[nodiscard]] double cures(const Situation& at, std::size_t repair) const;
  /// Whether the check can still tell the faults that are left apart.
  [[nodiscard]] bool informs(const Situation& at, std::size_t check) const;
  /// All steps that can change anything, giving up excepted.
  [[nodiscard]] std::vector<Action> actions(const Situation& at) const;

  /// Minutes of the step itself and of what must still be opened for it.
  [[nodiscard]] double cost(const Situation& at, Action action) const;
  /// Whatever can follow while the job is not done; impossible branches are left out.
  [[nodiscard]] std::vector<Branch> follow(const Situation& at, Action action) const;
  [[nodiscard]] std::size_t slots(Action action) const;  ///< size of Step::then

  /// Everything to be opened for an action when nothing is open, as bits.
  [[nodiscard]] std::uint64_t needs(Action action) const;
  [[nodiscard]] double opening_minutes(std::uint64_t closed) const;

  /// No plan can cost less: every fault needs one of its repairs, or giving up, even when it is
  /// known which fault it is.
  [[nodiscard]] double lower_bound(const Situation& at) const;

  /// The same text for situations with the same future: beliefs (to 12 digits), the checks that
  /// still inform, and what stands open of all that could still be needed.
  [[nodiscard]] std::string key(const Situation& at) const;

 private:
  [[nodiscard]] std::uint64_t closure(const std::vector<std::size_t>& access) const;

  const TroubleshootingProblem* problem_;
  std::vector<std::uint64_t> repair_needs_, check_needs_;
  std::vector<std::vector<std::size_t>> repairs_of_;  ///< [fault]
};

}  // namespace dryout::planning
