#include "casework/set_stock.h"

#include <algorithm>
#include <map>
#include <set>

#include "casework/wording.h"
#include "quantities/holds.h"

namespace dryout::casework {
namespace {

using decision::PartStock;
using decision::Scope;

/// A leader below this is no ground to reckon with (judgement).
constexpr double stands_in_from = 0.1;

bool contains(const std::vector<std::size_t>& list, std::size_t item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

bool judged(const CaseInHand& hand, std::size_t item, JudgeSuspect::Verdict verdict) {
  return std::any_of(hand.state.judged.begin(), hand.state.judged.end(), [&](const auto& each) {
    return hand.ground.item(each.first) == item && each.second.what.verdict == verdict;
  });
}

bool read_over_limit(const CaseInHand& hand, std::size_t item) {
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    if (hand.reasoning.evidence.weighed.at(i).verdict == "over-limit" &&
        hand.ground.item(hand.state.readings[i].what.item) == item) {
      return true;
    }
  }
  return false;
}

bool convicted(const CaseInHand& hand, std::size_t item) {
  if (judged(hand, item, JudgeSuspect::Verdict::cleared)) {
    return false;
  }
  const bool unsound = 1.0 - hand.reasoning.foresight.now.items[item][0] >= settled_from;
  const bool to_blame = !hand.reasoning.bench.bench.complaint.empty() &&
                        hand.reasoning.suspicion[item] >= settled_from;
  return judged(hand, item, JudgeSuspect::Verdict::at_fault) || to_blame ||
         (unsound && read_over_limit(hand, item));
}

bool was_replaced(const CaseInHand& hand, std::size_t item) {
  return std::any_of(hand.state.repairs.begin(), hand.state.repairs.end(), [&](const auto& told) {
    return told.what.action == "replaced" && hand.ground.item(told.what.item) == item;
  });
}

PartStock stock_of(const CaseInHand& hand, std::size_t item) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const knowledge::PartGroup& group = *hand.ground.group_of(item);
  const diagnosis::Item& node = hand.reasoning.evidence.network.items[item];
  const auto* technology = knowledge::find(hand.ground.knowledge->technologies,
                                           knowledge::technology_of(*hand.ground.knowledge, group));
  PartStock part;
  part.item = node.id;
  part.title = compiled.title;
  part.count = count_of(hand, item);
  part.cohort = group.cohort;
  part.board = hand.ground.equipment->blocks.at(compiled.block).board;
  part.warmth = group.warmth;
  part.electrolytic = technology != nullptr && technology->wears_out;
  part.level = hand.reasoning.foresight.now.cohorts.at(*node.cohort);
  // Resoldered or adjusted, a part is mended, but no younger.
  const bool mended = contains(hand.reasoning.evidence.mended, item);
  part.renewed = was_replaced(hand, item);
  part.convicted = !mended && convicted(hand, item);
  // A tired part still does its work: that it will not for long is what the wear-out says.
  const double sound = hand.reasoning.foresight.now.items[item][0];
  part.faulty =
      mended ? 0.0 : std::max(0.0, 1.0 - sound - share_of_state(hand.reasoning, item, "tired"));
  part.seeping = part.renewed ? 0.0 : share_of_state(hand.reasoning, item, "seeped");
  return part;
}

/// With nothing convicted and nothing mended, the leading capacitor stands in.
void let_leader_stand_in(const CaseInHand& hand, WeighedSet& set) {
  const auto& suspicion = hand.reasoning.suspicion;
  const auto leader =
      std::max_element(set.items.begin(), set.items.end(),
                       [&](std::size_t a, std::size_t b) { return suspicion[a] < suspicion[b]; });
  if (leader == set.items.end() || suspicion[*leader] < stands_in_from) {
    set.notices.emplace_back("No capacitor is under enough suspicion to be weighed by itself.");
    return;
  }
  PartStock& part = set.stock.parts[static_cast<std::size_t>(leader - set.items.begin())];
  part.convicted = true;
  set.notices.push_back(
      "Nothing is convicted yet. Reckoned as if " + mid_sentence(part.title) +
      " were to be replaced (" + percent(suspicion[*leader]) + "); go on probing first." +
      (part.count > 1 && read_over_limit(hand, *leader)
           ? " A reading there is over its limit: say by its name which part of the " +
                 std::to_string(part.count) + " it was, and it counts in full."
           : ""));
}

void set_age(const CaseInHand& hand, WeighedSet& set) {
  const knowledge::Equipment& equipment = *hand.ground.equipment;
  const auto& told = hand.state.intake.year_built;
  const int built = told.value_or((equipment.year_from + equipment.year_to) / 2);
  set.stock.age_years = std::max(0, year_of(hand.state.opened_at) - built);
  if (!told) {
    set.notices.push_back("The year of building is not known; " + std::to_string(built) +
                          ", the middle of the years of this kind of set, was taken.");
  }
}

/// What is still shut, and the boards that lie behind it.
std::vector<decision::AccessStep> shut_access(const CaseInHand& hand) {
  const planning::Bench& bench = hand.reasoning.bench.bench;
  std::map<std::size_t, decision::AccessStep> steps;
  for (const knowledge::Board& board : hand.ground.equipment->boards) {
    const std::string& wanted = board.solder_access.empty() ? board.access : board.solder_access;
    for (std::size_t i = 0; i < bench.access.size(); ++i) {
      if (bench.access[i].id != wanted) {
        continue;
      }
      for (const std::size_t step : steps_to(bench, {i})) {
        steps[step].effort = bench.access[step].effort;
        steps[step].boards.push_back(board.id);
      }
    }
  }
  std::vector<decision::AccessStep> list;
  list.reserve(steps.size());
  for (auto& [index, step] : steps) {
    list.push_back(std::move(step));
  }
  return list;
}

/// P(the complaint stays) for each scope: what has been mended counts, whatever is still done.
std::map<Scope, double> complaint_left(const CaseInHand& hand, const WeighedSet& set) {
  const auto& complaint = hand.reasoning.bench.bench.complaint;
  const bool gone = set.preventive || complaint_gone(hand.state);
  std::map<Scope, std::vector<std::size_t>> mended_by;
  std::vector<std::vector<std::size_t>> sets;
  for (const Scope scope : {Scope::nothing, Scope::convicted_part, Scope::cohort, Scope::board,
                            Scope::all_electrolytics}) {
    std::vector<std::size_t> mended = hand.reasoning.evidence.mended;
    for (const std::size_t part : decision::replaced_by(set.stock, scope)) {
      mended.push_back(set.items[part]);
    }
    if (!gone && !mended.empty() && !quantities::holds(sets, mended)) {
      sets.push_back(mended);
    }
    mended_by.emplace(scope, std::move(mended));
  }
  const std::vector<double> blame = blame_of(hand.reasoning, complaint, sets);
  std::map<Scope, double> left;
  for (const auto& [scope, mended] : mended_by) {
    const auto found = std::find(sets.begin(), sets.end(), mended);
    left[scope] =
        gone ? 0.0
        : mended.empty()
            ? 1.0
            : std::clamp(1.0 - blame.at(static_cast<std::size_t>(found - sets.begin())), 0.0, 1.0);
  }
  return left;
}

}  // namespace

int count_of(const CaseInHand& hand, std::size_t item) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const knowledge::PartGroup* group = hand.ground.group_of(item);
  if (compiled.kind != diagnosis::CompiledItem::Kind::group || group == nullptr) {
    return 1;
  }
  const auto named = std::count_if(hand.state.parts.begin(), hand.state.parts.end(),
                                   [&](const NamePart& part) { return part.group == group->id; });
  return std::max(1, group->count - static_cast<int>(named));
}

WeighedSet weighed_set_of(const CaseInHand& hand) {
  WeighedSet set;
  set.preventive = hand.reasoning.bench.bench.complaint.empty();
  set.stock.level_names = hand.ground.knowledge->ageing.levels;
  set_age(hand, set);
  for (std::size_t i = 0; i < hand.ground.compiled.items.size(); ++i) {
    if (is_capacitor(hand.ground.compiled.items[i])) {
      set.stock.parts.push_back(stock_of(hand, i));
      set.items.push_back(i);
    }
  }
  const auto& parts = set.stock.parts;
  set.settled =
      !hand.reasoning.evidence.mended.empty() ||
      std::any_of(parts.begin(), parts.end(), [](const PartStock& p) { return p.convicted; });
  if (!set.settled && !set.preventive) {
    let_leader_stand_in(hand, set);
  }
  set.stock.mended = !hand.reasoning.evidence.mended.empty();
  set.stock.access = shut_access(hand);
  set.stock.complaint_left = complaint_left(hand, set);
  return set;
}

}  // namespace dryout::casework
