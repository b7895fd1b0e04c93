// Posteriors of all items after one outcome of a check, stored only where that outcome can move
// them. A check moves the items it is connected with through the evidence, in groups; every other
// item keeps the belief it has now. What twins (candidate_twins.h) would be is stored once.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <utility>
#include <vector>

namespace dryout::diagnosis {

/// Items that evidence ties together: a check moves all items of a group or none.
struct ItemGroups {
  std::vector<std::uint32_t> group;               ///< per item
  std::vector<std::uint32_t> place;               ///< per item: its first value within its group
  std::vector<std::vector<std::size_t>> members;  ///< per group
  std::vector<std::uint32_t> width;               ///< per group: number of values
};

/// Reads like a table: beliefs[item][state]. Looks through to the beliefs of now, so it must not
/// outlive the Foresight it belongs to.
class ItemBeliefs {
 public:
  struct MovedGroup {
    std::uint32_t group = 0;
    std::uint32_t first = 0;  ///< its first value in `values`
  };

  /// An outcome that cannot happen: empty.
  ItemBeliefs() = default;
  /// `now` holds one vector of state probabilities per item.
  ItemBeliefs(const ItemGroups& groups, std::span<const std::vector<double>> now,
              std::vector<MovedGroup> moved, std::vector<double> values)
      : groups_(&groups),
        now_(now),
        own_(std::make_unique<const Table>(Table{std::move(moved), std::move(values)})),
        table_(own_.get()) {}
  /// The same with two items in each other's place; both are believed the same now. Reads this
  /// one's table, and must not outlive it.
  [[nodiscard]] ItemBeliefs with_swapped(std::size_t a, std::size_t b) const {
    ItemBeliefs swapped;
    swapped.groups_ = groups_;
    swapped.now_ = now_;
    swapped.table_ = table_;
    swapped.a_ = a;
    swapped.b_ = b;
    return swapped;
  }

  [[nodiscard]] bool empty() const { return now_.empty(); }
  [[nodiscard]] std::size_t size() const { return now_.size(); }

  [[nodiscard]] std::span<const double> operator[](std::size_t item) const {
    const std::size_t stands_for = other(item);
    for (const MovedGroup& moved : table_->moved) {
      if (moved.group == groups_->group[stands_for]) {
        return {&table_->values[moved.first + groups_->place[stands_for]], now_[item].size()};
      }
    }
    return now_[item];
  }

  /// The items whose beliefs the outcome can move; a sum over items needs to look at these only.
  [[nodiscard]] std::vector<std::size_t> moved() const {
    std::vector<std::size_t> items;
    if (table_ == nullptr) {
      return items;
    }
    for (const MovedGroup& moved : table_->moved) {
      for (const std::size_t item : groups_->members[moved.group]) {
        items.push_back(other(item));
      }
    }
    return items;
  }

 private:
  struct Table {
    std::vector<MovedGroup> moved;
    std::vector<double> values;
  };
  [[nodiscard]] std::size_t other(std::size_t item) const {
    return item == a_ ? b_ : item == b_ ? a_ : item;
  }

  const ItemGroups* groups_ = nullptr;
  std::span<const std::vector<double>> now_;
  std::unique_ptr<const Table> own_;  ///< null where another one's is read
  const Table* table_ = nullptr;
  std::size_t a_ = 0, b_ = 0;  ///< in each other's place
};

}  // namespace dryout::diagnosis
