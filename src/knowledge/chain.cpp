#include "knowledge/chain.h"

#include <algorithm>
#include <map>
#include <optional>
#include <queue>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "quantities/holds.h"

namespace dryout::knowledge {
namespace {

using quantities::holds;
using At = Phenomenon::At;

/// The links sorted by what opens them, and facts as numbers: phenomenon by phenomenon, place by
/// place. What leads on from a fact is worked out once, however many faults come by.
class FactGraph {
 public:
  /// A way on from a fact, or from a fault.
  struct Step {
    const Link* link;
    std::size_t fact;
  };

  FactGraph(const KnowledgeBase& knowledge, const Equipment& equipment);

  [[nodiscard]] std::size_t size() const { return knowledge_.phenomena.size() * graph_.size(); }
  [[nodiscard]] Fact fact(std::size_t number) const {
    return {number / graph_.size(), graph_.location(number % graph_.size())};
  }
  [[nodiscard]] std::vector<Step> openings(const FaultSite& site) const;
  [[nodiscard]] const std::vector<Step>& onward(std::size_t fact);

 private:
  using LinkTable = std::unordered_map<std::string_view, std::vector<const Link*>>;
  [[nodiscard]] static const std::vector<const Link*>& at(const LinkTable& table,
                                                          std::string_view key) {
    static const std::vector<const Link*> none;
    const auto found = table.find(key);
    return found == table.end() ? none : found->second;
  }
  void append(const Link& link, const Location& from, std::vector<Step>& steps) const;
  void append_neighbours(const Link& link, std::size_t phenomenon, std::size_t group,
                         std::vector<Step>& steps) const;

  const KnowledgeBase& knowledge_;
  const Equipment& equipment_;
  BlockGraph graph_;
  std::unordered_map<std::string_view, std::size_t> phenomena_;
  LinkTable onward_, from_cause_, from_mode_;
  std::unordered_map<std::size_t, std::vector<Step>> steps_;  ///< [fact] of those come by
  /// Groups of one role, block and rail lead on alike: of those on a board the first two stand for
  /// all, the second for the first.
  struct Alike {
    std::size_t first = 0;
    std::optional<std::size_t> second;
  };
  std::map<std::string_view, std::vector<Alike>> alike_on_board_;
};

FactGraph::FactGraph(const KnowledgeBase& knowledge, const Equipment& equipment)
    : knowledge_(knowledge), equipment_(equipment), graph_(equipment) {
  for (const Phenomenon& phenomenon : knowledge.phenomena) {
    phenomena_.emplace(phenomenon.id, phenomena_.size());
  }
  for (const Link& link : knowledge.links) {
    if (!link.from_phenomenon.empty()) {
      onward_[link.from_phenomenon].push_back(&link);
    } else if (!link.cause.empty()) {
      from_cause_[link.cause].push_back(&link);
    } else {
      from_mode_[link.mode].push_back(&link);
    }
  }
  std::map<std::tuple<std::string_view, std::string_view, std::string_view>, std::size_t> kinds;
  for (std::size_t g = 0; g < equipment.groups.size(); ++g) {
    const PartGroup& group = equipment.groups[g];
    const auto block = graph_.block_of({At::group, g});
    if (!block || equipment.blocks[*block].board.empty()) {
      continue;
    }
    std::vector<Alike>& on_board = alike_on_board_[equipment.blocks[*block].board];
    const auto [kind, fresh] =
        kinds.emplace(std::tuple(std::string_view(group.role), std::string_view(group.block),
                                 std::string_view(group.rail)),
                      on_board.size());
    if (fresh) {
      on_board.push_back({g, std::nullopt});
    } else if (Alike& alike = on_board[kind->second]; !alike.second) {
      alike.second = g;
    }
  }
}

void FactGraph::append_neighbours(const Link& link, std::size_t phenomenon, std::size_t group,
                                  std::vector<Step>& steps) const {
  const auto block = graph_.block_of({At::group, group});
  const auto on_board =
      block ? alike_on_board_.find(equipment_.blocks[*block].board) : alike_on_board_.end();
  if (on_board == alike_on_board_.end()) {
    return;
  }
  for (const Alike& alike : on_board->second) {
    const auto other = alike.first != group ? std::optional(alike.first) : alike.second;
    if (other && accepts(link.to_kinds, equipment_.groups[*other].role)) {
      steps.push_back({&link, phenomenon * graph_.size() + graph_.number({At::group, *other})});
    }
  }
}

void FactGraph::append(const Link& link, const Location& from, std::vector<Step>& steps) const {
  const auto phenomenon = phenomena_.find(link.phenomenon);
  if (phenomenon == phenomena_.end()) {
    return;
  }
  if (link.reach == Reach::neighbours && from.at == At::group) {
    return append_neighbours(link, phenomenon->second, from.index, steps);
  }
  for (const Location& target : graph_.reached(link.reach, from)) {
    const bool fed = target.at != At::rail || link.to_through.empty() ||
                     holds(link.to_through, equipment_.rails[target.index].through);
    if (fed && accepts(link.to_kinds, kind_of(equipment_, target))) {
      steps.push_back({&link, phenomenon->second * graph_.size() + graph_.number(target)});
    }
  }
}

std::vector<FactGraph::Step> FactGraph::openings(const FaultSite& site) const {
  std::vector<Step> steps;
  if (site.kind == FaultSite::Kind::cause) {
    for (const Link* link : at(from_cause_, knowledge_.causes[site.cause].id)) {
      if (accepts(link->from_kinds, equipment_.blocks[site.block].kind)) {
        append(*link, {At::block, site.block}, steps);
      }
    }
    return steps;
  }
  const Location here{At::group, site.group};
  const auto block = graph_.block_of(here);
  for (const Link* link : at(from_mode_, site.mode)) {
    const bool role =
        holds(link->roles, "*") || holds(link->roles, equipment_.groups[site.group].role);
    const bool kind = link->from_kinds.empty() ||
                      (block && holds(link->from_kinds, equipment_.blocks[*block].kind));
    if (role && kind) append(*link, here, steps);
  }
  return steps;
}

const std::vector<FactGraph::Step>& FactGraph::onward(std::size_t fact_number) {
  const auto [known, fresh] = steps_.try_emplace(fact_number);
  std::vector<Step>& steps = known->second;
  if (fresh) {
    const Fact from = fact(fact_number);
    const std::string& kind = kind_of(equipment_, from.place);
    for (const Link* link : at(onward_, knowledge_.phenomena[from.phenomenon].id)) {
      if (accepts(link->from_kinds, kind)) append(*link, from.place, steps);
    }
  }
  return steps;
}

/// Max-product search (Dijkstra on -log strength) from one fault site after the other.
class Search {
 public:
  Search(FactGraph& graph, double strength_min, std::vector<Consequence>& found)
      : graph_(graph), strength_min_(strength_min), found_(found), best_(graph.size(), 0.0) {}

  void run(std::size_t number, const FaultSite& site) {
    const std::size_t first = found_.size();
    for (const auto& [link, fact] : graph_.openings(site)) {
      offer({link->strength, fact, link, Consequence::none});
    }
    while (!queue_.empty()) {
      const Way way = queue_.top();
      queue_.pop();
      if (way.strength == best_[way.fact]) settle(number, way);
    }
    for (std::size_t i = first; i < found_.size(); ++i) best_[facts_[i]] = 0.0;
  }

 private:
  struct Way {
    double strength = 0.0;
    std::size_t fact = 0;
    const Link* link = nullptr;
    std::size_t before = Consequence::none;
    friend bool operator<(const Way& a, const Way& b) {
      return a.strength != b.strength ? a.strength < b.strength : a.fact > b.fact;
    }
  };

  /// Only a strictly stronger way is queued, so no two ways to a fact have its best strength.
  void offer(const Way& way) {
    if (way.strength >= strength_min_ && way.strength > best_[way.fact]) {
      best_[way.fact] = way.strength;
      queue_.push(way);
    }
  }

  void settle(std::size_t site, const Way& way) {
    const std::size_t here = found_.size();
    found_.push_back({site, graph_.fact(way.fact), way.strength, way.link, way.before});
    facts_.push_back(way.fact);
    for (const auto& [link, fact] : graph_.onward(way.fact)) {
      offer({way.strength * link->strength, fact, link, here});
    }
  }

  FactGraph& graph_;
  double strength_min_;
  std::vector<Consequence>& found_;
  std::vector<std::size_t> facts_;  ///< parallel to found_
  std::vector<double> best_;        ///< [fact] of the site at work
  std::priority_queue<Way> queue_;
};

}  // namespace

Chained chain(const KnowledgeBase& knowledge, const Equipment& equipment, double strength_min) {
  FactGraph graph(knowledge, equipment);
  Chained chained;
  chained.sites = fault_sites(knowledge, equipment);
  Search search(graph, strength_min, chained.consequences);
  for (std::size_t s = 0; s < chained.sites.size(); ++s) search.run(s, chained.sites[s]);
  return chained;
}

std::vector<const Consequence*> path(const Chained& chained, std::size_t consequence) {
  std::vector<const Consequence*> steps;
  while (consequence != Consequence::none) {
    steps.push_back(&chained.consequences[consequence]);
    consequence = steps.back()->before;
  }
  std::reverse(steps.begin(), steps.end());
  return steps;
}

std::vector<std::string> tell(const KnowledgeBase& knowledge, const Equipment& equipment,
                              const Chained& chained, std::size_t consequence) {
  constexpr std::string_view place = "{place}";
  std::vector<std::string> lines;
  for (const Consequence* step : path(chained, consequence)) {
    std::string line = knowledge.phenomena[step->fact.phenomenon].phrase;
    if (const std::size_t at = line.find(place); at != std::string::npos) {
      line.replace(at, place.size(), title_of(equipment, step->fact.place));
    }
    lines.push_back(line + ": " + step->link->because);
  }
  return lines;
}

}  // namespace dryout::knowledge
