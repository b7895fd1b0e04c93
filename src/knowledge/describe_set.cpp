#include "knowledge/describe_set.h"

#include <algorithm>
#include <set>

#include "documents/reader.h"
#include "knowledge/cross_check.h"
#include "knowledge/equipment_json.h"
#include "knowledge/known_ids.h"
#include "knowledge/place_parts.h"
#include "knowledge/read_entries.h"
#include "knowledge/spoken_name.h"
#include "quantities/engineering_notation.h"

namespace dryout::knowledge {
namespace {

using quantities::Problem;
using quantities::Problems;
using quantities::Result;

constexpr int group_count_max = 500;

std::string rating_of(const PartGroup& group) {
  std::string text;
  if (group.capacitance.si() > 0.0) text += ", " + quantities::format(group.capacitance);
  if (group.rated.si() > 0.0) text += ", " + quantities::format(group.rated);
  return text;
}

/// Makes groups of what was placed: parts of one role, block, technology, value and volts.
class Grouping {
 public:
  Grouping(const KnowledgeBase& knowledge, const Equipment& architecture)
      : knowledge_(knowledge), architecture_(architecture) {}

  void add(const PlacedPart& part) {
    PartGroup group = group_of(part);
    for (PartGroup& known : groups_) {
      if (same_kind(known, group) && known.count + group.count <= group_count_max) {
        known.count += group.count;
        known.references.insert(known.references.end(), group.references.begin(),
                                group.references.end());
        return;
      }
    }
    group.id = free_id(group.id);
    groups_.push_back(std::move(group));
  }

  /// Groups of the architecture in blocks of which the list says nothing.
  std::vector<std::string> keep_others(const std::vector<PartGroup>& others) {
    std::set<std::string> listed;
    for (const PartGroup& group : groups_) listed.insert(group.block);
    std::vector<std::string> kept;
    for (const PartGroup& group : others) {
      if (listed.contains(group.block)) continue;
      kept.push_back(group.title);
      groups_.push_back(group);
      groups_.back().id = free_id(group.id, groups_.size() - 1);
    }
    return kept;
  }

  [[nodiscard]] std::vector<PartGroup> take() { return std::move(groups_); }

 private:
  static bool same_kind(const PartGroup& a, const PartGroup& b) {
    return a.title == b.title && a.role == b.role && a.block == b.block && a.rail == b.rail &&
           a.technology == b.technology && a.capacitance == b.capacitance && a.rated == b.rated;
  }

  PartGroup group_of(const PlacedPart& part) const {
    PartGroup group;
    if (part.pattern != nullptr) group = *part.pattern;
    const PartsRow& row = *part.row;
    group.role = part.role;
    group.block = part.block;
    group.count = row.count;
    group.references = row.references;
    if (row.capacitance) group.capacitance = *row.capacitance;
    if (row.rated) group.rated = *row.rated;
    if (!row.technology.empty()) group.technology = row.technology;
    if (part.pattern == nullptr) fill_in(group);
    group.title += rating_of(group);
    return group;
  }

  /// For a part that looks like nothing in the architecture.
  void fill_in(PartGroup& group) const {
    const Role* role = find(knowledge_.roles, group.role);
    group.title = role == nullptr ? group.role : role->title;
    group.id = group.role;
    const Block* block = find(architecture_.blocks, group.block);
    if (block == nullptr) return;
    // One rail in question is the rail; of several none is guessed.
    const auto& rails = block->makes.empty() ? block->fed_by : block->makes;
    group.rail = rails.size() == 1 ? rails.front() : "";
    const Technology* technology = find(knowledge_.technologies, technology_of(knowledge_, group));
    if (technology != nullptr && technology->wears_out) {
      group.cohort = cohort_beside(block->board, technology->id);
    }
  }

  /// The cohort in which the board's parts of that technology already age together, or a new one.
  std::string cohort_beside(const std::string& board, const std::string& technology) const {
    for (const PartGroup& other : architecture_.groups) {
      const Block* block = find(architecture_.blocks, other.block);
      if (block != nullptr && block->board == board && !other.cohort.empty() &&
          technology_of(knowledge_, other) == technology) {
        return other.cohort;
      }
    }
    return board.empty() ? technology : board + '-' + technology;
  }

  std::string free_id(const std::string& wanted, std::size_t among = std::string::npos) const {
    constexpr std::size_t length_max = 56;  // ids have 64 characters at most
    const std::string base = wanted.substr(0, length_max);
    std::string id = base;
    const auto taken = [&] {
      const std::size_t end = std::min(among, groups_.size());
      return std::any_of(groups_.begin(), groups_.begin() + static_cast<std::ptrdiff_t>(end),
                         [&](const PartGroup& group) { return group.id == id; });
    };
    for (int number = 2; taken(); ++number) id = base + '-' + std::to_string(number);
    return id;
  }

  const KnowledgeBase& knowledge_;
  const Equipment& architecture_;
  std::vector<PartGroup> groups_;
};

Problems refused_id(const std::string& id) {
  constexpr std::size_t length_max = 60;
  if (!id.empty() && id.size() <= length_max && hyphenated(id) == id) {
    return {};
  }
  return {{"an id not of the agreed form",
           {"id", 0, {}},
           '"' + quantities::excerpt(id) + '"',
           "lower case letters and digits, words joined by '-', up to 60"}};
}

/// What was made is held to the loader before anyone writes it.
Problems refused_by_loader(const KnowledgeBase& knowledge, const Equipment& equipment) {
  const auto document = documents::parse(documents::to_text(to_json(equipment)), equipment.id);
  if (!document) {
    return document.problems();
  }
  Problems problems;
  const documents::Reader root(*document, problems);
  Equipment read;
  root.for_each("equipment", [&](const documents::Reader& one) { read = read_equipment(one); });
  if (problems.empty()) {
    problems = broken_equipment(knowledge, read);
  }
  return problems;
}

Nearness nearness_of(const Equipment& equipment, const Placing& placing) {
  return {equipment.id, equipment.title, placing.parts_placed, placing.fit};
}

DescribedSet make(const KnowledgeBase& knowledge, const PartsList& list, const SetWish& wish,
                  const Equipment& architecture, const Placing& placing) {
  DescribedSet set;
  set.like = nearness_of(architecture, placing);
  set.equipment = architecture;
  Equipment& made = set.equipment;
  made.id = wish.id;
  made.title = wish.title.empty() ? wish.id : wish.title;
  made.because = "Described by a parts list of " + std::to_string(list.capacitor_count()) +
                 " capacitors, starting from: " + architecture.title + '.';
  made.source = {Source::Kind::judgement, ""};
  made.unplaced = placing.unplaced;
  Grouping grouping(knowledge, architecture);
  for (const PlacedPart& part : placing.placed) {
    grouping.add(part);
    if (!part.lent) continue;
    set.lent += part.row->count;
    set.lent_names.push_back(part.row->name() + ": " + part.pattern->title);
  }
  if (!wish.only_listed) set.kept_groups = grouping.keep_others(architecture.groups);
  made.groups = grouping.take();
  return set;
}

}  // namespace

std::vector<Nearness> nearest_equipment(const KnowledgeBase& knowledge, const PartsList& list) {
  std::vector<Nearness> nearest;
  for (const Equipment& equipment : knowledge.equipment) {
    nearest.push_back(nearness_of(equipment, place_parts(knowledge, list, equipment)));
  }
  std::stable_sort(nearest.begin(), nearest.end(),
                   [](const Nearness& a, const Nearness& b) { return a.fit > b.fit; });
  return nearest;
}

Result<DescribedSet> describe_set(const KnowledgeBase& knowledge, const PartsList& list,
                                  const SetWish& wish) {
  Problems problems = refused_id(wish.id);
  std::string like = wish.like;
  if (like.empty()) {
    const std::vector<Nearness> nearest = nearest_equipment(knowledge, list);
    like = nearest.empty() ? "" : nearest.front().id;
  }
  KnownIds("equipment", knowledge.equipment).require(like, {"like", 0, {}}, problems);
  if (!problems.empty()) {
    return problems;
  }
  const Equipment& architecture = *find(knowledge.equipment, like);
  const Placing placing = place_parts(knowledge, list, architecture);
  if (placing.placed.empty()) {
    return Problem{"no capacitor of this list finds a place in \"" + like + '"',
                   {list.file, 0, {}},
                   placing.unplaced.front().reference + ' ' + placing.unplaced.front().missing,
                   "columns \"block\" and \"role\" with names of that architecture (dryout list "
                   "roles), or another architecture"};
  }
  DescribedSet set = make(knowledge, list, wish, architecture, placing);
  problems = refused_by_loader(knowledge, set.equipment);
  if (!problems.empty()) {
    return problems;
  }
  return set;
}

}  // namespace dryout::knowledge
