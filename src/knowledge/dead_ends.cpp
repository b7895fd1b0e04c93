#include <algorithm>
#include <set>

#include "knowledge/chain.h"
#include "knowledge/cross_check.h"

namespace dryout::knowledge {
namespace {

using quantities::Problems;

/// Everything that the chains of all equipment together bring about.
struct Reached {
  std::set<std::string> links;                              ///< ids of links that fire somewhere
  std::set<std::pair<std::string, std::string>> phenomena;  ///< with the kind of the place
  std::set<std::string> kinds;                              ///< of blocks and rails
  std::set<std::string> roles;
};

void add_reached(const KnowledgeBase& knowledge, const Equipment& equipment, Reached& reached) {
  for (const Consequence& consequence : chain(knowledge, equipment).consequences) {
    reached.phenomena.emplace(knowledge.phenomena[consequence.fact.phenomenon].id,
                              kind_of(equipment, consequence.fact.place));
    reached.links.insert(consequence.link->id);
  }
  for (const Block& block : equipment.blocks) reached.kinds.insert(block.kind);
  for (const Rail& rail : equipment.rails) reached.kinds.insert(rail.kind);
  for (const PartGroup& group : equipment.groups) reached.roles.insert(group.role);
}

bool shown(const Reached& reached, const std::string& phenomenon,
           const std::vector<std::string>& kinds) {
  return std::any_of(reached.phenomena.begin(), reached.phenomena.end(), [&](const auto& fact) {
    return fact.first == phenomenon && accepts(kinds, fact.second);
  });
}

void warn_symptoms(const KnowledgeBase& knowledge, const Reached& reached, Problems& warnings) {
  for (const Symptom& symptom : knowledge.symptoms) {
    const bool caused = std::any_of(
        symptom.shows.begin(), symptom.shows.end(),
        [&](const Symptom::Shows& shows) { return shown(reached, shows.phenomenon, shows.kinds); });
    if (!caused) {
      warnings.push_back({"no fault of any equipment causes this symptom", symptom.place,
                          symptom.id, "a link that gives rise to what it shows"});
    }
  }
}

void warn_checks(const KnowledgeBase& knowledge, const Reached& reached, Problems& warnings) {
  for (const CheckRule& check : knowledge.checks) {
    const auto& known = check.per == CheckRule::Per::group ? reached.roles : reached.kinds;
    for (const std::string& kind : check.kinds) {
      if (!known.contains(kind)) {
        warnings.push_back({"no equipment has this kind", check.place, kind,
                            "a kind (or role) that some equipment uses"});
      }
    }
    const bool sees = check.sees.empty() ||
                      std::any_of(check.sees.begin(), check.sees.end(), [&](const auto& seen) {
                        return shown(reached, seen.first, check.kinds);
                      });
    if (!sees || (check.sees.empty() && check.detects.empty())) {
      warnings.push_back({"this check sees nothing that any equipment can show", check.place,
                          check.id, "a phenomenon that is brought about where it looks"});
    }
  }
}

}  // namespace

Problems dead_ends(const KnowledgeBase& knowledge) {
  Problems warnings;
  Reached reached;
  for (const Equipment& equipment : knowledge.equipment) {
    add_reached(knowledge, equipment, reached);
  }
  for (const Link& link : knowledge.links) {
    if (!reached.links.contains(link.id)) {
      warnings.push_back({"this link carries nothing in any equipment", link.place, link.id,
                          "an opening that occurs and a place it reaches, more strongly than the "
                          "other ways there"});
    }
  }
  warn_symptoms(knowledge, reached, warnings);
  warn_checks(knowledge, reached, warnings);
  return warnings;
}

}  // namespace dryout::knowledge
