#include "diagnosis/part_ageing.h"

#include <algorithm>
#include <cmath>

#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

using knowledge::Equipment;
using knowledge::KnowledgeBase;
using knowledge::PartGroup;

int built(const Equipment& equipment, std::optional<int> year_built) {
  return year_built.value_or((equipment.year_from + equipment.year_to) / 2);
}

double factor(const std::map<std::string, double>& factors, const std::string& key) {
  const auto found = factors.find(key);
  return found == factors.end() ? 1.0 : found->second;
}

/// The product of what all eras of that year do to a mode's odds in this technology.
double era_odds(const std::vector<knowledge::EraVariant>& eras, const std::string& technology,
                const std::string& mode, int year) {
  double odds = 1.0;
  for (const knowledge::EraVariant& era : eras) {
    const bool then = year >= era.year_from && year <= era.year_to;
    const bool touched = std::find(era.technologies.begin(), era.technologies.end(), technology) !=
                         era.technologies.end();
    odds *= then && touched ? factor(era.odds, mode) : 1.0;
  }
  return odds;
}

/// Multiplies each mode's odds against sound, then normalises: factors can never push a row's sum
/// past one.
std::vector<double> weighted_row(const std::vector<double>& modes,
                                 const std::vector<double>& odds_factors) {
  double failing = 0.0;
  for (const double p : modes) failing += p;
  std::vector<double> row{std::max(0.0, 1.0 - failing)};
  double sum = row[0];
  for (std::size_t m = 0; m < modes.size(); ++m) {
    row.push_back(modes[m] * odds_factors[m]);
    sum += row.back();
  }
  for (double& p : row) p /= sum;
  return row;
}

}  // namespace

std::vector<double> level_weights(const KnowledgeBase& knowledge, const Equipment& equipment,
                                  const std::vector<const PartGroup*>& cohort,
                                  std::optional<int> year_built, int year_now) {
  CHECK(!cohort.empty());
  CHECK(!knowledge.ageing.steps.empty());
  double parts = 0.0;
  double warmth = 0.0;
  for (const PartGroup* group : cohort) {
    parts += group->count;
    warmth += group->count * factor(knowledge.ageing.warmth_factor, group->warmth);
  }
  const double age = std::max(0, year_now - built(equipment, year_built)) * warmth / parts;
  for (const knowledge::Ageing::Step& step : knowledge.ageing.steps) {
    if (age <= step.age_years_max) {
      return step.weights;
    }
  }
  return knowledge.ageing.steps.back().weights;
}

PartModes part_modes(const KnowledgeBase& knowledge, const Equipment& equipment,
                     const PartGroup& group, std::optional<int> year_built) {
  PartModes result;
  const std::string technology_id = knowledge::technology_of(knowledge, group);
  const knowledge::Technology* technology = find(knowledge.technologies, technology_id);
  if (technology == nullptr) {
    return result;
  }
  const knowledge::Role* role = find(knowledge.roles, group.role);
  const int year = built(equipment, year_built);
  std::vector<double> odds;
  for (const auto& [mode, levels] : technology->modes) {
    const double stress = role == nullptr ? 1.0 : factor(role->stress, mode);
    result.modes.push_back(mode);
    odds.push_back(stress * era_odds(knowledge.eras, technology_id, mode, year) *
                   era_odds(equipment.eras, technology_id, mode, year));
  }
  for (std::size_t level = 0; level < knowledge.ageing.levels.size(); ++level) {
    std::vector<double> modes;
    for (const auto& [mode, levels] : technology->modes) modes.push_back(levels[level]);
    result.given_level.push_back(weighted_row(modes, odds));
  }
  return result;
}

std::vector<double> worst_of(const std::vector<double>& part_row, int count) {
  CHECK(count >= 1);
  const double all_sound = std::pow(part_row[0], count);
  const double failing = 1.0 - part_row[0];
  std::vector<double> row{all_sound};
  for (std::size_t m = 1; m < part_row.size(); ++m) {
    row.push_back(failing > 0.0 ? part_row[m] / failing * (1.0 - all_sound) : 0.0);
  }
  return row;
}

}  // namespace dryout::diagnosis
