#include "complaints/equipment_names.h"

#include <algorithm>
#include <cmath>

namespace dryout::complaints {
namespace {

constexpr double years_to_forget = 8.0;  ///< a set outside the years of its kind by that: 1/e

double fit_of_year(int year, int from, int to) {
  const int outside = std::max({0, from - year, year - to});
  return std::exp(-outside / years_to_forget);
}

/// All words of the name stand in the complaint, in any order.
bool all_said(const std::vector<std::string>& name, const std::vector<std::string>& said) {
  return std::all_of(name.begin(), name.end(), [&](const std::string& word) {
    return std::find(said.begin(), said.end(), word) != said.end();
  });
}

}  // namespace

EquipmentNames::EquipmentNames(const knowledge::KnowledgeBase& knowledge,
                               const Understanding& understanding) {
  for (std::size_t i = 0; i < knowledge.equipment.size(); ++i) {
    const knowledge::Equipment& equipment = knowledge.equipment[i];
    years_.push_back({equipment.year_from, equipment.year_to});
    names_.push_back({i, understanding.stems_of(equipment.title)});
    for (const std::string& name : equipment.said_as) {
      names_.push_back({i, understanding.stems_of(name)});
    }
  }
}

std::vector<double> EquipmentNames::years_fit(std::optional<int> year) const {
  std::vector<double> fits(years_.size(), 1.0);
  for (std::size_t i = 0; year && i < fits.size(); ++i) {
    fits[i] = fit_of_year(*year, years_[i].from, years_[i].to);
  }
  return fits;
}

std::vector<double> EquipmentNames::fits(const std::vector<std::string>& stems,
                                         std::optional<int> year) const {
  // A longer name says more: "valve radio" is no "radio" of any kind.
  std::vector<double> fits(years_.size(), 0.0);
  double longest = 0.0;
  for (const Name& name : names_) {
    if (!name.stems.empty() && all_said(name.stems, stems)) {
      const auto words = static_cast<double>(name.stems.size());
      fits[name.equipment] = std::max(fits[name.equipment], words);
      longest = std::max(longest, words);
    }
  }
  const std::vector<double> years = years_fit(year);
  for (std::size_t i = 0; i < fits.size(); ++i) {
    if (longest > 0.0) {
      fits[i] /= longest;
      fits[i] *= fits[i];
    }
    fits[i] *= years[i];
  }
  return fits;
}

}  // namespace dryout::complaints
