#include <algorithm>
#include <set>
#include <utility>

#include "knowledge/chain.h"
#include "knowledge/cross_check.h"
#include "knowledge/known_ids.h"

namespace dryout::knowledge {
namespace {

using quantities::Place;
using quantities::Problems;

/// A phenomenon with the kind (or role) of the place where it stands.
using Sight = std::pair<std::string, std::string>;

/// What the chains of one or several equipment bring about.
struct Reached {
  std::set<std::string> links;  ///< ids of links that are part of some strongest way
  std::set<Sight> sights;

  [[nodiscard]] bool shows(const std::string& phenomenon,
                           const std::vector<std::string>& kinds) const {
    return std::any_of(sights.begin(), sights.end(), [&](const Sight& sight) {
      return sight.first == phenomenon && accepts(kinds, sight.second);
    });
  }
  [[nodiscard]] bool shows(const Symptom& symptom) const {
    return std::any_of(symptom.shows.begin(), symptom.shows.end(),
                       [&](const auto& shown) { return shows(shown.phenomenon, shown.kinds); });
  }
  [[nodiscard]] bool shows(const CheckRule& check) const {
    return std::any_of(check.sees.begin(), check.sees.end(),
                       [&](const auto& seen) { return shows(seen.first, check.kinds); });
  }
};

Sight sight_of(const KnowledgeBase& knowledge, const Equipment& equipment, const Fact& fact) {
  return {knowledge.phenomena[fact.phenomenon].id, kind_of(equipment, fact.place)};
}

Reached reached_in(const KnowledgeBase& knowledge, const Equipment& equipment,
                   const Chained& chained) {
  Reached reached;
  for (const Consequence& consequence : chained.consequences) {
    reached.sights.insert(sight_of(knowledge, equipment, consequence.fact));
    reached.links.insert(consequence.link->id);
  }
  return reached;
}

/// Does any symptom or check look for the phenomenon where it stands?
bool looked_for(const KnowledgeBase& knowledge, const Sight& sight) {
  const auto& [phenomenon, kind] = sight;
  const auto by_symptom = [&, &name = phenomenon, &where = kind](const Symptom& symptom) {
    return std::any_of(symptom.shows.begin(), symptom.shows.end(), [&](const auto& shown) {
      return shown.phenomenon == name && accepts(shown.kinds, where);
    });
  };
  const auto by_check = [&, &name = phenomenon, &where = kind](const CheckRule& check) {
    return accepts(check.kinds, where) &&
           std::any_of(check.sees.begin(), check.sees.end(),
                       [&](const auto& seen) { return seen.first == name; });
  };
  return std::any_of(knowledge.symptoms.begin(), knowledge.symptoms.end(), by_symptom) ||
         std::any_of(knowledge.checks.begin(), knowledge.checks.end(), by_check);
}

bool measured(const KnowledgeBase& knowledge, const PartGroup& group) {
  const std::string technology = technology_of(knowledge, group);
  return std::any_of(knowledge.checks.begin(), knowledge.checks.end(), [&](const CheckRule& check) {
    return !check.detects.empty() && accepts(check.kinds, group.role) &&
           accepts(check.technologies, technology);
  });
}

/// A group that no symptom and no check can ever tell of stays as likely as it was.
void warn_silent_groups(const KnowledgeBase& knowledge, const Equipment& equipment,
                        const Chained& chained, Problems& warnings) {
  std::vector<bool> told(equipment.groups.size());
  for (std::size_t g = 0; g < told.size(); ++g) {
    told[g] = measured(knowledge, equipment.groups[g]);
  }
  for (const Consequence& consequence : chained.consequences) {
    const FaultSite& site = chained.sites[consequence.site];
    if (site.kind == FaultSite::Kind::group && !told[site.group]) {
      told[site.group] = looked_for(knowledge, sight_of(knowledge, equipment, consequence.fact));
    }
  }
  for (std::size_t g = 0; g < told.size(); ++g) {
    if (told[g]) continue;
    warnings.push_back({"no symptom and no check can tell of this group", equipment.groups[g].place,
                        equipment.groups[g].id,
                        "a link from its role, or a check that detects its modes"});
  }
}

void warn_silent_symptoms(const KnowledgeBase& knowledge, const Equipment& equipment,
                          const Reached& reached, Problems& warnings) {
  for (std::size_t i = 0; i < equipment.symptoms.size(); ++i) {
    const Symptom* symptom = find(knowledge.symptoms, equipment.symptoms[i]);
    if (symptom == nullptr || reached.shows(*symptom)) continue;
    warnings.push_back({"no fault of this equipment causes this symptom",
                        within(equipment.place, "/symptoms/" + std::to_string(i)), symptom->id,
                        "a symptom that something here can cause"});
  }
}

/// Parts of an imported list that stand nowhere: the set works without them, but knows less.
void warn_unplaced(const Equipment& equipment, Problems& warnings) {
  for (const UnplacedPart& part : equipment.unplaced) {
    const std::string name = part.reference.empty() ? part.value : part.reference;
    warnings.push_back(
        {"missing: " + part.missing, part.place,
         part.value.empty() || part.reference.empty() ? name : name + ", " + part.value,
         "a group for it in this equipment, or the parts list mended and "
         "described anew"});
  }
}

/// An electrolytic that no check ever measures can only be changed on suspicion.
void warn_unmeasured_electrolytics(const KnowledgeBase& knowledge, const Equipment& equipment,
                                   Problems& warnings) {
  for (const PartGroup& group : equipment.groups) {
    const Technology* technology = find(knowledge.technologies, technology_of(knowledge, group));
    if (technology == nullptr || !technology->wears_out || measured(knowledge, group)) continue;
    warnings.push_back({"no check can measure this group of electrolytics",
                        within(group.place, "/role"), group.role,
                        "a role that a check of parts has among its kinds"});
  }
}

/// A group stands across a rail that its block uses: one that feeds it, one that it makes, or a
/// rail that comes from either.
void warn_foreign_rails(const Equipment& equipment, Problems& warnings) {
  for (const PartGroup& group : equipment.groups) {
    const Block* block = find(equipment.blocks, group.block);
    const Rail* rail = find(equipment.rails, group.rail);
    if (block == nullptr || rail == nullptr) continue;
    const auto uses = [&](const std::string& id) {
      return std::find(block->fed_by.begin(), block->fed_by.end(), id) != block->fed_by.end() ||
             std::find(block->makes.begin(), block->makes.end(), id) != block->makes.end();
    };
    const bool sends =
        std::any_of(block->signal_to.begin(), block->signal_to.end(), [&](const std::string& to) {
          const Block* next = find(equipment.blocks, to);
          return next != nullptr &&
                 std::find(next->makes.begin(), next->makes.end(), rail->id) != next->makes.end();
        });
    const bool watches = block->kind == "smps-control" || block->kind == "smps-primary";
    if (uses(rail->id) || (!rail->from.empty() && uses(rail->from)) || sends || watches) continue;
    warnings.push_back({"this group stands on a rail that does not feed its block",
                        within(group.place, "/rail"), rail->id,
                        "a rail that feeds the block or that it makes"});
  }
}

/// What is parted by channels, or by ways, must have something in each of them.
void warn_empty_places(const Equipment& equipment, Problems& warnings) {
  const auto placed = [&](const std::string& channel) {
    const auto there = [&](const auto& part) {
      return part.channel == channel || part.channel == "each";
    };
    return std::any_of(equipment.blocks.begin(), equipment.blocks.end(), there) ||
           std::any_of(equipment.groups.begin(), equipment.groups.end(), there);
  };
  for (const NamedPlace& channel : equipment.channels) {
    if (placed(channel.id)) continue;
    warnings.push_back({"nothing of this equipment is in this channel", channel.place, channel.id,
                        "blocks with this channel, or with \"each\""});
  }
  const auto goes = [&](std::string_view way) {
    return std::any_of(equipment.blocks.begin(), equipment.blocks.end(),
                       [&](const Block& block) { return block.path == way; });
  };
  const auto kind = [&](std::string_view start) {
    return std::any_of(equipment.blocks.begin(), equipment.blocks.end(),
                       [&](const Block& block) { return block.kind.starts_with(start); });
  };
  if (kind("transmit-power") && kind("rf-front-end") && !(goes("transmit") && goes("receive"))) {
    warnings.push_back({"a set that receives and transmits does not say which block does which",
                        within(equipment.place, "/blocks"), equipment.id,
                        "\"path\": \"receive\" or \"transmit\" at the blocks that serve one"});
  }
}

/// Kinds are free words, so a slip of the hand in one is not refused, but it is told.
class KnownKinds {
 public:
  explicit KnownKinds(const KnowledgeBase& knowledge) {
    for (const Equipment& equipment : knowledge.equipment) {
      for (const Block& block : equipment.blocks) kinds_.insert(block.kind);
      for (const Rail& rail : equipment.rails) kinds_.insert(rail.kind);
      for (const PartGroup& group : equipment.groups) kinds_.insert(group.role);
    }
  }

  void warn(const std::vector<std::string>& kinds, const Place& list, Problems& warnings) const {
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      if (kinds[i] == "*" || kinds_.contains(kinds[i])) continue;
      const auto nearest =
          quantities::nearest_spelling(kinds[i], std::vector(kinds_.begin(), kinds_.end()));
      warnings.push_back({"no equipment has this kind", within(list, '/' + std::to_string(i)),
                          kinds[i],
                          nearest ? "did you mean \"" + *nearest + "\"?"
                                  : "a kind (or role) that some equipment uses"});
    }
  }

 private:
  std::set<std::string_view> kinds_;
};

void warn_kinds(const KnowledgeBase& knowledge, Problems& warnings) {
  const KnownKinds kinds(knowledge);
  for (const Link& link : knowledge.links) {
    kinds.warn(link.from_kinds, within(link.place, "/when/kinds"), warnings);
    kinds.warn(link.to_kinds, within(link.place, "/then/kinds"), warnings);
  }
  for (const OtherCause& cause : knowledge.causes) {
    kinds.warn(cause.block_kinds, within(cause.place, "/block_kinds"), warnings);
    kinds.warn(cause.not_served_by, within(cause.place, "/not_served_by"), warnings);
    kinds.warn(cause.fed_by, within(cause.place, "/fed_by"), warnings);
  }
  for (const CheckRule& check : knowledge.checks) {
    kinds.warn(check.kinds, within(check.place, "/kinds"), warnings);
  }
  for (const Symptom& symptom : knowledge.symptoms) {
    for (std::size_t i = 0; i < symptom.shows.size(); ++i) {
      kinds.warn(symptom.shows[i].kinds,
                 within(symptom.place, "/shows/" + std::to_string(i) + "/kinds"), warnings);
    }
  }
}

void warn_unreached(const KnowledgeBase& knowledge, const Reached& reached, Problems& warnings) {
  for (const Link& link : knowledge.links) {
    if (reached.links.contains(link.id)) continue;
    warnings.push_back({"this link carries nothing in any equipment", link.place, link.id,
                        "an opening that occurs and a place it reaches, more strongly than the "
                        "other ways there"});
  }
  for (const Symptom& symptom : knowledge.symptoms) {
    if (reached.shows(symptom)) continue;
    warnings.push_back({"no fault of any equipment causes this symptom", symptom.place, symptom.id,
                        "a link that gives rise to what it shows"});
  }
  for (const CheckRule& check : knowledge.checks) {
    if (check.sees.empty() || reached.shows(check)) continue;
    warnings.push_back({"this check sees nothing that any equipment can show", check.place,
                        check.id, "a phenomenon that is brought about where it looks"});
  }
}

/// A symptom that some fault could cause, but that every list of an equipment leaves out.
void warn_of_nobodys_symptoms(const KnowledgeBase& knowledge, const Reached& reached,
                              Problems& warnings) {
  const auto can_have = [](const Equipment& equipment, const std::string& id) {
    return equipment.symptoms.empty() || accepts(equipment.symptoms, id);
  };
  for (const Symptom& symptom : knowledge.symptoms) {
    const bool somebodys =
        std::any_of(knowledge.equipment.begin(), knowledge.equipment.end(),
                    [&](const Equipment& equipment) { return can_have(equipment, symptom.id); });
    if (somebodys || !reached.shows(symptom)) continue;
    warnings.push_back({"no equipment has this symptom", symptom.place, symptom.id,
                        "its id in the list \"symptoms\" of an equipment"});
  }
}

}  // namespace

Problems dead_ends(const KnowledgeBase& knowledge) {
  Problems warnings;
  Reached anywhere;
  for (const Equipment& equipment : knowledge.equipment) {
    const Chained chained = chain(knowledge, equipment);
    Reached here = reached_in(knowledge, equipment, chained);
    warn_silent_symptoms(knowledge, equipment, here, warnings);
    warn_silent_groups(knowledge, equipment, chained, warnings);
    warn_unmeasured_electrolytics(knowledge, equipment, warnings);
    warn_foreign_rails(equipment, warnings);
    warn_empty_places(equipment, warnings);
    warn_unplaced(equipment, warnings);
    anywhere.links.merge(here.links);
    anywhere.sights.merge(here.sights);
  }
  warn_unreached(knowledge, anywhere, warnings);
  warn_of_nobodys_symptoms(knowledge, anywhere, warnings);
  warn_kinds(knowledge, warnings);
  return warnings;
}

}  // namespace dryout::knowledge
