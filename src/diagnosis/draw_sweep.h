// The sweep behind the draws. Backward it keeps, at every step, how likely the later items are to
// explain what a set of explained findings leaves open; forward it draws whole fault states one
// item at a time, each with exactly its chance given the evidence, and on the way works out the
// exact marginals. As everywhere in this room every number is a sum of non-negative products.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/draw_order.h"

namespace dryout::diagnosis {

/// Whole fault states: the state of every item, the level of every cohort.
struct DrawnStates {
  std::size_t count = 0;
  std::vector<std::uint16_t> state;  ///< [draw][item]
  std::vector<std::uint16_t> level;  ///< [draw][cohort]
};

class DrawSweep {
 public:
  /// All must outlive the sweep.
  DrawSweep(const FoldedEvidence& folded, const DrawOrder& order);

  /// False where the evidence is impossible, or spans more decades than a double holds.
  [[nodiscard]] bool sound() const { return sound_; }
  [[nodiscard]] double log_evidence() const { return evidence_.log(); }

  /// Goes forward: draws, and works out the marginals. The same seed gives the same draws.
  [[nodiscard]] DrawnStates draw(std::size_t count, std::uint64_t seed);

  /// After draw(), exact: [item][state], [cohort][level]; each sums to 1.
  [[nodiscard]] const std::vector<std::vector<double>>& items() const { return items_; }
  [[nodiscard]] const std::vector<std::vector<double>>& cohorts() const { return cohorts_; }

 private:
  friend class Forward;
  void go_back();

  const FoldedEvidence& folded_;
  const DrawOrder& order_;
  ScaledProduct evidence_;
  bool sound_ = true;
  std::vector<std::vector<double>> after_;  ///< [step][lane][set]: when its item has acted
  std::vector<std::vector<double>> items_;
  std::vector<std::vector<double>> cohorts_;
};

}  // namespace dryout::diagnosis
