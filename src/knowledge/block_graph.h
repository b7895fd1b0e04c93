// One equipment as a graph of places: which rails, blocks and groups a consequence reaches from
// where its cause stands. Everything is an index into the equipment's own lists.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "knowledge/rules.h"

namespace dryout::knowledge {

/// A rail, a block or a group of an equipment.
struct Location {
  Phenomenon::At at = Phenomenon::At::block;
  std::size_t index = 0;
  friend auto operator<=>(const Location&, const Location&) = default;
};

/// A list of kinds in a rule; an empty one takes any kind.
[[nodiscard]] bool accepts(const std::vector<std::string>& kinds, const std::string& kind);

/// Kind of the rail or block, role of the group.
[[nodiscard]] const std::string& kind_of(const Equipment& equipment, const Location& place);
[[nodiscard]] const std::string& title_of(const Equipment& equipment, const Location& place);
[[nodiscard]] const std::string& id_of(const Equipment& equipment, const Location& place);

/// What sort of place a reach ends at, or nothing where it leads nowhere from there.
[[nodiscard]] std::optional<Phenomenon::At> lands_at(Reach reach, Phenomenon::At from);

class BlockGraph {
 public:
  /// The equipment must outlive the graph. Ids that it does not have are left out.
  explicit BlockGraph(const Equipment& equipment);

  [[nodiscard]] const Equipment& equipment() const { return *equipment_; }
  /// All places, numbered without gaps: rails, then blocks, then groups.
  [[nodiscard]] std::size_t size() const;
  [[nodiscard]] std::size_t number(const Location& place) const;
  [[nodiscard]] Location location(std::size_t number) const;

  [[nodiscard]] std::vector<Location> reached(Reach reach, const Location& from) const;
  /// The block a group sits in, the block itself; nothing for a rail.
  [[nodiscard]] std::optional<std::size_t> block_of(const Location& place) const;

 private:
  using Indices = std::vector<std::size_t>;
  using Index = std::map<std::string, std::size_t, std::less<>>;
  [[nodiscard]] Indices from_rail(Reach reach, std::size_t rail) const;
  [[nodiscard]] Indices from_block(Reach reach, std::size_t block) const;
  [[nodiscard]] Indices from_group(Reach reach, std::size_t group) const;
  [[nodiscard]] Indices sending_to(const std::string& block) const;
  [[nodiscard]] Indices neighbours(std::size_t group) const;
  [[nodiscard]] std::string_view board_of(std::size_t group) const;

  const Equipment* equipment_;
  Index rails_, blocks_;
};

}  // namespace dryout::knowledge
