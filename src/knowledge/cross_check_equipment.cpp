#include <algorithm>
#include <functional>
#include <set>

#include "knowledge/cross_check.h"
#include "knowledge/known_ids.h"

namespace dryout::knowledge {
namespace {

using quantities::Problems;

template <class Parts>
void refuse_repeated(const char* what, const Parts& parts, Problems& problems) {
  std::set<std::string> seen;
  for (const auto& part : parts) {
    if (!part.id.empty() && !seen.insert(part.id).second) {
      problems.push_back({std::string("the same ") + what + " id stands twice in this equipment",
                          within(part.place, "/id"), part.id, "each id once"});
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
      problems.push_back({"access that in the end needs itself", within(access.place, "/needs"),
                          access.id, "an order in which everything can be opened"});
      return;
    }
  }
}

/// Names of one equipment's parts, for what its parts say of each other.
struct Names {
  explicit Names(const Equipment& equipment)
      : access("access step", equipment.access),
        boards("board", equipment.boards),
        rails("rail", equipment.rails),
        blocks("block", equipment.blocks),
        channels("channel of this equipment", equipment.channels),
        bands("band of this equipment", equipment.bands) {}
  KnownIds access, boards, rails, blocks, channels, bands;
};

/// "each" says that there is one for each.
void check_where(const Names& names, const std::string& channel,
                 const std::vector<std::string>& bands, const quantities::Place& place,
                 Problems& problems) {
  constexpr std::string_view each = "each";
  if (channel != each && channel != "both") {
    names.channels.require_unless_empty(channel, within(place, "/channel"), problems);
  }
  if (bands != std::vector<std::string>{std::string(each)}) {
    names.bands.require_all(bands, within(place, "/bands"), problems);
  }
}

/// Each rail hangs on one thing, and in the end on none of its own branches.
void check_rails(const Equipment& equipment, const Names& names, Problems& problems) {
  for (const Rail& rail : equipment.rails) {
    if (rail.from.empty()) continue;
    const quantities::Place from = within(rail.place, "/from");
    names.rails.require(rail.from, from, problems);
    for (const Block& block : equipment.blocks) {
      if (std::find(block.makes.begin(), block.makes.end(), rail.id) == block.makes.end()) continue;
      problems.push_back({"a rail that a block makes hangs on no other", from, rail.from,
                          "\"from\" left out, or the rail out of what " + block.id + " makes"});
    }
    const Rail* at = &rail;
    for (std::size_t steps = 0; at != nullptr && !at->from.empty(); ++steps) {
      at = find(equipment.rails, at->from);
      if (steps <= equipment.rails.size()) continue;
      problems.push_back({"a rail that in the end hangs on itself", from, rail.from,
                          "a rail nearer to the supply"});
      break;
    }
  }
}

void check_paths(const Equipment& equipment, const Names& names, Problems& problems) {
  for (const SignalSource& source : equipment.sources) {
    names.blocks.require_unless_empty(source.through, within(source.place, "/through"), problems);
  }
  for (const SignalControl& control : equipment.controls) {
    names.blocks.require_unless_empty(control.from, within(control.place, "/from"), problems);
    names.blocks.require_unless_empty(control.to, within(control.place, "/to"), problems);
    const Block* from = find(equipment.blocks, control.from);
    if (control.from.empty()) {
      problems.push_back({"a control that lies on no signal path", control.place, control.id,
                          "\"from\": the block before it"});
    } else if (from != nullptr && !control.to.empty() &&
               std::find(from->signal_to.begin(), from->signal_to.end(), control.to) ==
                   from->signal_to.end()) {
      problems.push_back({"a control that lies on no signal path", within(control.place, "/to"),
                          control.to, "a block to which " + control.from + " sends its signal"});
    }
  }
}

void check_boards(const Equipment& equipment, const Names& names, Problems& problems) {
  for (const AccessRule& step : equipment.access) {
    names.access.require_all(step.needs, within(step.place, "/needs"), problems);
  }
  for (const Board& board : equipment.boards) {
    names.access.require_unless_empty(board.access, within(board.place, "/access"), problems);
    names.access.require_unless_empty(board.solder_access, within(board.place, "/solder_access"),
                                      problems);
  }
}

void check_blocks(const Equipment& equipment, const Names& names, Problems& problems) {
  for (const Block& block : equipment.blocks) {
    names.boards.require_unless_empty(block.board, within(block.place, "/board"), problems);
    names.rails.require_all(block.fed_by, within(block.place, "/fed_by"), problems);
    names.rails.require_all(block.makes, within(block.place, "/makes"), problems);
    names.blocks.require_all(block.signal_to, within(block.place, "/signal_to"), problems);
    check_where(names, block.channel, block.bands, block.place, problems);
    for (const std::string& made : block.makes) {
      if (std::find(block.fed_by.begin(), block.fed_by.end(), made) != block.fed_by.end()) {
        problems.push_back({"a block that is fed by the rail it makes",
                            within(block.place, "/fed_by"), made, "a rail from another block"});
      }
    }
  }
}

void check_groups(const KnowledgeBase& knowledge, const Equipment& equipment, const Names& names,
                  Problems& problems) {
  const KnownIds roles("role", knowledge.roles);
  const KnownIds technologies("technology", knowledge.technologies);
  for (const PartGroup& group : equipment.groups) {
    roles.require(group.role, within(group.place, "/role"), problems);
    names.blocks.require(group.block, within(group.place, "/block"), problems);
    names.rails.require_unless_empty(group.rail, within(group.place, "/rail"), problems);
    technologies.require_unless_empty(group.technology, within(group.place, "/technology"),
                                      problems);
    check_where(names, group.channel, group.bands, group.place, problems);
    if (!knowledge.ageing.warmth_factor.contains(group.warmth)) {
      problems.push_back({"unknown warmth", within(group.place, "/warmth"), group.warmth,
                          "one of the warmth factors of rules/ageing.json"});
    }
  }
}

}  // namespace

Problems broken_equipment(const KnowledgeBase& knowledge, const Equipment& equipment) {
  Problems problems;
  const Names names(equipment);
  refuse_repeated("access", equipment.access, problems);
  refuse_repeated("board", equipment.boards, problems);
  refuse_repeated("rail", equipment.rails, problems);
  refuse_repeated("block", equipment.blocks, problems);
  refuse_repeated("group", equipment.groups, problems);
  refuse_repeated("channel", equipment.channels, problems);
  refuse_repeated("band", equipment.bands, problems);
  refuse_repeated("source", equipment.sources, problems);
  refuse_repeated("control", equipment.controls, problems);
  refuse_access_cycles(equipment, problems);
  check_boards(equipment, names, problems);
  check_rails(equipment, names, problems);
  check_paths(equipment, names, problems);
  check_blocks(equipment, names, problems);
  check_groups(knowledge, equipment, names, problems);
  if (equipment.year_to < equipment.year_from) {
    problems.push_back({"built until before it was built from", within(equipment.place, "/year_to"),
                        std::to_string(equipment.year_to), "year_to not before year_from"});
  }
  return problems;
}

}  // namespace dryout::knowledge
