#include "knowledge/block_graph.h"

#include <algorithm>

#include "quantities/holds.h"

namespace dryout::knowledge {
namespace {

using quantities::holds;
using At = Phenomenon::At;

/// What rails, blocks and groups can all be asked.
template <class Question>
const std::string& ask(const Equipment& equipment, const Location& place, Question question) {
  switch (place.at) {
    case At::rail:
      return question(equipment.rails[place.index]);
    case At::block:
      return question(equipment.blocks[place.index]);
    case At::group:
      break;
  }
  return question(equipment.groups[place.index]);
}

template <class Index>
std::vector<std::size_t> named(const Index& index, const std::vector<std::string>& ids) {
  std::vector<std::size_t> list;
  for (const std::string& id : ids) {
    if (const auto found = index.find(id); found != index.end()) list.push_back(found->second);
  }
  return list;
}

}  // namespace

bool accepts(const std::vector<std::string>& kinds, const std::string& kind) {
  return kinds.empty() || holds(kinds, kind);
}

const std::string& kind_of(const Equipment& equipment, const Location& place) {
  switch (place.at) {
    case At::rail:
      return equipment.rails[place.index].kind;
    case At::block:
      return equipment.blocks[place.index].kind;
    case At::group:
      break;
  }
  return equipment.groups[place.index].role;
}

const std::string& title_of(const Equipment& equipment, const Location& place) {
  return ask(
      equipment, place, [](const auto& part) -> auto& { return part.title; });
}

const std::string& id_of(const Equipment& equipment, const Location& place) {
  return ask(
      equipment, place, [](const auto& part) -> auto& { return part.id; });
}

std::optional<At> lands_at(Reach reach, At from) {
  switch (reach) {
    case Reach::here:
      return from;
    case Reach::own_rail:
      return from == At::group ? std::optional(At::rail) : std::nullopt;
    case Reach::neighbours:
      return from == At::group ? std::optional(At::group) : std::nullopt;
    case Reach::fed_blocks:
    case Reach::source_block:
      return from == At::rail ? std::optional(At::block) : std::nullopt;
    case Reach::branch_rails:
      return from == At::rail ? std::optional(At::rail) : std::nullopt;
    case Reach::made_rails:
    case Reach::supply_rails:
      return from == At::rail ? std::nullopt : std::optional(At::rail);
    case Reach::own_block:
    case Reach::next_blocks:
    case Reach::previous_blocks:
      break;
  }
  return from == At::rail ? std::nullopt : std::optional(At::block);
}

BlockGraph::BlockGraph(const Equipment& equipment) : equipment_(&equipment) {
  for (std::size_t i = 0; i < equipment.rails.size(); ++i) rails_[equipment.rails[i].id] = i;
  for (std::size_t i = 0; i < equipment.blocks.size(); ++i) blocks_[equipment.blocks[i].id] = i;
}

std::size_t BlockGraph::size() const {
  return equipment_->rails.size() + equipment_->blocks.size() + equipment_->groups.size();
}

std::size_t BlockGraph::number(const Location& place) const {
  const std::size_t before_blocks = equipment_->rails.size();
  switch (place.at) {
    case At::rail:
      return place.index;
    case At::block:
      return before_blocks + place.index;
    case At::group:
      break;
  }
  return before_blocks + equipment_->blocks.size() + place.index;
}

Location BlockGraph::location(std::size_t number) const {
  if (number < equipment_->rails.size()) {
    return {At::rail, number};
  }
  number -= equipment_->rails.size();
  if (number < equipment_->blocks.size()) {
    return {At::block, number};
  }
  return {At::group, number - equipment_->blocks.size()};
}

std::optional<std::size_t> BlockGraph::block_of(const Location& place) const {
  if (place.at == At::block) {
    return place.index;
  }
  if (place.at == At::rail) {
    return std::nullopt;
  }
  const auto found = blocks_.find(equipment_->groups[place.index].block);
  return found == blocks_.end() ? std::nullopt : std::optional(found->second);
}

std::vector<Location> BlockGraph::reached(Reach reach, const Location& from) const {
  const auto at = lands_at(reach, from.at);
  if (!at) {
    return {};
  }
  if (reach == Reach::here) {
    return {from};
  }
  const Indices indices = from.at == At::rail    ? from_rail(reach, from.index)
                          : from.at == At::block ? from_block(reach, from.index)
                                                 : from_group(reach, from.index);
  std::vector<Location> places;
  for (const std::size_t index : indices) places.push_back({*at, index});
  return places;
}

BlockGraph::Indices BlockGraph::from_rail(Reach reach, std::size_t rail) const {
  const std::string& id = equipment_->rails[rail].id;
  Indices list;
  if (reach == Reach::branch_rails) {
    for (std::size_t r = 0; r < equipment_->rails.size(); ++r) {
      if (equipment_->rails[r].from == id) list.push_back(r);
    }
    return list;
  }
  for (std::size_t b = 0; b < equipment_->blocks.size(); ++b) {
    const Block& block = equipment_->blocks[b];
    if (holds(reach == Reach::fed_blocks ? block.fed_by : block.makes, id)) list.push_back(b);
  }
  return list;
}

BlockGraph::Indices BlockGraph::from_block(Reach reach, std::size_t block) const {
  const Block& here = equipment_->blocks[block];
  switch (reach) {
    case Reach::own_block:
      return {block};
    case Reach::next_blocks:
      return named(blocks_, here.signal_to);
    case Reach::made_rails:
      return named(rails_, here.makes);
    case Reach::supply_rails:
      return named(rails_, here.fed_by);
    case Reach::previous_blocks:
      return sending_to(here.id);
    default:
      return {};
  }
}

BlockGraph::Indices BlockGraph::from_group(Reach reach, std::size_t group) const {
  if (reach == Reach::own_rail) {
    return named(rails_, {equipment_->groups[group].rail});
  }
  if (reach == Reach::neighbours) {
    return neighbours(group);
  }
  const auto block = block_of({At::group, group});
  return block ? from_block(reach, *block) : Indices{};
}

BlockGraph::Indices BlockGraph::sending_to(const std::string& block) const {
  Indices list;
  for (std::size_t b = 0; b < equipment_->blocks.size(); ++b) {
    if (holds(equipment_->blocks[b].signal_to, block)) list.push_back(b);
  }
  return list;
}

std::string_view BlockGraph::board_of(std::size_t group) const {
  const auto block = block_of({At::group, group});
  return block ? std::string_view(equipment_->blocks[*block].board) : std::string_view();
}

BlockGraph::Indices BlockGraph::neighbours(std::size_t group) const {
  const std::string_view board = board_of(group);
  Indices list;
  for (std::size_t g = 0; g < equipment_->groups.size(); ++g) {
    if (g != group && !board.empty() && board_of(g) == board) list.push_back(g);
  }
  return list;
}

}  // namespace dryout::knowledge
