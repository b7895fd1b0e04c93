#include "casework/batches.h"

#include <algorithm>
#include <cctype>
#include <map>

namespace dryout::casework {
namespace {

std::string cohort_name(const knowledge::PartGroup& group) {
  return group.cohort.empty() ? "group:" + group.id : group.cohort;
}

std::string usual_make(const knowledge::Equipment& equipment, const std::vector<NamePart>& named,
                       const std::string& cohort) {
  std::map<std::string, int> makes;
  for (const NamePart& part : named) {
    const auto* group = knowledge::find(equipment.groups, part.group);
    if (group != nullptr && cohort_name(*group) == cohort && !part.make.empty()) {
      ++makes[make_key(part.make)];
    }
  }
  const auto most = std::max_element(
      makes.begin(), makes.end(), [](const auto& x, const auto& y) { return x.second < y.second; });
  return most == makes.end() ? "" : most->first;
}

/// ", wexholm t" where the part is of another make than its batch; "" where it is not.
std::string other_make(const knowledge::Equipment& equipment, const std::vector<NamePart>& named,
                       const knowledge::PartGroup& group, const NamePart* part) {
  const std::string make = part == nullptr ? "" : make_key(part->make);
  const bool usual = make.empty() || make == usual_make(equipment, named, cohort_name(group));
  return usual ? "" : ", " + make;
}

}  // namespace

std::string make_key(const std::string& make) {
  std::string key;
  for (const char c : make) {
    if (std::isspace(static_cast<unsigned char>(c)) == 0) {
      key += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
  }
  return key;
}

std::string batch_of(const knowledge::KnowledgeBase& knowledge,
                     const knowledge::Equipment& equipment, const std::vector<NamePart>& named,
                     const knowledge::PartGroup& group, const NamePart* part) {
  const std::string name = cohort_name(group) + other_make(equipment, named, group, part);
  const bool other_kind = part != nullptr && !part->technology.empty() &&
                          part->technology != knowledge::technology_of(knowledge, group);
  return other_kind ? name + ", " + part->technology : name;
}

void age_makes_apart(const knowledge::Equipment& equipment, const std::vector<NamePart>& named,
                     diagnosis::CompiledNetwork& compiled) {
  diagnosis::Network& network = compiled.network;
  std::map<std::string, std::size_t> apart;
  for (const NamePart& part : named) {
    const auto* group = knowledge::find(equipment.groups, part.group);
    const auto item =
        std::find_if(network.items.begin(), network.items.end(),
                     [&](const auto& each) { return each.id == "part:" + part.reference; });
    if (group == nullptr || item == network.items.end() || !item->cohort) {
      continue;
    }
    const std::string other = other_make(equipment, named, *group, &part);
    if (other.empty()) {
      continue;
    }
    const std::string name = cohort_name(*group) + other;
    const auto [found, fresh] = apart.emplace(name, network.cohorts.size());
    if (fresh) {
      diagnosis::Cohort cohort = network.cohorts[*item->cohort];
      cohort.id = name;
      network.cohorts.push_back(std::move(cohort));
    }
    item->cohort = found->second;
  }
}

}  // namespace dryout::casework
