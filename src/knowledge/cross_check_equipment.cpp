#include <algorithm>
#include <functional>
#include <set>

#include "knowledge/cross_check.h"
#include "knowledge/known_ids.h"

namespace dryout::knowledge {
namespace {

using quantities::Place;
using quantities::Problems;

template <class Parts>
void refuse_repeated(const char* what, const Parts& parts, const Place& place, Problems& problems) {
  std::set<std::string> seen;
  for (const auto& part : parts) {
    if (!seen.insert(part.id).second) {
      problems.push_back({std::string("the same ") + what + " id stands twice in this equipment",
                          place, part.id, "each id once"});
    }
  }
}

/// Access that in the end needs itself can never be opened.
void refuse_access_cycles(const Equipment& equipment, Problems& problems) {
  std::set<std::string> done;
  std::set<std::string> open;
  const std::function<bool(const std::string&)> cyclic = [&](const std::string& id) {
    if (open.contains(id)) return true;
    if (done.contains(id)) return false;
    open.insert(id);
    bool found = false;
    if (const AccessRule* access = find(equipment.access, id)) {
      for (const std::string& need : access->needs) found = found || cyclic(need);
    }
    open.erase(id);
    done.insert(id);
    return found;
  };
  for (const AccessRule& access : equipment.access) {
    if (cyclic(access.id)) {
      problems.push_back({"access that in the end needs itself", equipment.place, access.id,
                          "an order in which everything can be opened"});
      return;
    }
  }
}

void check_blocks(const Equipment& equipment, const KnownIds& boards, const KnownIds& rails,
                  const KnownIds& blocks, Problems& problems) {
  for (const Block& block : equipment.blocks) {
    if (!block.board.empty()) boards.require(block.board, equipment.place, problems);
    rails.require_all(block.fed_by, equipment.place, problems);
    rails.require_all(block.makes, equipment.place, problems);
    blocks.require_all(block.signal_to, equipment.place, problems);
    for (const std::string& made : block.makes) {
      if (std::find(block.fed_by.begin(), block.fed_by.end(), made) != block.fed_by.end()) {
        problems.push_back({"block \"" + block.id + "\" is fed by the rail it makes",
                            equipment.place, made, "a rail from another block"});
      }
    }
  }
}

}  // namespace

Problems broken_equipment(const KnowledgeBase& knowledge, const Equipment& equipment) {
  Problems problems;
  const KnownIds access("access step", equipment.access);
  const KnownIds boards("board", equipment.boards);
  const KnownIds rails("rail", equipment.rails);
  const KnownIds blocks("block", equipment.blocks);
  const KnownIds roles("role", knowledge.roles);
  const KnownIds technologies("technology", knowledge.technologies);
  refuse_repeated("access", equipment.access, equipment.place, problems);
  refuse_repeated("board", equipment.boards, equipment.place, problems);
  refuse_repeated("rail", equipment.rails, equipment.place, problems);
  refuse_repeated("block", equipment.blocks, equipment.place, problems);
  refuse_repeated("group", equipment.groups, equipment.place, problems);
  refuse_access_cycles(equipment, problems);
  for (const AccessRule& step : equipment.access) {
    access.require_all(step.needs, equipment.place, problems);
  }
  for (const Board& board : equipment.boards) {
    if (!board.access.empty()) access.require(board.access, equipment.place, problems);
    if (!board.solder_access.empty()) {
      access.require(board.solder_access, equipment.place, problems);
    }
  }
  check_blocks(equipment, boards, rails, blocks, problems);
  for (const PartGroup& group : equipment.groups) {
    roles.require(group.role, equipment.place, problems);
    blocks.require(group.block, equipment.place, problems);
    if (!group.rail.empty()) rails.require(group.rail, equipment.place, problems);
    if (!group.technology.empty()) {
      technologies.require(group.technology, equipment.place, problems);
    }
    if (!knowledge.ageing.warmth_factor.contains(group.warmth)) {
      problems.push_back({"unknown warmth of group \"" + group.id + '"', equipment.place,
                          group.warmth, "one of the warmth factors of rules/ageing.json"});
    }
  }
  if (equipment.year_to < equipment.year_from) {
    problems.push_back({"built until before it was built from", equipment.place,
                        std::to_string(equipment.year_to), "year_to not before year_from"});
  }
  return problems;
}

}  // namespace dryout::knowledge
