#include "casework/case_ground.h"

#include <algorithm>
#include <chrono>

#include "casework/batches.h"
#include "casework/complaint.h"

namespace dryout::casework {
namespace {

using diagnosis::CompiledFinding;
using diagnosis::KnownFinding;
using quantities::Result;

diagnosis::SetParticulars particulars_of(const CaseState& state) {
  diagnosis::SetParticulars set;
  set.year_built = state.intake.year_built;
  // The age counts up to the day the case was opened, so that a replay years later gives the same.
  set.year_now = year_of(state.opened_at);
  for (const NamePart& part : state.parts) {
    set.parts.push_back({part.reference, part.group});
  }
  return set;
}

std::string key_of(const std::string& equipment, const diagnosis::SetParticulars& set) {
  std::string key = equipment + '\n' + std::to_string(set.year_now) + '\n';
  key += set.year_built ? std::to_string(*set.year_built) : "?";
  for (const diagnosis::NamedPart& part : set.parts) {
    key += '\n' + part.reference + ' ' + part.group;
  }
  return key;
}

/// Full ids come before short ones, and a part before a group of its name.
std::unordered_map<std::string, std::size_t> index_of(const std::vector<diagnosis::Item>& items) {
  std::unordered_map<std::string, std::size_t> index;
  for (std::size_t i = 0; i < items.size(); ++i) {
    index.emplace(items[i].id, i);
  }
  for (const std::string_view prefix : {"part:", "group:"}) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].id.starts_with(prefix)) {
        index.emplace(items[i].id.substr(prefix.size()), i);
      }
    }
  }
  return index;
}

/// Groups of one part, that part named: what was told of the group was told of the part.
std::unordered_map<std::string, std::string> sole_parts(const knowledge::Equipment& equipment,
                                                        const CaseState& state) {
  std::unordered_map<std::string_view, std::vector<const NamePart*>> named;
  for (const NamePart& part : state.parts) {
    named[part.group].push_back(&part);
  }
  std::unordered_map<std::string, std::string> sole;
  for (const knowledge::PartGroup& group : equipment.groups) {
    const auto parts = named.find(group.id);
    if (group.count == 1 && parts != named.end() && parts->second.size() == 1) {
      sole[group.id] = parts->second.front()->reference;
    }
  }
  return sole;
}

template <class Table, class Key>
std::optional<KnownFinding> finding_in(const Table& table, const Key& key) {
  const auto found = table.find(key);
  return found == table.end() ? std::nullopt : std::optional(KnownFinding(found->second));
}

/// What is asked of a ground by name, over and over.
void index_names(Ground& ground) {
  std::unordered_map<std::string_view, const knowledge::PartGroup*> groups;
  for (const knowledge::PartGroup& group : ground.equipment->groups) {
    groups.emplace(group.id, &group);
  }
  for (const diagnosis::CompiledItem& item : ground.compiled.items) {
    const auto group = groups.find(item.group);
    ground.group_of_item.push_back(group == groups.end() ? nullptr : group->second);
  }
  const std::vector<CompiledFinding>& findings = ground.compiled.findings;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    if (!findings[i].symptom.empty()) {
      ground.finding_of_symptom.emplace(findings[i].symptom, i);
    }
    if (!findings[i].check.empty()) {
      ground.finding_of_check.emplace(std::pair(findings[i].check, findings[i].place), i);
      ground.checks_at[findings[i].place].push_back(i);
    }
  }
}

}  // namespace

std::optional<std::size_t> Ground::item(std::string_view id) const {
  const auto found = item_of_id.find(std::string(id));
  return found == item_of_id.end() ? std::nullopt : std::optional(found->second);
}

std::optional<KnownFinding> Ground::symptom_finding(std::string_view symptom) const {
  return finding_in(finding_of_symptom, std::string(symptom));
}

std::optional<KnownFinding> Ground::check_finding(std::string_view check,
                                                  std::string_view place) const {
  const auto sole = sole_part_of.find(std::string(place));
  place = sole == sole_part_of.end() ? place : sole->second;
  return finding_in(finding_of_check, std::pair(std::string(check), std::string(place)));
}

const knowledge::PartGroup* Ground::group_of(std::size_t item) const { return group_of_item[item]; }

const NamePart* named_part(const Ground& ground, const CaseState& state, std::size_t item) {
  constexpr std::string_view prefix = "part:";
  const std::string_view id = ground.compiled.network.items[item].id;
  if (!id.starts_with(prefix)) {
    return nullptr;
  }
  for (const NamePart& part : state.parts) {
    if (id.substr(prefix.size()) == part.reference) {
      return &part;
    }
  }
  return nullptr;
}

Result<const Ground*> GroundCache::of(const CaseState& state) {
  const auto equipment = find_equipment(*knowledge_, state.intake.equipment);
  if (!equipment) {
    return equipment.problems();
  }
  const auto set = particulars_of(state);
  std::string key = key_of(state.intake.equipment, set);
  for (const NamePart& part : state.parts) {
    key += '\n' + make_key(part.make);
  }
  if (const auto found = grounds_.find(key); found != grounds_.end()) {
    return found->second.get();
  }
  auto ground = std::make_unique<Ground>();
  ground->knowledge = knowledge_;
  ground->readings = readings_;
  ground->equipment = *equipment;
  ground->year_built = set.year_built;
  ground->compiled = diagnosis::compile_network(*knowledge_, **equipment, set);
  age_makes_apart(**equipment, state.parts, ground->compiled);
  ground->history = history_;
  if (history_ != nullptr) {
    ground->history_use = apply_history(*history_, **equipment, ground->compiled);
  }
  auto prior = diagnosis::infer(ground->compiled.network, {});
  if (!prior) {
    return prior.problems();
  }
  ground->prior = std::move(*prior);
  index_names(*ground);
  ground->item_of_id = index_of(ground->compiled.network.items);
  ground->sole_part_of = sole_parts(**equipment, state);
  for (const auto& [group, part] : ground->sole_part_of) {
    if (const auto item = ground->item("part:" + part)) {
      ground->item_of_id.emplace("group:" + group, *item);
      ground->item_of_id.emplace(group, *item);
    }
  }
  constexpr std::size_t kept_max = 16;
  if (grounds_.size() >= kept_max) {
    grounds_.clear();
  }
  return grounds_.emplace(key, std::move(ground)).first->second.get();
}

Result<const Ground*> GroundCache::of_equipment(const CaseState& state) {
  for (const auto& [key, ground] : grounds_) {
    if (ground->equipment->id == state.intake.equipment) {
      return ground.get();
    }
  }
  return of(state);
}

Result<const knowledge::Equipment*> find_equipment(const knowledge::KnowledgeBase& knowledge,
                                                   const std::string& id) {
  if (const auto* equipment = knowledge::find(knowledge.equipment, id)) {
    return equipment;
  }
  return unknown("equipment", id, ids_of(knowledge.equipment));
}

int year_of(std::int64_t at) {
  const std::chrono::sys_seconds moment{std::chrono::seconds(at)};
  const std::chrono::year_month_day day(std::chrono::floor<std::chrono::days>(moment));
  return static_cast<int>(day.year());
}

}  // namespace dryout::casework
