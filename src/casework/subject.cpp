#include "casework/subject.h"

#include <algorithm>

namespace dryout::casework {
namespace {

constexpr std::string_view role_prefix = "role:";
constexpr std::string_view cause_prefix = "cause:";

std::string_view without(std::string_view text, std::string_view prefix) {
  return text.starts_with(prefix) ? text.substr(prefix.size()) : text;
}

/// "cause:dry-joint@if" -> "dry-joint"
std::string_view cause_id(std::string_view item) {
  const std::string_view id = without(item, cause_prefix);
  return id.substr(0, id.find('@'));
}

}  // namespace

Subjects::Subjects(const knowledge::KnowledgeBase& knowledge, const CaseState& state)
    : knowledge_(&knowledge),
      equipment_(knowledge::find(knowledge.equipment, state.intake.equipment)),
      state_(&state) {}

const NamePart* Subjects::part_of(std::string_view item) const {
  const std::string_view reference = without(item, "part:");
  const auto named = [&](const NamePart& part) { return part.reference == reference; };
  const auto found = std::find_if(state_->parts.begin(), state_->parts.end(), named);
  return found == state_->parts.end() ? nullptr : &*found;
}

const knowledge::PartGroup* Subjects::group_of(std::string_view item) const {
  if (equipment_ == nullptr || item.starts_with(cause_prefix)) {
    return nullptr;
  }
  const NamePart* part = item.starts_with("group:") ? nullptr : part_of(item);
  return knowledge::find(equipment_->groups,
                         part == nullptr ? without(item, "group:") : std::string_view(part->group));
}

std::string Subjects::of_item(std::string_view item) const {
  if (item.starts_with(cause_prefix)) {
    return std::string(cause_prefix) + std::string(cause_id(item));
  }
  const knowledge::PartGroup* group = group_of(item);
  return group == nullptr ? "" : std::string(role_prefix) + group->role;
}

std::string Subjects::title_of_item(std::string_view item) const {
  if (item.starts_with(cause_prefix)) {
    return title_of(of_item(item));
  }
  const knowledge::PartGroup* group = group_of(item);
  const NamePart* part = part_of(item);
  if (group == nullptr) {
    return std::string(item);
  }
  return part == nullptr ? group->title : part->reference + ' ' + group->title;
}

std::string Subjects::title_of(std::string_view subject) const {
  return title_of_subject(*knowledge_, subject);
}

std::string title_of_subject(const knowledge::KnowledgeBase& knowledge, std::string_view subject) {
  const knowledge::Entry* entry = nullptr;
  if (subject.starts_with(role_prefix)) {
    entry = knowledge::find(knowledge.roles, without(subject, role_prefix));
  } else if (subject.starts_with(cause_prefix)) {
    entry = knowledge::find(knowledge.causes, cause_id(subject));
  }
  return entry == nullptr ? std::string(subject) : entry->title;
}

std::string subject_of(const diagnosis::CompiledItem& item, const knowledge::Equipment& equipment) {
  if (item.kind == diagnosis::CompiledItem::Kind::cause) {
    return std::string(cause_prefix) + item.cause;
  }
  const auto* group = knowledge::find(equipment.groups, item.group);
  return group == nullptr ? "" : std::string(role_prefix) + group->role;
}

}  // namespace dryout::casework
