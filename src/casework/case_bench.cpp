#include "casework/case_bench.h"

#include <algorithm>
#include <functional>

#include "casework/danger.h"

namespace dryout::casework {
namespace {

using knowledge::Equipment;
using quantities::Second;

/// Bench time to replace capacitors, lids apart: fetching, desoldering and cleaning for the first,
/// and each further one of the group (judgement).
constexpr Second first_part = quantities::minutes(8.0);
constexpr Second further_part = quantities::minutes(4.0);
/// What a sound part replaced costs beside its minutes: the part, a pad that may lift, a set less
/// original than it was (judgement).
constexpr Second needless_part = quantities::minutes(10.0);

/// What it is charged with that a set leaves with its fault in it: two days of the bench, about
/// what the search by other means costs (judgement). Charged with more, the advice cures a few sets
/// more in a hundred, each for many hours of probing under power (src/planning/README.md has the
/// sweep).
constexpr Second left_unmended = quantities::hours(16.0);

std::vector<std::size_t> step_of(const Equipment& equipment, const std::string& id) {
  for (std::size_t i = 0; i < equipment.access.size(); ++i) {
    if (equipment.access[i].id == id) {
      return {i};
    }
  }
  return {};
}

std::vector<std::size_t> access_for_block(const Equipment& equipment, const knowledge::Block& block,
                                          bool solder_side) {
  const auto* board = knowledge::find(equipment.boards, block.board);
  if (board == nullptr) {
    return {};
  }
  const bool behind = solder_side && !board->solder_access.empty();
  return step_of(equipment, behind ? board->solder_access : board->access);
}

Second remedy_effort(const Ground& ground, std::size_t item) {
  const diagnosis::CompiledItem& compiled = ground.compiled.items[item];
  if (!is_capacitor(compiled)) {
    const auto* cause = knowledge::find(ground.knowledge->causes, compiled.cause);
    return cause == nullptr ? first_part : cause->remedy;
  }
  const auto* group = ground.group_of(item);
  const bool one = compiled.kind == diagnosis::CompiledItem::Kind::part || group == nullptr;
  return first_part + further_part * (one ? 0.0 : group->count - 1.0);
}

void add_remedies(planning::Bench& bench, const Ground& ground, const CaseEvidence& evidence) {
  for (std::size_t item = 0; item < ground.compiled.items.size(); ++item) {
    const auto& mended = evidence.mended;
    if (std::find(mended.begin(), mended.end(), item) != mended.end()) {
      continue;
    }
    const diagnosis::CompiledItem& compiled = ground.compiled.items[item];
    const auto& block = ground.equipment->blocks.at(compiled.block);
    bench.remedies.push_back({item, remedy_effort(ground, item),
                              access_for_block(*ground.equipment, block, is_capacitor(compiled))});
  }
}

/// Whether what the check would say is known: it was made since the last repair, or it looked good
/// before, and mending makes no faults.
bool answered(const CaseState& state, const diagnosis::CompiledFinding& finding) {
  const auto newest =
      std::find_if(state.outcomes.rbegin(), state.outcomes.rend(), [&](const auto& told) {
        return told.what.check == finding.check && told.what.place == finding.place;
      });
  return newest != state.outcomes.rend() &&
         (newest->repairs == state.repairs.size() || newest->what.bad == Seen::no);
}

/// Good valves go into a stage with fixed bias once its bias volts were read and are right, or once
/// somebody has said that they will not be read.
bool waits_for_bias(const Ground& ground, const CaseState& state, const Hazard& hazard) {
  const bool warns = std::any_of(
      hazard.cautions.begin(), hazard.cautions.end(), [](const knowledge::Caution* caution) {
        return std::find(caution->where.begin(), caution->where.end(), "bias") !=
               caution->where.end();
      });
  if (!warns) {
    return false;
  }
  const auto is_bias_volts = [&](const std::string& id, const std::string& place) {
    const auto* check = knowledge::find(ground.knowledge->checks, id);
    const auto* rail = knowledge::find(ground.equipment->rails, place);
    return check != nullptr && rail != nullptr && check->quantity == "volts" &&
           rail->kind == "bias";
  };
  const auto newest = std::find_if(
      state.outcomes.rbegin(), state.outcomes.rend(),
      [&](const auto& told) { return is_bias_volts(told.what.check, told.what.place); });
  const bool right = newest != state.outcomes.rend() && newest->what.bad == Seen::no;
  return !right &&
         std::none_of(state.declined.begin(), state.declined.end(), [&](const auto& each) {
           return is_bias_volts(each.first.first, each.first.second);
         });
}

}  // namespace

planning::Bench access_of(const Ground& ground, const CaseState& state) {
  planning::Bench bench;
  bench.proof = proof_run;
  bench.needless = needless_part;
  bench.give_up = left_unmended;
  for (const knowledge::AccessRule& rule : ground.equipment->access) {
    planning::AccessStep step{rule.id, rule.effort, {}};
    for (const std::string& needed : rule.needs) {
      const auto found = step_of(*ground.equipment, needed);
      step.needs.insert(step.needs.end(), found.begin(), found.end());
    }
    bench.access.push_back(std::move(step));
  }
  bench.open.assign(bench.access.size(), false);
  const std::function<void(std::size_t)> open = [&](std::size_t step) {
    if (!bench.open[step]) {
      bench.open[step] = true;
      for (const std::size_t needed : bench.access[step].needs) {
        open(needed);
      }
    }
  };
  for (std::size_t i = 0; i < bench.access.size(); ++i) {
    if (state.open_access.contains(bench.access[i].id)) {
      open(i);
    }
  }
  return bench;
}

std::vector<std::size_t> steps_to(const planning::Bench& bench,
                                  const std::vector<std::size_t>& wanted) {
  std::vector<std::size_t> steps;
  const std::function<void(std::size_t)> reach = [&](std::size_t step) {
    if (bench.open[step] || std::find(steps.begin(), steps.end(), step) != steps.end()) {
      return;
    }
    for (const std::size_t needed : bench.access[step].needs) {
      reach(needed);
    }
    steps.push_back(step);
  };
  for (const std::size_t step : wanted) {
    reach(step);
  }
  return steps;
}

Second effort_of(const planning::Bench& bench, const std::vector<std::size_t>& steps) {
  Second sum;
  for (const std::size_t step : steps) {
    sum += bench.access[step].effort;
  }
  return sum;
}

std::vector<std::size_t> access_for_check(const Ground& ground, KnownFinding finding) {
  const diagnosis::CompiledFinding& compiled = ground.compiled.named(finding);
  const auto* check = knowledge::find(ground.knowledge->checks, compiled.check);
  const Whereabouts where = whereabouts_of(ground, compiled);
  if (check == nullptr || where.block == nullptr ||
      check->access == knowledge::CheckRule::Access::outside) {
    return {};
  }
  return access_for_block(*ground.equipment, *where.block,
                          check->access == knowledge::CheckRule::Access::solder_side);
}

CaseBench bench_of(const Ground& ground, const CaseState& state, CaseEvidence& evidence) {
  CaseBench result{access_of(ground, state), {}};
  for (std::size_t i = 0; i < ground.compiled.findings.size(); ++i) {
    const KnownFinding known(i);
    const diagnosis::CompiledFinding& finding = ground.compiled.named(known);
    const auto* check = knowledge::find(ground.knowledge->checks, finding.check);
    if (finding.check.empty() || check == nullptr) {
      continue;
    }
    if (answered(state, finding)) {
      continue;
    }
    const CaseFinding sought = add_finding_now(evidence, known);
    const Hazard hazard = hazard_of(ground, known);
    if (state.declined.contains({finding.check, finding.place}) ||
        waits_for_bias(ground, state, hazard)) {
      continue;
    }
    result.bench.checks.push_back({ground.compiled.at(known).id, sought.value(), check->effort,
                                   access_for_check(ground, known), hazard.danger});
    result.findings.push_back(known);
  }
  add_remedies(result.bench, ground, evidence);
  return result;
}

quantities::Result<UntouchedSet> untouched_set(GroundCache& grounds, const std::string& equipment,
                                               std::int64_t now) {
  CaseState state;
  state.opened_at = now;
  state.intake.equipment = equipment;
  const auto ground = grounds.of(state);
  if (!ground) {
    return ground.problems();
  }
  UntouchedSet set{*ground, evidence_of(**ground, state), {}};
  set.bench = bench_of(**ground, state, set.evidence).bench;
  return set;
}

}  // namespace dryout::casework
