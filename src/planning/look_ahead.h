// Our planner for a bare problem. It chooses one step at a time:
//
//   1. Where the rest of the job is small enough to be solved exactly within the allowance, it is,
//      and the step is optimal.
//   2. Otherwise it looks `depth` steps ahead. At the horizon stands the cost of only repairing, in
//      order of probability over cost with access clusters (repair_order.h), so that a check counts
//      for what it is expected to save on that tail. Every step is weighed one deep; the best few
//      are looked into deeper. This is a value-of-information heuristic: near the optimum on small
//      problems (README.md has the measured ratios), without a guarantee.
//   3. When the allowances are used up it goes on looking one step ahead.
#pragma once

#include <cstddef>
#include <string>
#include <unordered_map>

#include "planning/exact_optimum.h"
#include "planning/repair_order.h"
#include "planning/situation_space.h"

namespace dryout::planning {

/// How much work planning may take. The defaults are for small problems.
struct Diligence {
  /// Smaller allowances for larger problems, so that planning stays within seconds.
  [[nodiscard]] static Diligence for_size_of(const TroubleshootingProblem& problem);

  int depth = 3;                         ///< steps looked ahead
  std::size_t best_few = 4;              ///< steps worth a deeper look
  std::size_t exact_table_max = 20'000;  ///< of the exact search over the whole plan; 0 = never
  std::size_t exact_per_step = 500;      ///< of it, new entries a single step may cost
  std::size_t horizons_max = 200'000;    ///< tails worked out before it looks one step ahead only
};

class LookAhead {
 public:
  /// The space must outlive the planner.
  LookAhead(const SituationSpace& space, const Diligence& diligence)
      : space_(&space), diligence_(diligence), exact_(space) {}

  [[nodiscard]] Action choose(const Situation& at);

 private:
  [[nodiscard]] std::optional<Action> choose_exactly(const Situation& at);
  [[nodiscard]] Course tail(const Situation& at);
  [[nodiscard]] double after(const Situation& at, Action action, int depth);
  [[nodiscard]] Course ahead(const Situation& at, int depth);

  const SituationSpace* space_;
  Diligence diligence_;
  ExactOptimum exact_;
  std::unordered_map<std::string, Course> tails_;
  bool first_step_ = true;
};

}  // namespace dryout::planning
