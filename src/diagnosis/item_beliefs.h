// Posteriors of all items after one outcome of a check, stored only where that outcome can move
// them. A check moves the items it is connected with through the evidence, in groups; every other
// item keeps the belief it has now.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
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
      : groups_(&groups), now_(now), moved_(std::move(moved)), values_(std::move(values)) {}

  [[nodiscard]] bool empty() const { return now_.empty(); }
  [[nodiscard]] std::size_t size() const { return now_.size(); }

  [[nodiscard]] std::span<const double> operator[](std::size_t item) const {
    for (const MovedGroup& moved : moved_) {
      if (moved.group == groups_->group[item]) {
        return {&values_[moved.first + groups_->place[item]], now_[item].size()};
      }
    }
    return now_[item];
  }

  /// The items whose beliefs the outcome can move; a sum over items needs to look at these only.
  [[nodiscard]] std::vector<std::size_t> moved() const {
    std::vector<std::size_t> items;
    for (const MovedGroup& moved : moved_) {
      const std::vector<std::size_t>& members = groups_->members[moved.group];
      items.insert(items.end(), members.begin(), members.end());
    }
    return items;
  }

 private:
  const ItemGroups* groups_ = nullptr;
  std::span<const std::vector<double>> now_;
  std::vector<MovedGroup> moved_;
  std::vector<double> values_;
};

}  // namespace dryout::diagnosis
