#include "casework/set_stock.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "casework/batches.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using decision::PartStock;
using decision::Scope;

/// A leader below this is no ground to reckon with (judgement).
constexpr double stands_in_from = 0.1;

bool contains(const std::vector<std::size_t>& list, std::size_t item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

/// What is convicted explains so little of the complaint that something else must be (judgement).
constexpr double explains_from = 0.5;

bool judged(const CaseInHand& hand, std::size_t item, JudgeSuspect::Verdict verdict) {
  return was_judged(hand.ground, hand.state, item, verdict);
}

bool read_over_limit(const CaseInHand& hand, std::size_t item) {
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    if (hand.reasoning.evidence.weighed.at(i).is_bad() &&
        hand.ground.item(hand.state.readings[i].what.item) == item) {
      return true;
    }
  }
  return false;
}

/// A reading that decided something, over or within, was taken at a part of this group.
bool was_examined(const CaseInHand& hand, const std::string& group) {
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    const auto item = hand.ground.item(hand.state.readings[i].what.item);
    if (item && hand.ground.compiled.items[*item].group == group &&
        (weighed.is_bad() || weighed.is_good())) {
      return true;
    }
  }
  return false;
}

bool was_replaced(const CaseInHand& hand, std::size_t item) {
  return std::any_of(hand.state.repairs.begin(), hand.state.repairs.end(), [&](const auto& told) {
    return told.what.action == "replaced" && hand.ground.item(told.what.item) == item;
  });
}

PartStock stock_of(const CaseInHand& hand, std::size_t item, const decision::MendingRules& rules,
                   double age_years) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const knowledge::PartGroup& group = *hand.ground.group_of(item);
  const diagnosis::Item& node = hand.reasoning.evidence.network.plain().items[item];
  const NamePart* named = named_part(hand.ground, hand.state, item);
  const std::string kind = technology_of_item(hand, item);
  const auto* technology = knowledge::find(hand.ground.knowledge->technologies, kind);
  PartStock part;
  part.item = node.id;
  part.title = compiled.title;
  part.count = count_of(hand, item);
  part.cohort =
      batch_of(*hand.ground.knowledge, *hand.ground.equipment, hand.state.parts, group, named);
  part.board = hand.ground.equipment->blocks.at(compiled.block).board;
  part.warmth = group.warmth;
  part.electrolytic = technology != nullptr && technology->wears_out;
  part.level = hand.reasoning.foresight.now.cohorts.at(*node.cohort);
  // Resoldered or adjusted, a part is mended, but no younger.
  const bool mended = contains(hand.reasoning.evidence.mended, item);
  part.renewed = was_replaced(hand, item);
  part.convicted = hand.reasoning.convicted[item] != Conviction::none;
  part.judged = hand.reasoning.convicted[item] == Conviction::by_judgement;
  part.unexamined = !was_examined(hand, compiled.group);
  part.goes_first = !part.renewed && !judged(hand, item, JudgeSuspect::Verdict::cleared) &&
                    rules.first_to_go(group.role, kind, age_years) != nullptr;
  if (const auto* rule = rules.once_convicted(group.role, kind, age_years); rule != nullptr) {
    part.whatever_it_costs = rule->because;
  }
  // A tired part still does its work: that it will not for long is what the wear-out says.
  const double unsound = hand.reasoning.unsound[item];
  part.faulty =
      mended ? 0.0 : std::max(0.0, unsound - share_of_state(hand.reasoning, item, "tired"));
  part.seeping = part.renewed ? 0.0 : share_of_state(hand.reasoning, item, "seeped");
  return part;
}

/// A cause that is no capacitor, as far as it is convicted or stands in.
PartStock remedy_stock(const CaseInHand& hand, std::size_t item,
                       const decision::MendingRules& rules) {
  const diagnosis::CompiledItem& compiled = hand.ground.compiled.items[item];
  const auto* cause = knowledge::find(hand.ground.knowledge->causes, compiled.cause);
  const decision::Remedy* remedy = rules.remedy_for(compiled.cause);
  PartStock part;
  part.item = hand.reasoning.evidence.network.plain().items[item].id;
  part.title = compiled.title;
  part.board = hand.ground.equipment->blocks.at(compiled.block).board;
  part.electrolytic = false;
  part.convicted = true;
  part.judged = hand.reasoning.convicted[item] == Conviction::by_judgement;
  part.faulty = 1.0 - hand.reasoning.foresight.now.items[item][0];
  part.effort = cause == nullptr ? quantities::minutes(0.0) : cause->remedy;
  part.price = remedy == nullptr ? 0.0 : remedy->price;
  return part;
}

void add_part(WeighedSet& set, PartStock part, std::size_t item) {
  set.stock.parts.push_back(std::move(part));
  set.items.push_back(item);
}

/// What is to be mended first: by the plan, or else what is most to blame. What is convicted goes
/// anyway.
std::optional<std::size_t> leader_of(const CaseInHand& hand) {
  const auto& mended = hand.reasoning.evidence.mended;
  const auto& convicted = hand.reasoning.convicted;
  if (hand.reasoning.step.kind == planning::NextStep::Kind::mend) {
    const auto item = hand.reasoning.bench.bench.remedies.at(hand.reasoning.step.index).item;
    if (convicted[item] == Conviction::none &&
        !judged(hand, item, JudgeSuspect::Verdict::cleared)) {
      return item;
    }
  }
  std::optional<std::size_t> leader;
  for (std::size_t i = 0; i < hand.reasoning.blame.size(); ++i) {
    if (!contains(mended, i) && convicted[i] == Conviction::none &&
        !judged(hand, i, JudgeSuspect::Verdict::cleared) &&
        (!leader || hand.reasoning.blame[i] > hand.reasoning.blame[*leader])) {
      leader = i;
    }
  }
  return leader;
}

/// With nothing convicted that explains the complaint, and nothing mended, the leader stands in.
void let_leader_stand_in(const CaseInHand& hand, const decision::MendingRules& rules,
                         bool one_convicted, WeighedSet& set) {
  const auto& blame = hand.reasoning.blame;
  const std::string hardly = one_convicted
                                 ? "What is convicted goes, and hardly explains the complaint (" +
                                       percent(hand.reasoning.by_convicted) + "). "
                                 : "";
  const auto leader = leader_of(hand);
  if (!leader || blame[*leader] < stands_in_from) {
    // A set with a fault in it, and nothing to point at: neither left nor replaced on a guess.
    set.stock.on_a_guess = set.stock.measure_first = !one_convicted;
    set.notices.push_back(hardly + "Nothing " + (one_convicted ? "else " : "") +
                          "is under enough suspicion to be weighed by itself.");
    return;
  }
  const auto at = static_cast<std::size_t>(std::find(set.items.begin(), set.items.end(), *leader) -
                                           set.items.begin());
  if (at == set.items.size()) {
    add_part(set, remedy_stock(hand, *leader, rules), *leader);
  }
  PartStock& part = set.stock.parts[at];
  part.convicted = true;
  // A set with a fault in it calls for mending: what it takes is what leads.
  set.stock.calls_for_mending = true;
  set.stock.on_a_guess = !one_convicted;
  const std::string nothing = "Nothing " +
                              std::string(hand.reasoning.evidence.mended.empty() ? "" : "else ") +
                              "is convicted yet. ";
  set.notices.push_back(
      (one_convicted ? hardly : nothing) + "Reckoned as if " + mid_sentence(part.title) +
      " were to be " + (part.effort ? "mended" : "replaced") + (one_convicted ? " too (" : " (") +
      percent(blame[*leader]) + "); go on probing first." +
      (part.count > 1 && read_over_limit(hand, *leader)
           ? " A reading there is over its limit: say by its name which part of the " +
                 std::to_string(part.count) + " it was, and it counts in full."
           : ""));
}

/// What no limit convicts, and a group of which one part was read: what the figures say to it.
void tell_of_convictions(const CaseInHand& hand, WeighedSet& set) {
  for (std::size_t i = 0; i < set.items.size(); ++i) {
    const PartStock& part = set.stock.parts[i];
    const std::size_t item = set.items[i];
    const bool complained = !hand.reasoning.bench.bench.complaint.empty();
    if (part.judged) {
      set.notices.push_back(
          part.title + " was judged at fault by the technician: no limit convicts it" +
          (complained ? ", and by the figures there is a chance of " +
                            percent(hand.reasoning.blame[item]) + " that it makes the complaint."
                      : "."));
    } else if (part.count > 1 && hand.reasoning.convicted[item] == Conviction::by_reading) {
      set.notices.push_back(part.title + ": one of the " + std::to_string(part.count) +
                            " was read over its limit. Say by its name which, and the others are "
                            "decided by their own readings.");
    }
  }
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

/// Whoever replaced a part had its board open, whether that was told or not.
bool had_hands_on(const CaseInHand& hand, const std::string& board) {
  return std::any_of(hand.reasoning.evidence.mended.begin(), hand.reasoning.evidence.mended.end(),
                     [&](std::size_t item) {
                       const auto block = hand.ground.compiled.items[item].block;
                       return hand.ground.equipment->blocks.at(block).board == board;
                     });
}

/// What is still shut, and the boards that lie behind it.
std::vector<decision::AccessStep> shut_access(const CaseInHand& hand) {
  const planning::Bench& bench = hand.reasoning.bench.bench;
  std::map<std::size_t, decision::AccessStep> steps;
  for (const knowledge::Board& board : hand.ground.equipment->boards) {
    if (had_hands_on(hand, board.id)) {
      continue;
    }
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

std::vector<std::size_t> rest_of(const CaseInHand& hand, const std::vector<std::size_t>& mended) {
  std::vector<std::size_t> rest;
  for (std::size_t i = 0; i < hand.ground.compiled.items.size(); ++i) {
    if (!contains(mended, i)) {
      rest.push_back(i);
    }
  }
  return rest;
}

/// P(the complaint stays though some items are mended): something else causes some of it, or they
/// did not cause any of it. The first counts where two do, the second what comes from nowhere
/// known.
double stays(double blame_of_mended, double blame_of_rest) {
  return std::clamp(std::max(blame_of_rest, 1.0 - blame_of_mended), 0.0, 1.0);
}

/// P(the complaint stays) for each scope: what has been mended counts, whatever is still done.
std::map<Scope, double> complaint_left(const CaseInHand& hand, const WeighedSet& set) {
  const auto& complaint = hand.reasoning.bench.bench.complaint;
  const bool gone = set.preventive || complaint_gone(hand.state);
  std::map<Scope, std::vector<std::size_t>> mended_by;
  std::vector<std::vector<std::size_t>> sets;             // those mended, and behind each the rest
  std::map<std::vector<std::size_t>, std::size_t> place;  // of those mended among the sets
  for (const Scope scope : {Scope::nothing, Scope::convicted_part, Scope::cohort, Scope::board,
                            Scope::all_electrolytics}) {
    std::vector<std::size_t> mended = hand.reasoning.evidence.mended;
    for (const std::size_t part : decision::replaced_by(set.stock, scope)) {
      mended.push_back(set.items[part]);
    }
    if (!gone && !mended.empty() && place.emplace(mended, sets.size()).second) {
      sets.push_back(mended);
      sets.push_back(rest_of(hand, mended));
    }
    mended_by.emplace(scope, std::move(mended));
  }
  const std::vector<double> blame = blame_of(hand.reasoning, complaint, sets);
  std::map<Scope, double> left;
  for (const auto& [scope, mended] : mended_by) {
    if (gone || mended.empty()) {
      left[scope] = gone ? 0.0 : 1.0;
      continue;
    }
    const std::size_t at = place.at(mended);
    left[scope] = stays(blame.at(at), blame.at(at + 1));
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

std::string technology_of_item(const CaseInHand& hand, std::size_t item) {
  const NamePart* named = named_part(hand.ground, hand.state, item);
  return named == nullptr || named->technology.empty()
             ? knowledge::technology_of(*hand.ground.knowledge, *hand.ground.group_of(item))
             : named->technology;
}

WeighedSet weighed_set_of(const CaseInHand& hand, const decision::MendingRules& rules) {
  WeighedSet set;
  set.preventive = hand.reasoning.evidence.symptoms_present.empty();
  set.stock.preventive = set.preventive;
  set.stock.level_names = hand.ground.knowledge->ageing.levels;
  set_age(hand, set);
  for (std::size_t i = 0; i < hand.ground.compiled.items.size(); ++i) {
    if (is_capacitor(hand.ground.compiled.items[i])) {
      add_part(set, stock_of(hand, i, rules, set.stock.age_years), i);
    } else if (hand.reasoning.convicted[i] != Conviction::none) {
      add_part(set, remedy_stock(hand, i, rules), i);
    }
  }
  const auto& parts = set.stock.parts;
  const bool one_convicted =
      std::any_of(parts.begin(), parts.end(), [](const PartStock& p) { return p.convicted; });
  set.settled = !hand.reasoning.evidence.mended.empty() || one_convicted;
  set.stock.calls_for_mending =
      std::any_of(parts.begin(), parts.end(), [](const PartStock& p) { return p.must_go(); });
  // After a repair the set is tried first; only a complaint that is still there asks for more.
  const bool waits = awaits_retest(hand.state) || complaint_gone(hand.state);
  tell_of_convictions(hand, set);
  const bool overruled =
      std::any_of(parts.begin(), parts.end(), [](const PartStock& p) { return p.judged; });
  // Beyond doubt by blame alone explains it by itself; the technician's word is not asked again.
  const bool by_blame =
      std::any_of(hand.reasoning.convicted.begin(), hand.reasoning.convicted.end(),
                  [](Conviction each) { return each == Conviction::by_blame; });
  const bool explained =
      one_convicted && (overruled || by_blame || hand.reasoning.by_convicted >= explains_from);
  if (!explained && !set.preventive && !waits) {
    let_leader_stand_in(hand, rules, one_convicted, set);
  }
  set.stock.mended = !hand.reasoning.evidence.mended.empty();
  set.stock.access = shut_access(hand);
  set.stock.complaint_left = complaint_left(hand, set);
  return set;
}

}  // namespace dryout::casework
