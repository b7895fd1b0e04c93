#include "casework/known_across.h"

#include "casework/wording.h"

namespace dryout::casework {
namespace {

using readings::Across;

bool sits_across_rail(const Ground& ground, const knowledge::PartGroup& group) {
  const auto* role = knowledge::find(ground.knowledge->roles, group.role);
  return role != nullptr && role->across_rail && !group.rail.empty();
}

/// Parts with a resistance of their own, whatever their electrolyte.
bool is_electrolytic(const std::string& technology) {
  return readings::is_wet(technology) || technology == "solid-tantalum" || technology == "polymer";
}

std::string counted(int count, const char* what, const std::string& rail) {
  return std::to_string(count) + " more " + what + (count == 1 ? "" : "s") + " on " +
         mid_sentence(rail);
}

}  // namespace

std::optional<KnownAcross> known_across(const Ground& ground, const knowledge::PartGroup& group) {
  if (!group.across.empty()) {
    const auto told = readings::across_of(group.across);
    if (!told || *told == Across::unknown) {
      return {};
    }
    return KnownAcross{*told, "the set's description says so"};
  }
  const auto* rail = knowledge::find(ground.equipment->rails, group.rail);
  if (rail == nullptr || !sits_across_rail(ground, group)) {
    return {};
  }
  int electrolytics = 0;
  int others = 0;
  for (const knowledge::PartGroup& other : ground.equipment->groups) {
    if (other.rail != group.rail || !sits_across_rail(ground, other)) {
      continue;
    }
    const int beside = other.count - (other.id == group.id ? 1 : 0);
    const bool wet = is_electrolytic(knowledge::technology_of(*ground.knowledge, other));
    (wet ? electrolytics : others) += beside;
  }
  // An electrolytic hides more than a ceramic, and a rail with both has both.
  if (electrolytics > 0) {
    return KnownAcross{Across::electrolytic, counted(electrolytics, "electrolytic", rail->title)};
  }
  if (others > 0) {
    return KnownAcross{Across::ceramic, counted(others, "small capacitor", rail->title)};
  }
  return {};
}

}  // namespace dryout::casework
