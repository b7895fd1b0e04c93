#include "knowledge/fault_site.h"

#include <algorithm>

#include "quantities/holds.h"

namespace dryout::knowledge {
namespace {

using quantities::holds;

bool served_by(const std::vector<std::string>& kinds, const Equipment& equipment,
               const std::string& block) {
  return std::any_of(equipment.blocks.begin(), equipment.blocks.end(), [&](const Block& each) {
    return holds(kinds, each.kind) && holds(each.signal_to, block);
  });
}

bool fed_by(const std::vector<std::string>& kinds, const Equipment& equipment, const Block& block) {
  return std::any_of(block.fed_by.begin(), block.fed_by.end(), [&](const std::string& id) {
    const Rail* rail = find(equipment.rails, id);
    return holds(kinds, "*") || (rail != nullptr && holds(kinds, rail->kind));
  });
}

bool happens_in(const OtherCause& cause, const Equipment& equipment, const Block& block) {
  const bool of_its_kinds = holds(cause.block_kinds, "*") || holds(cause.block_kinds, block.kind);
  const bool sections = block.bands == std::vector<std::string>{"each"};
  return of_its_kinds && (sections || !holds(cause.section_kinds, block.kind)) &&
         !served_by(cause.not_served_by, equipment, block.id) &&
         (cause.fed_by.empty() || fed_by(cause.fed_by, equipment, block));
}

}  // namespace

std::vector<FaultSite> fault_sites(const KnowledgeBase& knowledge, const Equipment& equipment) {
  std::vector<FaultSite> sites;
  for (std::size_t g = 0; g < equipment.groups.size(); ++g) {
    const std::string id = technology_of(knowledge, equipment.groups[g]);
    if (const Technology* technology = find(knowledge.technologies, id)) {
      for (const auto& [mode, levels] : technology->modes) {
        sites.push_back({FaultSite::Kind::group, g, mode, 0, 0});
      }
    }
  }
  for (std::size_t c = 0; c < knowledge.causes.size(); ++c) {
    const OtherCause& cause = knowledge.causes[c];
    if (cause.year_from > equipment.year_to || cause.year_to < equipment.year_from) {
      continue;
    }
    for (std::size_t b = 0; b < equipment.blocks.size(); ++b) {
      if (happens_in(cause, equipment, equipment.blocks[b])) {
        sites.push_back({FaultSite::Kind::cause, 0, "", c, b});
      }
    }
  }
  return sites;
}

}  // namespace dryout::knowledge
