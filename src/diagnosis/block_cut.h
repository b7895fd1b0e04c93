// How one block is taken: in one step, or cut into parts that carry the levels of its cohort side
// by side, or item by item where items touch very many findings.
#pragma once

#include <vector>

#include "diagnosis/sweep_plan.h"

namespace dryout::diagnosis {

/// What one step will take. Without items it only opens or closes findings.
struct Part {
  std::vector<Index> items;
  std::vector<Index> shared;
  bool wide = false;
};

/// Which findings are open, and in how many later blocks or parts each still waits.
struct Waiting {
  std::vector<bool> open;
  std::vector<Index> left;

  /// Takes one part: opens its findings and closes those that wait no more.
  void pass(const Part& part) {
    for (const Index finding : part.shared) {
      --left[finding];
      open[finding] = left[finding] > 0;
    }
  }
};

/// The shared findings that an item can explain, sorted.
[[nodiscard]] std::vector<Index> shared_of_item(const FoldedEvidence& folded, Index item);
[[nodiscard]] std::vector<Index> united(const std::vector<Index>& a, const std::vector<Index>& b);

/// The cheapest way to take the block, in multiply-adds: its parts in order. `waiting` counts the
/// later blocks.
[[nodiscard]] std::vector<Part> cut_block(const FoldedEvidence& folded, const Block& block,
                                          const Waiting& waiting);

}  // namespace dryout::diagnosis
