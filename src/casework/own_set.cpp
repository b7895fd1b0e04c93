#include "casework/own_set.h"

#include <algorithm>

#include "documents/parse.h"
#include "documents/table.h"
#include "knowledge/equipment_json.h"
#include "knowledge/spoken_name.h"

namespace dryout::casework {
namespace {

using quantities::Result;

/// "/home/me/parts/my-set.csv" -> "my-set".
std::string stem_of(const std::string& path) {
  const std::size_t slash = path.find_last_of("/\\");
  std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
  return name.substr(0, name.find('.'));
}

knowledge::SetWish set_wish_of(const OwnSetWish& wish) {
  constexpr std::size_t length_max = 60;
  knowledge::SetWish set{wish.id, wish.title, wish.like, wish.only_listed};
  const std::string name = stem_of(wish.file);
  if (set.title.empty()) set.title = wish.id.empty() ? name : wish.id;
  if (set.id.empty()) {
    set.id = knowledge::hyphenated(wish.title.empty() ? name : wish.title).substr(0, length_max);
  }
  return set;
}

std::string counted(int count, const std::string& what) {
  return std::to_string(count) + ' ' + what + (count == 1 ? "" : "s");
}

std::string sentence_of(const OwnSet& set) {
  std::string text = counted(set.capacitors, "capacitor") + ", " + std::to_string(set.placed) +
                     " placed in " + counted(static_cast<int>(set.groups.size()), "group") +
                     " like \"" + set.like.title + "\".";
  int others = 0;
  for (const auto& [letters, count] : set.others) others += count;
  if (others > 0) text += ' ' + counted(others, "other part") + " counted.";
  if (!set.missing.empty()) {
    text += ' ' + std::to_string(set.capacitors - set.placed) +
            " found no place: `dryout lint` tells of them.";
  }
  return text;
}

}  // namespace

Result<OwnSet> describe_own_set(const knowledge::KnowledgeBase& knowledge, const std::string& text,
                                const OwnSetWish& wish) {
  const auto table = documents::parse_table(text, wish.file);
  if (!table) {
    return table.problems();
  }
  const auto list = knowledge::read_parts_list(*table, knowledge);
  if (!list) {
    return list.problems();
  }
  auto described = knowledge::describe_set(knowledge, *list, set_wish_of(wish));
  if (!described) {
    return described.problems();
  }
  OwnSet set;
  set.equipment = std::move(described->equipment);
  set.id = set.equipment.id;
  set.title = set.equipment.title;
  set.like = described->like;
  set.nearest = knowledge::nearest_equipment(knowledge, *list);
  constexpr std::size_t nearest_told = 3;
  set.nearest.resize(std::min(nearest_told, set.nearest.size()));
  set.capacitors = list->capacitor_count();
  set.placed = described->like.placed;
  set.not_fitted = list->not_fitted;
  set.groups = set.equipment.groups;
  set.lent = std::move(described->lent_names);
  set.kept = std::move(described->kept_groups);
  for (const knowledge::UnplacedPart& part : set.equipment.unplaced) {
    const std::string name = part.reference.empty() ? part.value : part.reference;
    set.missing.push_back(name +
                          (part.reference.empty() || part.value.empty() ? "" : ", " + part.value) +
                          ": " + part.missing);
  }
  set.others = list->others;
  set.unread = list->unread;
  set.sentence = sentence_of(set);
  set.file_text = documents::to_text(knowledge::to_json(set.equipment));
  set.file_name = "rules/equipment/" + set.id + ".json";
  return set;
}

}  // namespace dryout::casework
