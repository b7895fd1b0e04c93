// The cheapest plan there is, by dynamic programming over situations (beliefs x checks left x what
// stands open). Depth first with branch and bound: a situation is solved only as exactly as its
// parent needs, and what was learnt about it (its value, or a bound below which it cannot lie) is
// kept in a table. The search is exact; the bound only skips what cannot win.
//
// The table grows with the number of outcome histories times the sets of repairs done times the
// sets of access opened: exponential in all three, and bounded by the caller.
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <unordered_map>

#include "planning/situation_space.h"

namespace dryout::planning {

class ExactOptimum {
 public:
  struct Solved {
    double minutes = 0.0;  ///< least expected minutes from here
    Action action;         ///< the first step of a plan that reaches it
  };

  /// The space must outlive the search.
  explicit ExactOptimum(const SituationSpace& space) : space_(&space) {}

  /// Asked now and then whether to go on: how a caller that has a clock keeps its time.
  using KeepOn = std::function<bool()>;

  /// Solves one situation; nothing where the table would grow beyond `table_max` entries, or once
  /// `keep_on` says no. What was found until then is kept, and helps the next call.
  [[nodiscard]] std::optional<Solved> solve(const Situation& at, std::size_t table_max,
                                            const KeepOn& keep_on = {});

  [[nodiscard]] std::size_t table_size() const { return table_.size(); }

 private:
  struct Entry {
    double minutes = 0.0;  ///< the value where exact, else a bound from below
    bool exact = false;
    Action action;
  };

  /// The value where it is below `limit`, else a bound from below that is at least `limit`.
  double search(const Situation& at, double limit);
  double try_action(const Situation& at, Action action, double limit);

  const SituationSpace* space_;
  std::unordered_map<std::string, Entry> table_;
  std::size_t table_max_ = 0;
  const KeepOn* keep_on_ = nullptr;
  std::size_t ask_at_ = 0;
  bool table_full_ = false;
};

}  // namespace dryout::planning
