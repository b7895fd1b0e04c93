// The sweep once more with something held: an item in each of its states, or a cohort at each of
// its levels, side by side. What it yields is how every row and level of the steps tied to it goes
// together with what is held. A check that looks at nothing else within the sweep is then a
// weighted sum: all checks on one part, or on cold parts of one cohort, share one such sweep, and
// each costs no more than reading it off.
#pragma once

#include <vector>

#include "diagnosis/explained_set_sweep.h"

namespace dryout::diagnosis {

/// What is held. Exactly one of the two is not `none`.
struct Held {
  Index item = none;    ///< a hot one
  Index cohort = none;  ///< one in the sweep
  [[nodiscard]] bool operator==(const Held&) const = default;
};

template <class Real>
class HeldSweep {
 public:
  /// More ways than this do not lie side by side.
  static constexpr Index ways_max = 8;
  [[nodiscard]] static Index ways_of(const FoldedEvidence& folded, const Held& held);

  /// The sweep must outlive this.
  HeldSweep(const ExplainedSetSweep<Real>& sweep, const Held& held);

  [[nodiscard]] Index ways() const { return ways_; }
  [[nodiscard]] Index step() const { return step_; }    ///< in which it is held
  [[nodiscard]] Index begin() const { return begin_; }  ///< steps tied to it
  [[nodiscard]] Index end() const { return end_; }

  /// P(held this way | evidence), for all ways.
  [[nodiscard]] const std::vector<Real>& chances() const { return chances_; }
  /// Joint weights [way] of a row of step t, and of a level of the block that step t opens; on the
  /// scale of ExplainedSetSweep::state_values and level_values.
  [[nodiscard]] const Real* row(Index t, Index row) const {
    return &rows_[t - begin_][static_cast<std::size_t>(row) * width_];
  }
  [[nodiscard]] const Real* level(Index t, Index level) const {
    return &levels_[t - begin_][static_cast<std::size_t>(level) * width_];
  }

 private:
  [[nodiscard]] std::vector<Real> kernel() const;
  [[nodiscard]] std::vector<Real> first_after(const std::vector<Real>& kernel) const;
  [[nodiscard]] std::vector<Real> first_before(const std::vector<Real>& kernel) const;
  void go_on(std::vector<Real> vector);
  void go_back(std::vector<Real> vector);
  void read(Index t, std::vector<Real> met);
  void read_own_step();
  [[nodiscard]] const Real* table(Index way, Index level) const;

  const ExplainedSetSweep<Real>& sweep_;
  Held held_;
  Index ways_ = 1;
  Index width_ = 1;  ///< ways and padding: 1, 2, 4 or 8
  Index step_ = 0, begin_ = 0, end_ = 0;
  std::vector<Real> chances_;
  std::vector<std::vector<Real>> rows_;    ///< [step][row][width]
  std::vector<std::vector<Real>> levels_;  ///< [step][level][width]; empty where it opens no cohort
};

}  // namespace dryout::diagnosis
