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

/// Finds them for one check after the other, of twins once.
class SettingApart {
 public:
  explicit SettingApart(const Reasoning& reasoning)
      : reasoning_(reasoning), known_(reasoning.foresight.outlooks.size()) {
    for (std::size_t i = 0; i < reasoning.blame.size(); ++i) {
      most_blamed_.push_back(i);
    }
    std::stable_sort(most_blamed_.begin(), most_blamed_.end(), [&](std::size_t a, std::size_t b) {
      return reasoning.blame[a] > reasoning.blame[b];
    });
  }

  [[nodiscard]] const SetApart& of(std::size_t check) {
    if (!known_.at(check)) {
      const auto& twin = reasoning_.foresight.outlooks[check].twin;
      known_[check] = twin ? image(of(twin->of), *twin) : find(check);
    }
    return *known_[check];
  }

 private:
  [[nodiscard]] static SetApart image(SetApart apart, const diagnosis::CandidateTwin& twin) {
    for (std::optional<std::size_t>* const item : {&apart.for_it, &apart.against_it}) {
      if (*item == twin.its_item) {
        *item = twin.own_item;
      } else if (*item == twin.own_item) {
        *item = twin.its_item;
      }
    }
    return apart;
  }

  /// How far a bad outcome raises what is to blame.
  [[nodiscard]] double gain(const diagnosis::Outlook& outlook, std::size_t item) const {
    return (reasoning_.foresight.now.items[item][0] - outlook.items_if_present[item][0]) *
           reasoning_.blame[item];
  }

  [[nodiscard]] SetApart find(std::size_t check) const {
    constexpr double moved_least = 0.005;
    const diagnosis::Outlook& outlook = reasoning_.foresight.outlooks[check];
    SetApart apart;
    if (outlook.items_if_present.empty()) {
      return apart;
    }
    double gain_most = moved_least;
    for (const std::size_t item : outlook.moved()) {
      const double its_gain = gain(outlook, item);
      if (its_gain > gain_most || (its_gain == gain_most && apart.for_it && item < *apart.for_it)) {
        gain_most = its_gain;
        apart.for_it = item;
      }
    }
    for (const std::size_t item : most_blamed_) {
      if (reasoning_.blame[item] <= 0.0) {
        break;
      }
      if (gain(outlook, item) <= 0.0) {
        apart.against_it = item;
        break;
      }
    }
    return apart;
  }

  const Reasoning& reasoning_;
  std::vector<std::optional<SetApart>> known_;  ///< [check]
  std::vector<std::size_t> most_blamed_;
};

std::string named(const CaseInHand& hand, std::size_t item) {
  return mid_sentence(hand.ground.compiled.items[item].title) + " (" +
         percent(hand.reasoning.blame[item]) + ')';
}

std::string reason_of(const CaseInHand& hand, const SetApart& apart, const CheckView& view) {
  constexpr double rival_least = 0.02;
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
  SettingApart apart(hand.reasoning);
  for (const RankedCheck& ranked : hand.reasoning.ranked) {
    CheckView view = plain_check(hand, heeded, hand.reasoning.bench.findings.at(ranked.check));
    set_access(hand, ranked.opens, view);
    view.access_effort = ranked.access_effort;
    view.saving = ranked.saving;
    view.gain_bits = ranked.gain_bits;
    view.looks_bad = Probability(ranked.present);
    view.reason = reason_of(hand, apart.of(ranked.check), view);
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
