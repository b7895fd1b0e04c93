#include "knowledge/cross_check.h"

#include <algorithm>
#include <cmath>

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

template <class Factors, class Known>
void require_keys(const Factors& factors, const Known& known, const Place& place,
                  Problems& problems) {
  for (const auto& [key, factor] : factors) known.require(key, place, problems);
}

void check_technologies(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  const std::size_t levels = knowledge.ageing.levels.size();
  for (const Technology& technology : knowledge.technologies) {
    require_keys(technology.modes, ids.modes, technology.place, problems);
    std::vector<double> failing(levels);
    for (const auto& [mode, given] : technology.modes) {
      if (given.size() != levels) {
        problems.push_back({"mode \"" + mode + "\" needs one probability a level", technology.place,
                            std::to_string(given.size()), std::to_string(levels)});
        continue;
      }
      for (std::size_t l = 0; l < levels; ++l) failing[l] += given[l];
    }
    for (const double sum : failing) {
      if (sum > 1.0 + sum_tolerance) {
        problems.push_back({"the modes of a level sum to more than 1", technology.place,
                            std::to_string(sum), "at most 1; the rest is sound"});
      }
    }
  }
}

void check_ageing(const Ageing& ageing, Problems& problems) {
  double before = 0.0;
  for (const Ageing::Step& step : ageing.steps) {
    double sum = 0.0;
    for (const double weight : step.weights) sum += weight;
    const bool fits = step.weights.size() == ageing.levels.size();
    if (!fits || std::abs(sum - 1.0) > sum_tolerance || step.age_years_max <= before) {
      problems.push_back({"ageing step up to " + std::to_string(step.age_years_max) + " years",
                          {},
                          std::to_string(sum),
                          "one weight a level, summing to 1, in rising order of age"});
    }
    before = step.age_years_max;
  }
  if (ageing.levels.empty() || ageing.steps.empty()) {
    problems.push_back({"no ageing levels", {}, "", "rules/ageing.json with levels and steps"});
  }
}

void check_links(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const Link& link : knowledge.links) {
    for (const std::string& role : link.roles) {
      if (role != "*") ids.roles.require(role, link.place, problems);
    }
    if (!link.roles.empty()) ids.modes.require(link.mode, link.place, problems);
    if (!link.cause.empty()) ids.causes.require(link.cause, link.place, problems);
    if (!link.from_phenomenon.empty()) {
      ids.phenomena.require(link.from_phenomenon, link.place, problems);
    }
    ids.phenomena.require(link.phenomenon, link.place, problems);
    const bool itself = link.reach == Reach::here && link.from_phenomenon == link.phenomenon;
    if (itself) {
      problems.push_back({"a phenomenon that gives rise to itself", link.place, link.phenomenon,
                          "another phenomenon, or another place"});
    }
  }
}

bool near_danger(const CheckRule& check) {
  constexpr std::string_view kinds[] = {
      "mains",       "primary",      "high-tension", "extra-high-tension",
      "mains-entry", "smps-primary", "eht",          "crt"};
  return std::any_of(check.kinds.begin(), check.kinds.end(), [&](const std::string& kind) {
    return std::find(std::begin(kinds), std::end(kinds), kind) != std::end(kinds);
  });
}

void check_checks(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const CheckRule& check : knowledge.checks) {
    for (const auto& [phenomenon, sensitivity] : check.sees) {
      ids.phenomena.require(phenomenon, check.place, problems);
    }
    require_keys(check.detects, ids.modes, check.place, problems);
    ids.technologies.require_all(check.technologies, check.place, problems);
    ids.cautions.require_all(check.cautions, check.place, problems);
    const bool of_group = check.per == CheckRule::Per::group;
    if (of_group) ids.roles.require_all(check.kinds, check.place, problems);
    if (check.state == CheckRule::State::powered && near_danger(check) && check.cautions.empty()) {
      problems.push_back({"a powered check near mains or high tension without a caution",
                          check.place, check.id, "at least one id in \"cautions\""});
    }
  }
}

void check_symptoms(const KnowledgeBase& knowledge, const Ids& ids, Problems& problems) {
  for (const Symptom& symptom : knowledge.symptoms) {
    for (const Symptom::Shows& shows : symptom.shows) {
      ids.phenomena.require(shows.phenomenon, symptom.place, problems);
    }
    ids.cautions.require_all(symptom.cautions, symptom.place, problems);
  }
}

}  // namespace

Problems broken_references(const KnowledgeBase& knowledge) {
  Problems problems;
  const Ids ids(knowledge);
  check_ageing(knowledge.ageing, problems);
  check_technologies(knowledge, ids, problems);
  for (const Role& role : knowledge.roles) {
    ids.technologies.require(role.technology, role.place, problems);
    require_keys(role.stress, ids.modes, role.place, problems);
  }
  for (const EraVariant& era : knowledge.eras) {
    const Place place{"rules/eras.json", 0, era.id};
    ids.technologies.require_all(era.technologies, place, problems);
    require_keys(era.odds, ids.modes, place, problems);
  }
  check_links(knowledge, ids, problems);
  check_checks(knowledge, ids, problems);
  check_symptoms(knowledge, ids, problems);
  for (const Equipment& equipment : knowledge.equipment) {
    ids.cautions.require_all(equipment.hazards, equipment.place, problems);
    ids.symptoms.require_all(equipment.symptoms, equipment.place, problems);
    for (Problem& problem : broken_equipment(knowledge, equipment)) {
      problems.push_back(std::move(problem));
    }
  }
  return problems;
}

}  // namespace dryout::knowledge
