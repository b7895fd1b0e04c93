#include "diagnosis/compile_network.h"

#include <map>
#include <utility>

#include "diagnosis/compile_findings.h"
#include "diagnosis/part_ageing.h"
#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

using knowledge::Equipment;
using knowledge::FaultSite;
using knowledge::KnowledgeBase;
using knowledge::PartGroup;

template <class Parts>
std::optional<std::size_t> index_of(const Parts& parts, const std::string& id) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].id == id) return i;
  }
  return std::nullopt;
}

/// The first half: what can be wrong, and which items each fault site of the chain stands for.
class ItemCompiler {
 public:
  ItemCompiler(const KnowledgeBase& knowledge, const Equipment& equipment,
               const SetParticulars& set, CompiledNetwork& compiled)
      : knowledge_(knowledge),
        equipment_(equipment),
        set_(set),
        compiled_(compiled),
        group_items_(equipment.groups.size()) {}

  /// [site] = items and states.
  std::vector<std::vector<ItemState>> compile() {
    for (std::size_t g = 0; g < equipment_.groups.size(); ++g) add_group(g);
    std::vector<std::vector<ItemState>> site_items;
    for (const FaultSite& site : compiled_.chained.sites) {
      site_items.push_back(site.kind == FaultSite::Kind::group ? states_of(site) : add_cause(site));
    }
    return site_items;
  }

 private:
  void add_group(std::size_t group);
  void add_group_item(std::size_t group, int count, const std::string& reference);
  [[nodiscard]] std::size_t cohort_of(const PartGroup& group);
  [[nodiscard]] std::vector<ItemState> add_cause(const FaultSite& site);
  [[nodiscard]] std::vector<ItemState> states_of(const FaultSite& site) const;

  const KnowledgeBase& knowledge_;
  const Equipment& equipment_;
  const SetParticulars& set_;
  CompiledNetwork& compiled_;
  std::map<std::string, std::size_t> cohorts_;
  std::vector<std::vector<std::size_t>> group_items_;  ///< [group] items: named parts, the rest
};

void ItemCompiler::add_group(std::size_t g) {
  int rest = equipment_.groups[g].count;
  for (const NamedPart& part : set_.parts) {
    if (part.group == equipment_.groups[g].id) {
      add_group_item(g, 1, part.reference);
      --rest;
    }
  }
  // More parts named than the architecture says: then it says too few, and none is left over.
  if (rest > 0) add_group_item(g, rest, "");
}

std::size_t ItemCompiler::cohort_of(const PartGroup& group) {
  const std::string name = group.cohort.empty() ? "group:" + group.id : group.cohort;
  const auto [found, fresh] = cohorts_.emplace(name, compiled_.network.cohorts.size());
  if (fresh) {
    std::vector<const PartGroup*> brothers{&group};
    for (const PartGroup& other : equipment_.groups) {
      if (&other != &group && !other.cohort.empty() && other.cohort == group.cohort) {
        brothers.push_back(&other);
      }
    }
    compiled_.network.cohorts.push_back(
        {name, level_weights(knowledge_, equipment_, brothers, set_.year_built, set_.year_now)});
  }
  return found->second;
}

void ItemCompiler::add_group_item(std::size_t g, int count, const std::string& reference) {
  const PartGroup& group = equipment_.groups[g];
  const PartModes modes = part_modes(knowledge_, equipment_, group, set_.year_built);
  if (modes.modes.empty()) {
    return;
  }
  Item item;
  item.id = reference.empty() ? "group:" + group.id : "part:" + reference;
  item.states = {"sound"};
  item.states.insert(item.states.end(), modes.modes.begin(), modes.modes.end());
  item.cohort = cohort_of(group);
  for (const std::vector<double>& row : modes.given_level) {
    item.given_level.push_back(worst_of(row, count));
  }
  CompiledItem described;
  described.kind = reference.empty() ? CompiledItem::Kind::group : CompiledItem::Kind::part;
  described.title = reference.empty() ? group.title : reference + " (" + group.title + ")";
  described.block = index_of(equipment_.blocks, group.block).value_or(0);
  described.group = group.id;
  group_items_[g].push_back(compiled_.network.items.size());
  compiled_.network.items.push_back(std::move(item));
  compiled_.items.push_back(std::move(described));
}

std::vector<ItemState> ItemCompiler::add_cause(const FaultSite& site) {
  const knowledge::OtherCause& cause = knowledge_.causes[site.cause];
  const bool too_old = set_.year_built && *set_.year_built < cause.year_from;
  const bool too_young = set_.year_built && *set_.year_built > cause.year_to;
  if (too_old || too_young) {
    return {};  // some sets of this kind can have it, but not this one
  }
  const knowledge::Block& block = equipment_.blocks[site.block];
  const std::size_t item = compiled_.network.items.size();
  compiled_.network.items.push_back({"cause:" + cause.id + "@" + block.id,
                                     {"sound", "faulty"},
                                     std::nullopt,
                                     {{1.0 - cause.prior, cause.prior}}});
  compiled_.items.push_back(
      {CompiledItem::Kind::cause, cause.title + ": " + block.title, site.block, "", cause.id});
  return {{item, 1}};
}

std::vector<ItemState> ItemCompiler::states_of(const FaultSite& site) const {
  std::vector<ItemState> list;
  for (const std::size_t item : group_items_[site.group]) {
    const auto& states = compiled_.network.items[item].states;
    for (std::size_t s = 1; s < states.size(); ++s) {
      if (states[s] == site.mode) list.push_back({item, s});
    }
  }
  return list;
}

/// Consequences stand behind those they come from, so each finds its own worked out. What came
/// over a rail shows wherever the rail is used, even where the stage at hand serves but a part of
/// that: the other parts hang on the same rail.
std::vector<knowledge::Extents> extents_of(const KnowledgeBase& knowledge,
                                           const Equipment& equipment,
                                           const knowledge::Chained& chained) {
  using knowledge::Consequence;
  const knowledge::SignalPlaces places(knowledge, equipment);
  std::vector<knowledge::Extents> extents;
  std::vector<std::size_t> rail_behind;  // [consequence] the last one on a rail, or none
  extents.reserve(chained.consequences.size());
  for (const Consequence& each : chained.consequences) {
    const bool first = each.before == Consequence::none;
    knowledge::Extents shown = places.onward(
        first ? places.of(chained.sites[each.site]) : extents[each.before], each.fact.place);
    std::size_t rail = first ? Consequence::none : rail_behind[each.before];
    if (each.fact.place.at == knowledge::Phenomenon::At::rail) {
      rail = extents.size();
    } else if (rail != Consequence::none) {
      for (const knowledge::Axis axis : knowledge::all_axes) {
        if (axis == knowledge::Axis::control) continue;
        shown[static_cast<std::size_t>(axis)].mask |=
            extents[rail][static_cast<std::size_t>(axis)].mask;
      }
    }
    extents.push_back(shown);
    rail_behind.push_back(rail);
  }
  return extents;
}

}  // namespace

const CompiledFinding& CompiledNetwork::named(KnownFinding finding) const {
  CHECK(finding.value() < findings.size());
  return findings[finding.value()];
}

const Finding& CompiledNetwork::at(KnownFinding finding) const {
  CHECK(finding.value() < network.findings.size());
  return network.findings[finding.value()];
}

CompiledNetwork compile_network(const KnowledgeBase& knowledge, const Equipment& equipment,
                                const SetParticulars& set) {
  CompiledNetwork compiled;
  compiled.chained = knowledge::chain(knowledge, equipment);
  compiled.site_items = ItemCompiler(knowledge, equipment, set, compiled).compile();
  compiled.extents = extents_of(knowledge, equipment, compiled.chained);
  FindingCompiler findings(knowledge, equipment, compiled);
  for (const knowledge::Symptom& symptom : knowledge.symptoms) findings.add_symptom(symptom);
  for (const knowledge::CheckRule& check : knowledge.checks) findings.add_check(check);
  return compiled;
}

std::vector<std::string> tell(const KnowledgeBase& knowledge, const Equipment& equipment,
                              const CompiledNetwork& compiled, KnownFinding finding,
                              std::size_t cause) {
  CHECK(finding.value() < compiled.behind.size());
  CHECK(cause < compiled.behind[finding.value()].size());
  const std::size_t behind = compiled.behind[finding.value()][cause];
  if (behind != knowledge::Consequence::none) {
    return knowledge::tell(knowledge, equipment, compiled.chained, behind);
  }
  const auto* check = knowledge::find(knowledge.checks, compiled.named(finding).check);
  CHECK(check != nullptr);
  return {check->because};
}

}  // namespace dryout::diagnosis
