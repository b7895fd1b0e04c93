#include "knowledge/mains_side.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>

#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {
namespace {

using RailIds = std::set<std::string, std::less<>>;

template <class List, class Word>
bool has_word(const List& list, const Word& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

bool feeds_from(const Block& block, const RailIds& rails) {
  return std::any_of(block.fed_by.begin(), block.fed_by.end(),
                     [&](const std::string& rail) { return rails.count(rail) > 0; });
}

/// Blocks with a transformer inside: what they make is parted from what feeds them.
bool isolates(const Block& block) {
  constexpr std::array<std::string_view, 4> kinds{"transformer", "smps-primary", "vibrator", "eht"};
  return has_word(kinds, std::string_view(block.kind));
}

RailIds rails_on_the_mains(const Equipment& equipment) {
  constexpr std::array<std::string_view, 3> kinds{"mains", "primary", "series-heater"};
  RailIds rails;
  for (const Rail& rail : equipment.rails) {
    if (has_word(kinds, std::string_view(rail.kind))) {
      rails.insert(rail.id);
    }
  }
  for (bool more = true; more;) {
    more = false;
    for (const Block& block : equipment.blocks) {
      if (isolates(block) || !feeds_from(block, rails)) {
        continue;
      }
      for (const std::string& made : block.makes) {
        more = rails.insert(made).second || more;
      }
    }
  }
  return rails;
}

}  // namespace

bool is_on_the_mains(const Equipment& equipment, std::string_view rail) {
  return rails_on_the_mains(equipment).count(rail) > 0;
}

bool is_on_the_mains(const Equipment& equipment, const PartGroup& group) {
  const RailIds rails = rails_on_the_mains(equipment);
  if (!group.rail.empty()) {
    return rails.count(group.rail) > 0;
  }
  const Block* block = find(equipment.blocks, group.block);
  if (block == nullptr) {
    return false;
  }
  const auto switches_it = [&](const std::string& to) {
    const Block* next = find(equipment.blocks, to);
    return next != nullptr && feeds_from(*next, rails);
  };
  return feeds_from(*block, rails) ||
         (block->kind == "relay" &&
          std::any_of(block->signal_to.begin(), block->signal_to.end(), switches_it));
}

}  // namespace dryout::knowledge
