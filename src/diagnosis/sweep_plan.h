// What the sweep will do, before any number is known: blocks (a cohort's hot items, or one hot item
// without cohort) in an order that keeps few shared findings open, each block cut into steps, and
// for each step the index arithmetic of its kernel.
//
// A vector between two steps has one entry per subset of the open findings that is already
// explained (and per level, inside a block that was cut). A step reads such a vector and writes the
// next. Findings of the step play one of four roles:
//   stays   open before and after     3 entries: 0 to 0, 0 to 1, 1 to 1
//   leaves  open before, not after    2 entries: from 0, from 1
//   enters  not open before           2 entries: to 0, to 1
//   passes  lives in this step only   1 entry
// The kernel is the tensor product of these over the step's findings. An item that touches many
// findings takes a wide step instead: one entry per state of the item, which applies that state's
// links one by one to the whole vector. All findings of a wide step stay; steps without items open
// them before and close them after.
#pragma once

#include <array>
#include <vector>

#include "diagnosis/folded_evidence.h"
#include "quantities/result.h"

namespace dryout::diagnosis {

enum class Role : std::uint8_t { stays, leaves, enters, passes };
[[nodiscard]] constexpr Index entries_of(Role role) {
  return role == Role::stays ? 3 : (role == Role::passes ? 1 : 2);
}

/// Kernel entries grouped by the state they write to, for one direction of the sweep.
struct Direction {
  std::vector<Index> entry;   ///< index into the kernel
  std::vector<Index> source;  ///< offset of the state it reads
  std::vector<Index> first;   ///< group g is entries first[g] to first[g + 1]
  std::vector<Index> target;  ///< offset of the state group g writes
};

/// A link with its finding numbered within the step.
struct LocalLink {
  Index state = 0;
  Index finding = 0;
  double strength = 0.0;
};

struct Step {
  Index block = 0;
  bool opens = false;  ///< first step of its block: takes in the level weights
  bool wide = false;
  Index lanes_in = 1;   ///< levels carried by the vector before, or 1
  Index lanes_out = 1;  ///< and after
  std::vector<Index> items;
  std::vector<Index> shared;  ///< findings of the step; bit k of a local state is shared[k]
  std::vector<Role> roles;
  std::vector<Index> first_link;  ///< per item and one past the end
  std::vector<LocalLink> links;
  std::vector<Index> first_row;  ///< per item and one past the end; a row is a state of an item

  std::vector<Index> place;  ///< wide: bit of each of the step's findings in the vectors

  Index log2_in = 0;            ///< open findings before
  Index log2_out = 0;           ///< and after
  std::vector<Index> from, to;  ///< offsets of each kernel entry
  Direction forward, backward;
  /// The findings that the step leaves alone: runs of 2^log2_run entries starting at these bases.
  Index log2_run = 0;
  std::vector<Index> base_in, base_out;

  /// Subsets of the step's findings; in a wide step, states of its item.
  [[nodiscard]] Index local_states() const { return wide ? rows() : Index{1} << shared.size(); }
  [[nodiscard]] Index entries() const { return wide ? rows() : static_cast<Index>(from.size()); }
  [[nodiscard]] Index lanes() const { return lanes_in > lanes_out ? lanes_in : lanes_out; }
  [[nodiscard]] Index size_in() const { return lanes_in << log2_in; }
  [[nodiscard]] Index size_out() const { return lanes_out << log2_out; }
  [[nodiscard]] Index rows() const { return first_row.back(); }
};

struct Block {
  Index cohort = none;
  Index levels = 1;
  std::vector<Index> items;
  std::vector<Index> shared;
  Index first_step = 0;
};

struct SweepPlan {
  std::vector<Block> blocks;
  std::vector<Step> steps;
  std::vector<Index> step_of_item;     ///< none for cold items
  std::vector<Index> block_of_cohort;  ///< none for cold cohorts
  /// Steps that are tied together by open findings: those of step t end before piece_end[t].
  std::vector<Index> piece_begin, piece_end;
};

/// A Problem where the findings hang together so closely that the sweep would not fit: more than
/// open_max open at once, or more than memory_max bytes.
inline constexpr Index open_max = 22;
inline constexpr double memory_max = 1.0e9;
[[nodiscard]] quantities::Result<SweepPlan> plan_sweep(const FoldedEvidence& folded);

}  // namespace dryout::diagnosis
