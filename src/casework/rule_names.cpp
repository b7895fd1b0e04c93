#include "casework/rule_names.h"

#include "knowledge/known_ids.h"

namespace dryout::casework {
namespace {

using knowledge::KnownIds;
using knowledge::within;
using quantities::Problems;

struct NamedKind {
  std::string id;
};

std::vector<NamedKind> rail_kinds(const knowledge::KnowledgeBase& knowledge) {
  std::vector<NamedKind> kinds;
  for (const knowledge::Equipment& equipment : knowledge.equipment) {
    for (const knowledge::Rail& rail : equipment.rails) {
      kinds.push_back({rail.kind});
    }
  }
  return kinds;
}

void check(const decision::SubstitutionRule& rule, const KnownIds& technologies,
           const KnownIds& roles, const KnownIds& rails, Problems& problems) {
  technologies.require_all(rule.technologies, within(rule.place, "/technologies"), problems);
  technologies.require_all(rule.except_technologies, within(rule.place, "/except_technologies"),
                           problems);
  technologies.require_unless_empty(rule.fit, within(rule.place, "/fit"), problems);
  roles.require_all(rule.roles, within(rule.place, "/roles"), problems);
  roles.require_all(rule.except_roles, within(rule.place, "/except_roles"), problems);
  rails.require_all(rule.rails, within(rule.place, "/rails"), problems);
}

}  // namespace

Problems unknown_names(const knowledge::KnowledgeBase& knowledge,
                       const readings::ReadingKnowledge& readings, const MendingKnowledge& mending,
                       const std::vector<readings::CommonPart>& common_parts) {
  Problems problems;
  const KnownIds technologies("technology", knowledge.technologies);
  const KnownIds roles("role", knowledge.roles);
  const std::vector<NamedKind> kinds = rail_kinds(knowledge);
  const KnownIds rails("kind of rail", kinds);
  for (const readings::LimitRow& row : readings.limits.rows) {
    technologies.require(row.technology, within(row.place, "/technology"), problems);
  }
  for (const readings::Caveat& caveat : readings.caveats) {
    technologies.require_all(caveat.when.technologies, within(caveat.place, "/when/technologies"),
                             problems);
  }
  for (const decision::SubstitutionRule& rule : mending.substitution.rules) {
    check(rule, technologies, roles, rails, problems);
  }
  const KnownIds causes("cause", knowledge.causes);
  for (const decision::Remedy& remedy : mending.rules.remedies) {
    causes.require(remedy.cause, within(remedy.place, "/cause"), problems);
  }
  for (const decision::OnSight& rule : mending.rules.on_sight) {
    technologies.require_all(rule.technologies, within(rule.place, "/technologies"), problems);
    roles.require_all(rule.roles, within(rule.place, "/roles"), problems);
  }
  std::string group;
  for (const readings::CommonPart& part : common_parts) {
    if (part.group != group) {  // one entry has many parts
      technologies.require(part.part.technology, within(part.place, "/technology"), problems);
    }
    group = part.group;
  }
  return problems;
}

}  // namespace dryout::casework
