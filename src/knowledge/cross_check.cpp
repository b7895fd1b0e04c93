#include "knowledge/cross_check.h"

#include <algorithm>
#include <optional>

#include "knowledge/block_graph.h"
#include "knowledge/known_ids.h"

namespace dryout::knowledge {
namespace {

using quantities::Place;
using quantities::Problem;
using quantities::Problems;

constexpr double sum_tolerance = 1e-6;

struct Ids {
  explicit Ids(const KnowledgeBase& k)
      : modes("mode", k.modes),
        technologies("technology", k.technologies),
        roles("role", k.roles),
        causes("cause", k.causes),
        phenomena("phenomenon", k.phenomena),
        cautions("caution", k.cautions),
        symptoms("symptom", k.symptoms) {}
  KnownIds modes, technologies, roles, causes, phenomena, cautions, symptoms;
};

void check_technologies(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  const std::size_t levels = knowledge.ageing.levels.size();
  for (const Technology& technology : knowledge.technologies) {
    const Place modes = within(technology.place, "/modes");
    ids.modes.require_keys(technology.modes, modes, problems);
    std::vector<double> failing(levels);
    for (const auto& [mode, given] : technology.modes) {
      if (given.size() != levels) {
        problems.push_back({"a mode needs one probability a level", within(modes, '/' + mode),
                            std::to_string(given.size()), std::to_string(levels)});
        continue;
      }
      for (std::size_t l = 0; l < levels; ++l) failing[l] += given[l];
    }
    for (const double sum : failing) {
      if (sum > 1.0 + sum_tolerance) {
        problems.push_back({"the modes of a level sum to more than 1", modes, std::to_string(sum),
                            "at most 1; the rest is sound"});
      }
    }
    if (technology.modes.contains("sound")) {
      problems.push_back({"sound is no fault", within(modes, "/sound"), "sound",
                          "faults only; what is left is sound"});
    }
  }
}

void check_eras(const std::vector<EraVariant>& eras, const Ids& ids, Problems& problems) {
  for (const EraVariant& era : eras) {
    ids.technologies.require_all(era.technologies, within(era.place, "/technologies"), problems);
    ids.modes.require_keys(era.odds, within(era.place, "/odds"), problems);
    if (era.year_to < era.year_from) {
      problems.push_back({"an era that ends before it begins", era.place,
                          std::to_string(era.year_to), "year_to not before year_from"});
    }
  }
}

void check_causes(const std::vector<OtherCause>& causes, Problems& problems) {
  for (const OtherCause& cause : causes) {
    if (cause.year_to < cause.year_from) {
      problems.push_back({"a cause that ends before it begins", within(cause.place, "/year_to"),
                          std::to_string(cause.year_to), "year_to not before year_from"});
    }
  }
}

void check_cautions(const std::vector<Caution>& cautions, Problems& problems) {
  for (const Caution& caution : cautions) {
    if (caution.year_to < caution.year_from) {
      problems.push_back({"a danger that ends before it begins", within(caution.place, "/year_to"),
                          std::to_string(caution.year_to), "year_to not before year_from"});
    }
  }
}

void check_opening(const Link& link, const Ids& ids, Problems& problems) {
  const Place when = within(link.place, "/when");
  for (std::size_t r = 0; r < link.roles.size(); ++r) {
    if (link.roles[r] == "*") continue;
    ids.roles.require(link.roles[r], within(when, "/role/" + std::to_string(r)), problems);
  }
  if (!link.roles.empty()) ids.modes.require(link.mode, within(when, "/mode"), problems);
  if (!link.cause.empty()) ids.causes.require(link.cause, within(when, "/cause"), problems);
  if (!link.from_phenomenon.empty()) {
    ids.phenomena.require(link.from_phenomenon, within(when, "/phenomenon"), problems);
  }
}

/// Where a link starts: parts stand in groups, other causes in blocks.
std::optional<Phenomenon::At> starts_at(const KnowledgeBase& knowledge, const Link& link) {
  if (!link.roles.empty()) return Phenomenon::At::group;
  if (!link.cause.empty()) return Phenomenon::At::block;
  const Phenomenon* from = find(knowledge.phenomena, link.from_phenomenon);
  return from == nullptr ? std::nullopt : std::optional(from->at);
}

/// A reach that does not exist from where the link starts, or that ends where the phenomenon
/// cannot be.
void check_reach(const KnowledgeBase& knowledge, const Link& link, Problems& problems) {
  const auto from = starts_at(knowledge, link);
  const Phenomenon* then = find(knowledge.phenomena, link.phenomenon);
  if (!from || then == nullptr) {
    return;  // an unknown id, already told
  }
  constexpr const char* names[] = {"a rail", "a block", "a group"};
  const auto lands = lands_at(link.reach, *from);
  if (lands != then->at) {
    problems.push_back(
        {"the link does not end where its phenomenon can be", within(link.place, "/then/reach"),
         lands ? names[static_cast<std::size_t>(*lands)]
               : std::string("nowhere, seen from ") + names[static_cast<std::size_t>(*from)],
         "a reach that ends at " + std::string(names[static_cast<std::size_t>(then->at)])});
  }
}

void check_links(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const Link& link : knowledge.links) {
    check_opening(link, ids, problems);
    ids.phenomena.require(link.phenomenon, within(link.place, "/then/phenomenon"), problems);
    if (link.reach == Reach::here && link.from_phenomenon == link.phenomenon) {
      problems.push_back({"a phenomenon that gives rise to itself",
                          within(link.place, "/then/phenomenon"), link.phenomenon,
                          "another phenomenon, or another place"});
    }
    check_reach(knowledge, link, problems);
  }
}

bool dangerous(const std::string& kind) {
  constexpr std::string_view kinds[] = {
      "mains",       "primary",      "high-tension", "extra-high-tension",
      "mains-entry", "smps-primary", "eht",          "crt"};
  return std::find(std::begin(kinds), std::end(kinds), kind) != std::end(kinds);
}

/// Does the check lead to a group on a dangerous rail or in a dangerous block of any equipment?
bool leads_to_dangerous_group(const KnowledgeBase& knowledge, const CheckRule& check) {
  for (const Equipment& equipment : knowledge.equipment) {
    for (const PartGroup& group : equipment.groups) {
      const Rail* rail = find(equipment.rails, group.rail);
      const Block* block = find(equipment.blocks, group.block);
      const bool danger = (rail != nullptr && dangerous(rail->kind)) ||
                          (block != nullptr && dangerous(block->kind));
      if (danger && accepts(check.kinds, group.role) &&
          accepts(check.technologies, technology_of(knowledge, group))) {
        return true;
      }
    }
  }
  return false;
}

/// Probes of this check can touch mains or high tension. A check of the whole set is done from
/// outside.
bool near_danger(const KnowledgeBase& knowledge, const CheckRule& check) {
  switch (check.per) {
    case CheckRule::Per::set:
      return false;
    case CheckRule::Per::group:
      return leads_to_dangerous_group(knowledge, check);
    default:
      return check.kinds.empty() || std::any_of(check.kinds.begin(), check.kinds.end(), dangerous);
  }
}

void check_checks(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const CheckRule& check : knowledge.checks) {
    for (std::size_t i = 0; i < check.sees.size(); ++i) {
      ids.phenomena.require(check.sees[i].first,
                            within(check.place, "/sees/" + std::to_string(i) + "/phenomenon"),
                            problems);
    }
    ids.modes.require_keys(check.detects, within(check.place, "/detects"), problems);
    ids.technologies.require_all(check.technologies, within(check.place, "/technologies"),
                                 problems);
    ids.cautions.require_all(check.cautions, within(check.place, "/cautions"), problems);
    if (check.per == CheckRule::Per::group) {
      ids.roles.require_all(check.kinds, within(check.place, "/kinds"), problems);
    }
    const bool powered = check.state == CheckRule::State::powered;
    if (powered && check.cautions.empty() && near_danger(knowledge, check)) {
      problems.push_back({"a powered check near mains or high tension without a caution",
                          check.place, check.id, "at least one id in \"cautions\""});
    }
  }
}

void check_symptoms(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const Symptom& symptom : knowledge.symptoms) {
    for (std::size_t i = 0; i < symptom.shows.size(); ++i) {
      ids.phenomena.require(symptom.shows[i].phenomenon,
                            within(symptom.place, "/shows/" + std::to_string(i) + "/phenomenon"),
                            problems);
    }
    ids.cautions.require_all(symptom.cautions, within(symptom.place, "/cautions"), problems);
  }
}

void check_equipment(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const Equipment& equipment : knowledge.equipment) {
    ids.cautions.require_all(equipment.hazards, within(equipment.place, "/hazards"), problems);
    ids.symptoms.require_all(equipment.symptoms, within(equipment.place, "/symptoms"), problems);
    check_eras(equipment.eras, ids, problems);
    for (Problem& problem : broken_equipment(knowledge, equipment)) {
      problems.push_back(std::move(problem));
    }
  }
}

}  // namespace

Problems broken_references(const KnowledgeBase& knowledge) {
  Problems problems = broken_ageing(knowledge.ageing);
  const Ids ids(knowledge);
  check_technologies(knowledge, ids, problems);
  for (const Role& role : knowledge.roles) {
    ids.technologies.require(role.technology, within(role.place, "/technology"), problems);
    ids.modes.require_keys(role.stress, within(role.place, "/stress"), problems);
  }
  check_eras(knowledge.eras, ids, problems);
  check_causes(knowledge.causes, problems);
  check_cautions(knowledge.cautions, problems);
  check_links(knowledge, ids, problems);
  check_checks(knowledge, ids, problems);
  check_symptoms(knowledge, ids, problems);
  check_equipment(knowledge, ids, problems);
  return problems;
}

}  // namespace dryout::knowledge
