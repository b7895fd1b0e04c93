#include "knowledge/chain.h"

#include <algorithm>
#include <map>
#include <optional>
#include <queue>
#include <set>

#include "quantities/check.h"

namespace dryout::knowledge {
namespace {

using At = Phenomenon::At;

bool accepts(const std::vector<std::string>& kinds, const std::string& kind) {
  return kinds.empty() || std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

bool holds(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

/// One equipment's graph by indices, and the links sorted by what opens them.
class Ground {
 public:
  Ground(const KnowledgeBase& knowledge, const Equipment& equipment)
      : knowledge_(knowledge), equipment_(equipment) {
    for (std::size_t i = 0; i < equipment.rails.size(); ++i) rails_[equipment.rails[i].id] = i;
    for (std::size_t i = 0; i < equipment.blocks.size(); ++i) blocks_[equipment.blocks[i].id] = i;
    for (const Link& link : knowledge.links) {
      if (!link.from_phenomenon.empty()) {
        onward_[link.from_phenomenon].push_back(&link);
      } else if (!link.cause.empty()) {
        from_cause_[link.cause].push_back(&link);
      } else {
        from_mode_[link.mode].push_back(&link);
      }
    }
  }

  [[nodiscard]] const std::vector<const Link*>& onward(const std::string& phenomenon) const {
    return at(onward_, phenomenon);
  }
  [[nodiscard]] std::vector<const Link*> openings(const FaultSite& site) const;
  [[nodiscard]] std::vector<Fact> targets(const Link& link, At from, std::size_t place) const;
  [[nodiscard]] const std::string& kind_of(At at, std::size_t place) const;
  [[nodiscard]] std::optional<std::size_t> block_index(const std::string& id) const {
    const auto found = blocks_.find(id);
    return found == blocks_.end() ? std::nullopt : std::optional(found->second);
  }

 private:
  using LinkTable = std::map<std::string, std::vector<const Link*>>;
  static const std::vector<const Link*>& at(const LinkTable& table, const std::string& key) {
    static const std::vector<const Link*> none;
    const auto found = table.find(key);
    return found == table.end() ? none : found->second;
  }

  [[nodiscard]] std::vector<std::size_t> rails_named(const std::vector<std::string>& ids) const;
  [[nodiscard]] std::vector<std::size_t> blocks_named(const std::vector<std::string>& ids) const;
  [[nodiscard]] std::vector<std::size_t> reached_from_rail(Reach reach, std::size_t rail) const;
  [[nodiscard]] std::vector<std::size_t> reached_from_block(Reach reach, std::size_t block) const;
  [[nodiscard]] std::vector<std::size_t> reached_from_group(Reach reach, std::size_t group) const;
  [[nodiscard]] std::vector<std::size_t> neighbours(std::size_t group) const;
  [[nodiscard]] std::vector<std::size_t> reached(Reach reach, At from, std::size_t place) const;
  static At lands_at(Reach reach, At from);

  const KnowledgeBase& knowledge_;
  const Equipment& equipment_;
  std::map<std::string, std::size_t> rails_, blocks_;
  LinkTable onward_, from_cause_, from_mode_;
};

std::vector<std::size_t> Ground::rails_named(const std::vector<std::string>& ids) const {
  std::vector<std::size_t> list;
  for (const std::string& id : ids) {
    if (const auto found = rails_.find(id); found != rails_.end()) list.push_back(found->second);
  }
  return list;
}

std::vector<std::size_t> Ground::blocks_named(const std::vector<std::string>& ids) const {
  std::vector<std::size_t> list;
  for (const std::string& id : ids) {
    if (const auto found = blocks_.find(id); found != blocks_.end()) list.push_back(found->second);
  }
  return list;
}

const std::string& Ground::kind_of(At at, std::size_t place) const {
  switch (at) {
    case At::rail:
      return equipment_.rails[place].kind;
    case At::block:
      return equipment_.blocks[place].kind;
    case At::group:
      break;
  }
  return equipment_.groups[place].role;
}

std::vector<const Link*> Ground::openings(const FaultSite& site) const {
  std::vector<const Link*> open;
  if (site.kind == FaultSite::Kind::cause) {
    for (const Link* link : at(from_cause_, knowledge_.causes[site.cause].id)) {
      if (accepts(link->from_kinds, equipment_.blocks[site.block].kind)) open.push_back(link);
    }
    return open;
  }
  const PartGroup& group = equipment_.groups[site.group];
  const auto block = block_index(group.block);
  for (const Link* link : at(from_mode_, site.mode)) {
    const bool role = holds(link->roles, "*") || holds(link->roles, group.role);
    const bool kind = link->from_kinds.empty() ||
                      (block && holds(link->from_kinds, equipment_.blocks[*block].kind));
    if (role && kind) open.push_back(link);
  }
  return open;
}

At Ground::lands_at(Reach reach, At from) {
  switch (reach) {
    case Reach::here:
      return from;
    case Reach::own_rail:
    case Reach::made_rails:
    case Reach::supply_rails:
      return At::rail;
    case Reach::neighbours:
      return At::group;
    default:
      return At::block;
  }
}

std::vector<std::size_t> Ground::reached_from_rail(Reach reach, std::size_t rail) const {
  const std::string& id = equipment_.rails[rail].id;
  std::vector<std::size_t> list;
  for (std::size_t b = 0; b < equipment_.blocks.size(); ++b) {
    const Block& block = equipment_.blocks[b];
    if ((reach == Reach::fed_blocks && holds(block.fed_by, id)) ||
        (reach == Reach::source_block && holds(block.makes, id))) {
      list.push_back(b);
    }
  }
  return list;
}

std::vector<std::size_t> Ground::reached_from_block(Reach reach, std::size_t block) const {
  const Block& here = equipment_.blocks[block];
  switch (reach) {
    case Reach::own_block:
      return {block};
    case Reach::next_blocks:
      return blocks_named(here.signal_to);
    case Reach::made_rails:
      return rails_named(here.makes);
    case Reach::supply_rails:
      return rails_named(here.fed_by);
    case Reach::previous_blocks: {
      std::vector<std::size_t> list;
      for (std::size_t b = 0; b < equipment_.blocks.size(); ++b) {
        if (holds(equipment_.blocks[b].signal_to, here.id)) list.push_back(b);
      }
      return list;
    }
    default:
      return {};
  }
}

std::vector<std::size_t> Ground::neighbours(std::size_t group) const {
  const auto board_of = [&](const PartGroup& part) -> std::string {
    const auto block = block_index(part.block);
    return block ? equipment_.blocks[*block].board : "";
  };
  const std::string board = board_of(equipment_.groups[group]);
  std::vector<std::size_t> list;
  for (std::size_t g = 0; g < equipment_.groups.size(); ++g) {
    if (g != group && !board.empty() && board_of(equipment_.groups[g]) == board) list.push_back(g);
  }
  return list;
}

std::vector<std::size_t> Ground::reached_from_group(Reach reach, std::size_t group) const {
  const PartGroup& part = equipment_.groups[group];
  if (reach == Reach::own_rail) {
    return rails_named({part.rail});
  }
  if (reach == Reach::neighbours) {
    return neighbours(group);
  }
  const auto block = block_index(part.block);
  return block ? reached_from_block(reach, *block) : std::vector<std::size_t>{};
}

std::vector<std::size_t> Ground::reached(Reach reach, At from, std::size_t place) const {
  if (reach == Reach::here) {
    return {place};
  }
  switch (from) {
    case At::rail:
      return reached_from_rail(reach, place);
    case At::block:
      return reached_from_block(reach, place);
    case At::group:
      break;
  }
  return reached_from_group(reach, place);
}

std::vector<Fact> Ground::targets(const Link& link, At from, std::size_t place) const {
  const At at = lands_at(link.reach, from);
  std::vector<Fact> facts;
  for (const std::size_t target : reached(link.reach, from, place)) {
    if (accepts(link.to_kinds, kind_of(at, target))) {
      facts.push_back({link.phenomenon, at, target});
    }
  }
  return facts;
}

/// The strongest way found so far to a fact.
struct Way {
  double strength = 0.0;
  const Link* link = nullptr;
  std::optional<Fact> before;
};

/// Max-product search (Dijkstra on -log strength) from one fault site.
class Search {
 public:
  Search(const Ground& ground, double strength_min)
      : ground_(ground), strength_min_(strength_min) {}

  void open(const FaultSite& site) {
    const bool group = site.kind == FaultSite::Kind::group;
    for (const Link* link : ground_.openings(site)) {
      const auto facts = group ? ground_.targets(*link, At::group, site.group)
                               : ground_.targets(*link, At::block, site.block);
      for (const Fact& fact : facts) offer(fact, {link->strength, link, std::nullopt});
    }
    while (!queue_.empty()) {
      const auto [strength, fact] = queue_.top();
      queue_.pop();
      if (settled_.insert(fact).second) follow(fact, strength);
    }
  }

  [[nodiscard]] std::vector<Consequence> consequences(std::size_t site) const {
    std::vector<Consequence> list;
    for (const auto& [fact, way] : ways_) {
      list.push_back({site, fact, way.strength, path_to(fact)});
    }
    return list;
  }

 private:
  void follow(const Fact& fact, double strength) {
    for (const Link* link : ground_.onward(fact.phenomenon)) {
      if (!accepts(link->from_kinds, ground_.kind_of(fact.at, fact.place))) continue;
      for (const Fact& next : ground_.targets(*link, fact.at, fact.place)) {
        offer(next, {strength * link->strength, link, fact});
      }
    }
  }

  void offer(const Fact& fact, const Way& way) {
    Way& best = ways_[fact];
    if (way.strength >= strength_min_ && way.strength > best.strength) {
      best = way;
      queue_.emplace(way.strength, fact);
    } else if (best.link == nullptr) {
      ways_.erase(fact);
    }
  }

  [[nodiscard]] std::vector<PathStep> path_to(const Fact& fact) const {
    std::vector<PathStep> path;
    std::optional<Fact> at = fact;
    while (at) {
      const Way& way = ways_.at(*at);
      path.push_back({way.link, *at});
      at = way.before;
    }
    std::reverse(path.begin(), path.end());
    return path;
  }

  const Ground& ground_;
  double strength_min_;
  std::map<Fact, Way> ways_;
  std::set<Fact> settled_;
  std::priority_queue<std::pair<double, Fact>> queue_;
};

std::vector<FaultSite> fault_sites(const KnowledgeBase& knowledge, const Equipment& equipment) {
  std::vector<FaultSite> sites;
  for (std::size_t g = 0; g < equipment.groups.size(); ++g) {
    const PartGroup& group = equipment.groups[g];
    const Role* role = find(knowledge.roles, group.role);
    const std::string technology_id =
        group.technology.empty() && role != nullptr ? role->technology : group.technology;
    if (const Technology* technology = find(knowledge.technologies, technology_id)) {
      for (const auto& [mode, levels] : technology->modes) {
        sites.push_back({FaultSite::Kind::group, g, mode, 0, 0});
      }
    }
  }
  for (std::size_t c = 0; c < knowledge.causes.size(); ++c) {
    const auto& kinds = knowledge.causes[c].block_kinds;
    for (std::size_t b = 0; b < equipment.blocks.size(); ++b) {
      if (holds(kinds, "*") || holds(kinds, equipment.blocks[b].kind)) {
        sites.push_back({FaultSite::Kind::cause, 0, "", c, b});
      }
    }
  }
  return sites;
}

}  // namespace

Chained chain(const KnowledgeBase& knowledge, const Equipment& equipment, double strength_min) {
  const Ground ground(knowledge, equipment);
  Chained chained;
  chained.sites = fault_sites(knowledge, equipment);
  for (std::size_t s = 0; s < chained.sites.size(); ++s) {
    Search search(ground, strength_min);
    search.open(chained.sites[s]);
    auto found = search.consequences(s);
    std::move(found.begin(), found.end(), std::back_inserter(chained.consequences));
  }
  std::stable_sort(chained.consequences.begin(), chained.consequences.end(),
                   [](const Consequence& a, const Consequence& b) { return a.fact < b.fact; });
  return chained;
}

std::string title_of(const Equipment& equipment, const Fact& fact) {
  switch (fact.at) {
    case At::rail:
      return equipment.rails[fact.place].title;
    case At::block:
      return equipment.blocks[fact.place].title;
    case At::group:
      break;
  }
  return equipment.groups[fact.place].title;
}

std::vector<std::string> tell(const Equipment& equipment, const KnowledgeBase& knowledge,
                              const Consequence& consequence) {
  std::vector<std::string> lines;
  for (const PathStep& step : consequence.path) {
    std::string line = step.fact.phenomenon;
    if (const Phenomenon* phenomenon = find(knowledge.phenomena, step.fact.phenomenon)) {
      line = phenomenon->phrase;
    }
    if (const std::size_t at = line.find("{place}"); at != std::string::npos) {
      line.replace(at, 7, title_of(equipment, step.fact));
    }
    lines.push_back(line + ": " + step.link->because);
  }
  return lines;
}

}  // namespace dryout::knowledge
