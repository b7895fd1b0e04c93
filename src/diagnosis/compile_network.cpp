#include "diagnosis/compile_network.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "diagnosis/part_ageing.h"
#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

using knowledge::Chained;
using knowledge::CheckRule;
using knowledge::Consequence;
using knowledge::Equipment;
using knowledge::FaultSite;
using knowledge::KnowledgeBase;
using knowledge::PartGroup;
using knowledge::Phenomenon;
using knowledge::Symptom;

bool accepts(const std::vector<std::string>& kinds, const std::string& kind) {
  return kinds.empty() || std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

template <class Parts>
std::optional<std::size_t> index_of(const Parts& parts, const std::string& id) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].id == id) return i;
  }
  return std::nullopt;
}

/// The strongest way from one (item, state) to a finding, and how it is told.
struct Strongest {
  double strength = 0.0;
  std::vector<std::string> path;
};
using CauseTable = std::map<std::pair<std::size_t, std::size_t>, Strongest>;

class Compiler {
 public:
  Compiler(const KnowledgeBase& knowledge, const Equipment& equipment, const SetParticulars& set)
      : knowledge_(knowledge),
        equipment_(equipment),
        set_(set),
        chained_(knowledge::chain(knowledge, equipment)) {}

  CompiledNetwork compile() {
    add_groups();
    add_causes();
    index_consequences();
    for (const Symptom& symptom : knowledge_.symptoms) add_symptom(symptom);
    for (const CheckRule& check : knowledge_.checks) add_check(check);
    return std::move(compiled_);
  }

 private:
  void add_groups();
  void add_group_item(std::size_t group, int count, const std::string& reference);
  std::optional<std::size_t> cohort_of(std::size_t group);
  void add_causes();
  void index_consequences();
  void add_symptom(const Symptom& symptom);
  void add_check(const CheckRule& check);
  void add_check_at(const CheckRule& check, Phenomenon::At at, std::size_t place);
  void add_check_of_group(const CheckRule& check, std::size_t group);
  void offer(CauseTable& table, const Consequence& consequence, double strength) const;
  void emit(CompiledFinding finding, const std::string& id, double leak, const CauseTable& table);
  [[nodiscard]] std::vector<std::size_t> items_of(const FaultSite& site) const;
  [[nodiscard]] std::size_t state_of(std::size_t item, const FaultSite& site) const;

  const KnowledgeBase& knowledge_;
  const Equipment& equipment_;
  const SetParticulars& set_;
  Chained chained_;
  CompiledNetwork compiled_;
  std::map<std::string, std::size_t> cohorts_;
  std::vector<std::vector<std::size_t>> group_items_;  ///< [group] items: the rest, named parts
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> cause_items_;  ///< (cause, block)
  std::map<std::string, std::vector<const Consequence*>> by_phenomenon_;
};

void Compiler::add_groups() {
  group_items_.resize(equipment_.groups.size());
  for (std::size_t g = 0; g < equipment_.groups.size(); ++g) {
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
}

std::optional<std::size_t> Compiler::cohort_of(std::size_t g) {
  const PartGroup& group = equipment_.groups[g];
  const std::string name = group.cohort.empty() ? "group:" + group.id : group.cohort;
  const auto [found, fresh] = cohorts_.emplace(name, compiled_.network.cohorts.size());
  if (fresh) {
    compiled_.network.cohorts.push_back(
        {name, level_weights(knowledge_, equipment_, group, set_.year_built, set_.year_now)});
  }
  return found->second;
}

void Compiler::add_group_item(std::size_t g, int count, const std::string& reference) {
  const PartGroup& group = equipment_.groups[g];
  PartModes modes = part_modes(knowledge_, equipment_, group, set_.year_built);
  if (modes.modes.empty()) return;
  Item item;
  item.id = reference.empty() ? "group:" + group.id : "part:" + reference;
  item.states = {"sound"};
  item.states.insert(item.states.end(), modes.modes.begin(), modes.modes.end());
  item.cohort = cohort_of(g);
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

void Compiler::add_causes() {
  for (const FaultSite& site : chained_.sites) {
    if (site.kind != FaultSite::Kind::cause) continue;
    const knowledge::OtherCause& cause = knowledge_.causes[site.cause];
    const knowledge::Block& block = equipment_.blocks[site.block];
    cause_items_[{site.cause, site.block}] = compiled_.network.items.size();
    compiled_.network.items.push_back({"cause:" + cause.id + "@" + block.id,
                                       {"sound", "faulty"},
                                       std::nullopt,
                                       {{1.0 - cause.prior, cause.prior}}});
    compiled_.items.push_back(
        {CompiledItem::Kind::cause, cause.title + ": " + block.title, site.block, "", cause.id});
  }
}

void Compiler::index_consequences() {
  for (const Consequence& consequence : chained_.consequences) {
    by_phenomenon_[consequence.fact.phenomenon].push_back(&consequence);
  }
}

std::vector<std::size_t> Compiler::items_of(const FaultSite& site) const {
  return site.kind == FaultSite::Kind::group
             ? group_items_[site.group]
             : std::vector<std::size_t>{cause_items_.at({site.cause, site.block})};
}

std::size_t Compiler::state_of(std::size_t item, const FaultSite& site) const {
  if (site.kind == FaultSite::Kind::cause) return 1;
  const auto& states = compiled_.network.items[item].states;
  const auto found = std::find(states.begin(), states.end(), site.mode);
  return found == states.end() ? 0 : static_cast<std::size_t>(found - states.begin());
}

void Compiler::offer(CauseTable& table, const Consequence& consequence, double strength) const {
  const FaultSite& site = chained_.sites[consequence.site];
  for (const std::size_t item : items_of(site)) {
    const std::size_t state = state_of(item, site);
    if (state == 0) continue;
    Strongest& best = table[{item, state}];
    if (strength > best.strength) {
      best = {strength, knowledge::tell(equipment_, knowledge_, consequence)};
    }
  }
}

void Compiler::emit(CompiledFinding described, const std::string& id, double leak,
                    const CauseTable& table) {
  if (table.empty()) return;
  Finding finding{id, leak, {}};
  std::vector<std::vector<std::string>> paths;
  for (const auto& [cause, strongest] : table) {
    finding.causes.push_back({cause.first, cause.second, strongest.strength});
    paths.push_back(strongest.path);
  }
  compiled_.network.findings.push_back(std::move(finding));
  compiled_.findings.push_back(std::move(described));
  compiled_.paths.push_back(std::move(paths));
}

const std::string& kind_of(const Equipment& equipment, const knowledge::Fact& fact) {
  switch (fact.at) {
    case Phenomenon::At::rail:
      return equipment.rails[fact.place].kind;
    case Phenomenon::At::block:
      return equipment.blocks[fact.place].kind;
    case Phenomenon::At::group:
      break;
  }
  return equipment.groups[fact.place].role;
}

void Compiler::add_symptom(const Symptom& symptom) {
  const bool possible = accepts(equipment_.symptoms, symptom.id);
  if (!possible) return;
  CauseTable table;
  for (const Symptom::Shows& shows : symptom.shows) {
    for (const Consequence* consequence : by_phenomenon_[shows.phenomenon]) {
      if (accepts(shows.kinds, kind_of(equipment_, consequence->fact))) {
        offer(table, *consequence, consequence->strength * shows.strength);
      }
    }
  }
  emit({symptom.id, "", "", ""}, "symptom:" + symptom.id, symptom.leak, table);
}

void Compiler::add_check(const CheckRule& check) {
  switch (check.per) {
    case CheckRule::Per::set:
      add_check_at(check, Phenomenon::At::block, equipment_.blocks.size());
      break;
    case CheckRule::Per::rail:
      for (std::size_t r = 0; r < equipment_.rails.size(); ++r) {
        if (accepts(check.kinds, equipment_.rails[r].kind)) {
          add_check_at(check, Phenomenon::At::rail, r);
        }
      }
      break;
    case CheckRule::Per::block:
      for (std::size_t b = 0; b < equipment_.blocks.size(); ++b) {
        if (accepts(check.kinds, equipment_.blocks[b].kind)) {
          add_check_at(check, Phenomenon::At::block, b);
        }
      }
      break;
    case CheckRule::Per::group:
      for (std::size_t g = 0; g < equipment_.groups.size(); ++g) add_check_of_group(check, g);
      break;
  }
}

/// A place past the last block stands for the whole set.
void Compiler::add_check_at(const CheckRule& check, Phenomenon::At at, std::size_t place) {
  const bool whole_set = check.per == CheckRule::Per::set;
  CauseTable table;
  for (const auto& [phenomenon, sensitivity] : check.sees) {
    for (const Consequence* consequence : by_phenomenon_[phenomenon]) {
      const knowledge::Fact& fact = consequence->fact;
      const bool here = whole_set ? accepts(check.kinds, kind_of(equipment_, fact))
                                  : fact.at == at && fact.place == place;
      if (here) offer(table, *consequence, consequence->strength * sensitivity);
    }
  }
  CompiledFinding described{"", check.id, "", "the whole set"};
  if (!whole_set) {
    const bool rail = at == Phenomenon::At::rail;
    described.place = rail ? equipment_.rails[place].id : equipment_.blocks[place].id;
    described.place_title = rail ? equipment_.rails[place].title : equipment_.blocks[place].title;
  }
  const std::string id =
      "check:" + check.id + (described.place.empty() ? "" : "@" + described.place);
  emit(std::move(described), id, check.false_alarm, table);
}

/// A check of the parts themselves: one finding for what is left of the group, one for each named
/// part.
void Compiler::add_check_of_group(const CheckRule& check, std::size_t g) {
  const PartGroup& group = equipment_.groups[g];
  const std::string technology = technology_of(knowledge_, group);
  if (!accepts(check.kinds, group.role) || !accepts(check.technologies, technology)) return;
  for (const std::size_t item : group_items_[g]) {
    CauseTable table;
    const auto& states = compiled_.network.items[item].states;
    for (std::size_t s = 1; s < states.size(); ++s) {
      const auto seen = check.detects.find(states[s]);
      if (seen != check.detects.end() && seen->second > 0.0) {
        table[{item, s}] = {seen->second, {check.because}};
      }
    }
    const std::string& id = compiled_.network.items[item].id;
    const bool part = compiled_.items[item].kind == CompiledItem::Kind::part;
    const std::string place = part ? id.substr(id.find(':') + 1) : group.id;
    emit({"", check.id, place, compiled_.items[item].title}, "check:" + check.id + "@" + place,
         check.false_alarm, table);
  }
}

}  // namespace

CompiledNetwork compile_network(const KnowledgeBase& knowledge, const Equipment& equipment,
                                const SetParticulars& set) {
  return Compiler(knowledge, equipment, set).compile();
}

}  // namespace dryout::diagnosis
