#include <algorithm>

#include "casework/build_view.h"
#include "casework/caution_views.h"
#include "casework/danger.h"
#include "casework/heeding.h"
#include "casework/known_across.h"
#include "casework/stored_charge.h"
#include "casework/wording.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {
namespace {

using knowledge::CheckRule;
using planning::RankedCheck;
using quantities::Probability;

std::string_view word_of_state(CheckRule::State state) {
  switch (state) {
    case CheckRule::State::unpowered:
      return "unpowered";
    case CheckRule::State::powered:
      return "powered";
    case CheckRule::State::lifted:
      break;
  }
  return "lifted";
}

std::string source_of(const knowledge::Source& source) {
  switch (source.kind) {
    case knowledge::Source::Kind::published:
      return source.text;
    case knowledge::Source::Kind::memory:
      return source.text + " (from memory)";
    case knowledge::Source::Kind::common_practice:
      return "common practice";
    case knowledge::Source::Kind::judgement:
      break;
  }
  return "judgement";
}

/// For a check of capacitors: what they are, and what is known to sit across them.
void set_surroundings(const CaseInHand& hand, CheckView& view) {
  const auto item = hand.ground.item(view.place);
  if (!item || !is_capacitor(hand.ground.compiled.items[*item])) {
    return;
  }
  const knowledge::PartGroup* group = hand.ground.group_of(*item);
  if (group == nullptr) {
    return;
  }
  view.technology = knowledge::technology_of(*hand.ground.knowledge, *group);
  if (view.state == word_of_state(CheckRule::State::lifted)) {
    view.across = readings::word_of(readings::Across::nothing);
  } else if (const auto known = known_across(hand.ground, *group)) {
    view.across = readings::word_of(known->across);
    view.across_because = known->because;
  }
}

/// All of a check that does not depend on the figures.
CheckView plain_check(const CaseInHand& hand, const Heeded& heeded, KnownFinding finding) {
  const diagnosis::CompiledFinding& compiled = hand.ground.compiled.named(finding);
  const CheckRule& rule = *knowledge::find(hand.ground.knowledge->checks, compiled.check);
  CheckView view;
  view.check = compiled.check;
  view.place = compiled.place;
  view.title = rule.title;
  view.place_title = compiled.place_title;
  view.state = word_of_state(rule.state);
  view.instrument = rule.instrument;
  view.probes = rule.probes;
  view.good = rule.good;
  view.bad = rule.bad;
  view.because = rule.because;
  view.source = source_of(rule.source);
  view.quantity = rule.quantity;
  view.effort = rule.effort;
  set_surroundings(hand, view);
  const Hazard hazard = hazard_of(hand.ground, finding);
  const std::string here =
      hazard.dangerous() ? discharge_told(hand.ground, hand.state, compiled) : std::string();
  view.cautions = views_of(hazard, heeded, here);
  view.dangerous = hazard.dangerous();
  view.acknowledged = heeded.covers(hazard);
  view.reminder = reminder_of(hazard, heeded, here);
  return view;
}

void set_access(const CaseInHand& hand, const std::vector<std::size_t>& steps, CheckView& view) {
  view.access_effort = effort_of(hand.reasoning.bench.bench, steps);
  for (const std::size_t step : steps) {
    view.opens.push_back(hand.ground.equipment->access[step].id);
    view.opens_titles.push_back(hand.ground.equipment->access[step].title);
  }
}

/// The suspects that an outcome sets apart: `for_it` gains most from a bad outcome, `against_it` is
/// the strongest that a bad outcome does not raise.
struct SetApart {
  std::optional<std::size_t> for_it, against_it;
};

SetApart set_apart(const Reasoning& reasoning, const diagnosis::Outlook& outlook) {
  constexpr double moved_least = 0.005;
  const auto unsound = [](const auto& items, std::size_t i) { return 1.0 - items[i][0]; };
  SetApart apart;
  if (outlook.items_if_present.empty()) {
    return apart;
  }
  double gain_most = moved_least;
  double rival_most = 0.0;
  for (std::size_t i = 0; i < reasoning.blame.size(); ++i) {
    const double gain =
        (unsound(outlook.items_if_present, i) - unsound(reasoning.foresight.now.items, i)) *
        reasoning.blame[i];
    if (gain > gain_most) {
      gain_most = gain;
      apart.for_it = i;
    } else if (gain <= 0.0 && reasoning.blame[i] > rival_most) {
      rival_most = reasoning.blame[i];
      apart.against_it = i;
    }
  }
  return apart;
}

std::string named(const CaseInHand& hand, std::size_t item) {
  return mid_sentence(hand.ground.compiled.items[item].title) + " (" +
         percent(hand.reasoning.blame[item]) + ')';
}

std::string reason_of(const CaseInHand& hand, const RankedCheck& ranked, const CheckView& view) {
  constexpr double rival_least = 0.02;
  const SetApart apart =
      set_apart(hand.reasoning, hand.reasoning.foresight.outlooks.at(ranked.check));
  std::string reason = "Tells little that is not known by now";
  if (apart.for_it) {
    const bool rival = apart.against_it && hand.reasoning.blame[*apart.against_it] >= rival_least;
    reason = rival
                 ? "Tells " + named(hand, *apart.for_it) + " from " + named(hand, *apart.against_it)
                 : "Shows whether it is " + named(hand, *apart.for_it);
  }
  reason += "; " + quantities::format_duration(view.effort);
  if (!view.opens_titles.empty()) {
    reason += "; first: ";
    for (const std::string& title : view.opens_titles) {
      reason += (title == view.opens_titles.front() ? "" : ", ") + mid_sentence(title);
    }
    reason += " (" + quantities::format_duration(view.access_effort) + ')';
  }
  return reason + '.';
}

}  // namespace

std::vector<CheckView> next_checks_of(const CaseInHand& hand) {
  std::vector<CheckView> checks;
  const Heeded heeded = heeded_of(hand.ground, hand.state);
  for (const RankedCheck& ranked : hand.reasoning.ranked) {
    CheckView view = plain_check(hand, heeded, hand.reasoning.bench.findings.at(ranked.check));
    set_access(hand, ranked.opens, view);
    view.access_effort = ranked.access_effort;
    view.saving = ranked.saving;
    view.gain_bits = ranked.gain_bits;
    view.looks_bad = Probability(ranked.present);
    view.reason = reason_of(hand, ranked, view);
    checks.push_back(std::move(view));
  }
  return checks;
}

std::vector<CheckView> declined_checks_of(const CaseInHand& hand) {
  std::vector<CheckView> checks;
  const Heeded heeded = heeded_of(hand.ground, hand.state);
  for (const auto& [where, reason] : hand.state.declined) {
    const auto finding = hand.ground.check_finding(where.first, where.second);
    if (!finding) {
      continue;
    }
    CheckView view = plain_check(hand, heeded, *finding);
    set_access(hand, steps_to(hand.reasoning.bench.bench, access_for_check(hand.ground, *finding)),
               view);
    view.looks_bad = Probability(
        hand.reasoning.foresight.now.findings.at(hand.reasoning.evidence.now(*finding).value()));
    view.reason = reason.empty() ? "Left out." : "Left out: " + reason;
    checks.push_back(std::move(view));
  }
  return checks;
}

}  // namespace dryout::casework
