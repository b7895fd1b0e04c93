// The loaded knowledge: immutable, looked up by id. Made by load.h; passed by const reference.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "knowledge/rules.h"

namespace dryout::knowledge {

struct KnowledgeBase {
  Ageing ageing;
  std::vector<FaultMode> modes;
  std::vector<Technology> technologies;
  std::vector<Role> roles;
  std::vector<OtherCause> causes;
  std::vector<Phenomenon> phenomena;
  std::vector<Link> links;
  std::vector<Symptom> symptoms;
  std::vector<Caution> cautions;
  std::vector<CheckRule> checks;
  std::vector<Equipment> equipment;
  std::vector<EraVariant> eras;
};

/// The entry of that id in a list of entries, or null.
template <class Entries>
[[nodiscard]] auto* find(Entries& entries, std::string_view id) {
  for (auto& entry : entries) {
    if (entry.id == id) {
      return &entry;
    }
  }
  return static_cast<decltype(&entries.front())>(nullptr);
}

/// Id of a group's technology: its own, or the usual one of its role; "" where neither is known.
[[nodiscard]] inline std::string technology_of(const KnowledgeBase& knowledge,
                                               const PartGroup& group) {
  const Role* role = group.technology.empty() ? find(knowledge.roles, group.role) : nullptr;
  return role == nullptr ? group.technology : role->technology;
}

}  // namespace dryout::knowledge
