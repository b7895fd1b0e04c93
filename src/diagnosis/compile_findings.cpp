#include "diagnosis/compile_findings.h"

#include <algorithm>
#include <utility>

namespace dryout::diagnosis {

using knowledge::accepts;
using knowledge::Axis;
using knowledge::CheckRule;
using knowledge::Consequence;
using knowledge::Location;
using knowledge::Phenomenon;
using knowledge::Symptom;

StrongestWays::StrongestWays(const Network& network) {
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    first_.push_back(ways_.size());
    for (std::size_t s = 0; s < network.items[i].states.size(); ++s) {
      ways_.push_back({{i, s, 0.0}, Consequence::none});
    }
  }
}

void StrongestWays::offer(const ItemState& from, double strength, std::size_t behind) {
  const std::size_t slot = first_[from.item] + from.state;
  Way& way = ways_[slot];
  if (strength <= way.cause.strength) {
    return;
  }
  if (way.cause.strength == 0.0) touched_.push_back(slot);
  way.cause.strength = strength;
  way.behind = behind;
}

std::vector<std::size_t> StrongestWays::move_into(Finding& finding) {
  std::sort(touched_.begin(), touched_.end());
  std::vector<std::size_t> behind;
  for (const std::size_t slot : touched_) {
    finding.causes.push_back(ways_[slot].cause);
    behind.push_back(ways_[slot].behind);
    ways_[slot].cause.strength = 0.0;
  }
  touched_.clear();
  return behind;
}

FindingCompiler::FindingCompiler(const knowledge::KnowledgeBase& knowledge,
                                 const knowledge::Equipment& equipment, CompiledNetwork& compiled)
    : knowledge_(knowledge),
      equipment_(equipment),
      compiled_(compiled),
      chances_(state_chances(compiled.network)),
      places_(knowledge, equipment),
      graph_(equipment),
      consequences_(knowledge.phenomena.size()),
      ways_(compiled.network) {
  for (const Phenomenon& phenomenon : knowledge.phenomena) {
    phenomena_.emplace(phenomenon.id, phenomena_.size());
  }
  const auto& consequences = compiled.chained.consequences;
  for (std::size_t c = 0; c < consequences.size(); ++c) {
    const knowledge::Fact& fact = consequences[c].fact;
    consequences_[fact.phenomenon][graph_.number(fact.place)].push_back(c);
  }
  for (const knowledge::PartGroup& group : equipment.groups) {
    groups_.emplace(group.id, &group);
  }
}

/// Every fault that gives rise to the phenomenon at that place can show as the finding at work.
void FindingCompiler::offer(std::string_view phenomenon, const Location& place, double strength) {
  const auto found = phenomena_.find(phenomenon);
  if (found == phenomena_.end()) {
    return;
  }
  const auto& at_places = consequences_[found->second];
  if (const auto there = at_places.find(graph_.number(place)); there != at_places.end()) {
    offer(there->second, strength);
  }
}

void FindingCompiler::offer(const std::vector<std::size_t>& consequences, double strength) {
  for (const std::size_t c : consequences) {
    if (!on_the_way(c)) continue;
    const Consequence& consequence = compiled_.chained.consequences[c];
    for (const ItemState& from : compiled_.site_items[consequence.site]) {
      ways_.offer(from, consequence.strength * strength, c);
    }
  }
}

void FindingCompiler::offer_anywhere(std::string_view phenomenon,
                                     const std::vector<std::string>& kinds, double strength) {
  const auto found = phenomena_.find(phenomenon);
  if (found == phenomena_.end()) {
    return;
  }
  for (const auto& [number, consequences] : consequences_[found->second]) {
    if (accepts(kinds, kind_of(equipment_, graph_.location(number)))) {
      offer(consequences, strength);
    }
  }
}

void FindingCompiler::emit(CompiledFinding described, const std::string& id, double leak) {
  if (ways_.empty()) {
    return;  // nothing in this equipment can show it
  }
  emit(std::move(described), Finding{id, leak, {}});
}

void FindingCompiler::emit(CompiledFinding described, Finding finding) {
  compiled_.behind.push_back(ways_.move_into(finding));
  compiled_.network.findings.push_back(std::move(finding));
  compiled_.findings.push_back(std::move(described));
}

void FindingCompiler::add_symptom(const Symptom& symptom) {
  if (!accepts(equipment_.symptoms, symptom.id)) {
    return;
  }
  const auto way = places_.find_on(Axis::path, symptom.path);
  way_ = way ? 1U << *way : ~0U;
  for (const Symptom::Shows& shows : symptom.shows) {
    offer_anywhere(shows.phenomenon, shows.kinds, shows.strength);
  }
  way_ = ~0U;
  if (!ways_.empty()) emit_symptom(symptom);
}

void FindingCompiler::emit_symptom(const Symptom& symptom) {
  emit({symptom.id, "", "", ""}, Finding{"symptom:" + symptom.id, 0.0, {}});
  Finding& finding = compiled_.network.findings.back();
  finding.leak = leak_of_share(chances_, finding.causes, symptom.unlisted);
}

bool FindingCompiler::on_the_way(std::size_t consequence) const {
  const std::uint32_t shown =
      compiled_.extents[consequence][static_cast<std::size_t>(Axis::path)].mask;
  return way_ == ~0U || (shown & way_) != 0;
}

FindingCompiler::Places FindingCompiler::places_of(const CheckRule& check) const {
  const auto at = check.per == CheckRule::Per::rail ? Phenomenon::At::rail : Phenomenon::At::block;
  const std::size_t count =
      at == Phenomenon::At::rail ? equipment_.rails.size() : equipment_.blocks.size();
  Places places;
  for (std::size_t index = 0; index < count; ++index) {
    const Location place{at, index};
    if (accepts(check.kinds, kind_of(equipment_, place))) places.push_back(place);
  }
  return places;
}

void FindingCompiler::add_check(const CheckRule& check) {
  switch (check.per) {
    case CheckRule::Per::set:
      add_check_of_set(check);
      return;
    case CheckRule::Per::rail:
    case CheckRule::Per::block:
      for (const Location& place : places_of(check)) add_check_at(check, place);
      return;
    case CheckRule::Per::group:
      for (std::size_t i = 0; i < compiled_.items.size(); ++i) add_check_of_item(check, i);
      return;
  }
}

void FindingCompiler::add_check_of_set(const CheckRule& check) {
  for (const auto& [phenomenon, sensitivity] : check.sees) {
    offer_anywhere(phenomenon, check.kinds, sensitivity);
  }
  emit({"", check.id, "", "the whole set"}, "check:" + check.id, check.false_alarm);
}

void FindingCompiler::add_check_at(const CheckRule& check, const Location& place) {
  for (const auto& [phenomenon, sensitivity] : check.sees) offer(phenomenon, place, sensitivity);
  const std::string& id = id_of(equipment_, place);
  emit({"", check.id, id, title_of(equipment_, place)}, "check:" + check.id + "@" + id,
       check.false_alarm);
}

/// A check of the parts themselves: what is left of a group, or a named part.
void FindingCompiler::add_check_of_item(const CheckRule& check, std::size_t item) {
  const CompiledItem& described = compiled_.items[item];
  const auto found = groups_.find(described.group);
  const auto* group = found == groups_.end() ? nullptr : found->second;
  if (group == nullptr || !accepts(check.kinds, group->role) ||
      !accepts(check.technologies, knowledge::technology_of(knowledge_, *group))) {
    return;
  }
  const Item& in_network = compiled_.network.items[item];
  for (std::size_t s = 1; s < in_network.states.size(); ++s) {
    const auto seen = check.detects.find(in_network.states[s]);
    if (seen != check.detects.end()) ways_.offer({item, s}, seen->second, Consequence::none);
  }
  // "group:reservoirs" and "part:C12" are places by the name behind the colon.
  const std::string place = in_network.id.substr(in_network.id.find(':') + 1);
  emit({"", check.id, place, described.title}, "check:" + check.id + "@" + place,
       check.false_alarm);
}

}  // namespace dryout::diagnosis
